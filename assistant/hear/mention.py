"""Words that name barrels, and which barrels a run of them is about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from assistant.hear.barrel_words import AUXILIARY, DIAL, JOINS, OUT_OF, SIDES, ZONES

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

LISTED = frozenset(
    ["all", "each", "every"]
)  # what may stand after a list of names: "cola, cherry, blue, all of them"
PLACED = frozenset(
    ["in", "on", "from", "with", "of", "at", "out"]
)  # before a name of which something is told
SINGULAR = frozenset(["is", "has", "was", "does", "pours", "tastes", "keeps", "comes", "looks", "will"])
Scope = Literal["some", "all", "both", "one"]


@dataclass(frozen=True, slots=True)
class Mention:
    """Words that name barrels: words[start:end] mean `barrels`; `scope` tells how."""

    start: int
    end: int
    scope: Scope
    barrels: tuple[int, ...] = ()


def named(mentions: Sequence[Mention], words: Sequence[Word]) -> tuple[int, ...]:
    """Return the barrels of the first mention and of those joined to it by "and" or a comma.

    Where one thing comes out of another, it is the other: "cherry out of the cola tap" is about the cola.
    """
    group: list[int] = []
    last: Mention | None = None
    for mention in mentions:
        if mention.scope != "some" or is_denied(mention, words):
            continue
        between = [word.text for word in words[last.end : mention.start]] if last else []
        if (
            len(group) > 1
            and between in ([","], [",", "the"])
            and text_at(words, mention.end) not in JOINS | LISTED
        ):
            break  # "cola and blue, cherry is fine"
        if last is not None and OUT_OF & set(between[-3:]) and between[-1] == "the":
            group.clear()
        elif last is not None and (not joined(between) or begins_anew(last, mention, words)):
            break
        group.extend(mention.barrels)
        last = mention
    return tuple(sorted(set(group)))


def joined(between: Sequence[str]) -> bool:
    """Tell whether words only join two names: "the red one and the blue one"."""
    return all(text in JOINS or text in SIDES for text in between) and any(text in JOINS for text in between)


def begins_anew(before: Mention, mention: Mention, words: Sequence[Word]) -> bool:
    """Tell whether a name joined to another begins a clause: "lumps in cola and the cherry is heavy"."""
    told = text_at(words, before.start - 1 - (text_at(words, before.start - 1) == "the"))
    return told in PLACED and text_at(words, mention.end) in SINGULAR


def is_denied(mention: Mention, words: Sequence[Word]) -> bool:
    """Tell whether barrels are named only to say that it is not those: "not barrel 2"."""
    before = mention.start - 1 - (text_at(words, mention.start - 1) == "the")
    return text_at(words, before) == "not" and text_at(words, before - 1) not in AUXILIARY


def on_a_dial(words: Sequence[Word], at: int) -> bool:
    """Tell whether a colour is part of a dial: "the needle is in the red", but not "ice in the red"."""
    said = (text_at(words, at - 2), text_at(words, at - 1), text_at(words, at))
    rest = [word.text for place, word in enumerate(words) if place not in range(at - 2, at + 1)]
    return (
        said[:2] == ("in", "the")
        and said[2] in ZONES
        and all(text in DIAL or not text.isalnum() for text in rest)
    )


def text_at(words: Sequence[Word], at: int) -> str:
    """Return the word at a place, "" where there is none."""
    return words[at].text if 0 <= at < len(words) else ""
