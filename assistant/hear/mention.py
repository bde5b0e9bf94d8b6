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
AGAIN = frozenset(
    ["same", "also", "on", "for", "in", "the", "it", "is", "of", "from", "says", "another", "with"]
)
NAMING = frozenset(["the", "it", "is", "of", "with"])  # which alone join nothing
DIAL_NAMES = frozenset(["needle", "needles", "dial", "dials", "pointer", "gauge", "gauges"])
REACH = 6  # words from "not" to the last of what it denies
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
        elif last is not None and (not _goes_on(last, mention, words) or begins_anew(last, mention, words)):
            break
        group.extend(mention.barrels)
        last = mention
    return tuple(sorted(set(group)))


def _goes_on(before: Mention, mention: Mention, words: Sequence[Word]) -> bool:
    """Tell whether a name is joined to the one before, or the same is said of both."""
    between = [word.text for word in words[before.end : mention.start]]
    return (
        not between
        or joined(between)
        or says_the_same([word.text for word in words[: before.start]], between)
    )


def joined(between: Sequence[str]) -> bool:
    """Tell whether words only join two names: "the red one and the blue one"."""
    return all(text in JOINS or text in SIDES for text in between) and any(text in JOINS for text in between)


def says_the_same(before: Sequence[str], between: Sequence[str]) -> bool:
    """Tell whether what is told of one name is only said again of the next: "out on blue and out on red"."""
    anew = {text for text in between if text not in JOINS}
    return (
        bool(between)
        and between[0] in {"and", ",", "also", "plus"}
        and bool(anew)
        and anew <= {*before, *AGAIN}
        and not anew <= NAMING
    )


def begins_anew(before: Mention, mention: Mention, words: Sequence[Word]) -> bool:
    """Tell whether a name joined to another begins a clause: "lumps in cola and the cherry is heavy"."""
    told = text_at(words, before.start - 1 - (text_at(words, before.start - 1) in {"the", "one"}))
    told = (
        text_at(words, before.start - 3)
        if told == "on" and text_at(words, before.start - 3) in PLACED
        else told
    )
    comma = text_at(words, before.end) == "," and text_at(words, before.end + 1) not in {"and", "or"}
    return told in PLACED and (
        text_at(words, mention.end) in SINGULAR or (comma and _all_do(words, mention.end))
    )


def _all_do(words: Sequence[Word], at: int) -> bool:
    """Tell whether a name begins "..., the cola and cherry both pour"."""
    said = [word.text for word in words[at : at + 5]]
    return "both" in said and not {",", "."} & set(said[: said.index("both")])


def is_denied(mention: Mention, words: Sequence[Word]) -> bool:
    """Tell whether barrels are named only to say that it is not those: "not barrel 2", "nor the blue"."""
    before = mention.start - 1 - (text_at(words, mention.start - 1) == "the")
    if text_at(words, before) in {"or", "nor"}:  # of what is denied before it
        before = next((at for at in range(before - 1, max(before - REACH, -1), -1) if denies(words, at)), -1)
        return before >= 0
    return denies(words, before)


def denies(words: Sequence[Word], at: int) -> bool:
    """Tell whether a word denies the barrels named behind it; "does not" denies what they do."""
    text = text_at(words, at)
    return text in {"neither", "nor"} or (text == "not" and text_at(words, at - 1) not in AUXILIARY)


def on_a_dial(words: Sequence[Word], at: int) -> bool:
    """Tell whether a colour is part of a dial: "the needle is in the red", but not "ice in the red"."""
    said = (text_at(words, at - 2), text_at(words, at - 1))
    if said != ("in", "the") or text_at(words, at) not in ZONES:
        return False
    rest = [word.text for place, word in enumerate(words) if place not in range(at - 2, at + 1)]
    points = DIAL_NAMES & set(rest) and (at + 1 == len(words) or words[at + 1].is_mark)
    return bool(points) or all(text in DIAL or not text.isalnum() for text in rest)


def past_on_a_dial(words: Sequence[Word], at: int) -> bool:
    """Tell whether a colour is a zone that a needle is beyond: "the needle is way past the red"."""
    beyond = text_at(words, at - 2) in {"past", "over", "into", "beyond", "above", "below", "under"}
    dial = any(word.text in DIAL_NAMES for word in words[:at])
    return words[at].text in ZONES and text_at(words, at - 1) == "the" and beyond and dial


def text_at(words: Sequence[Word], at: int) -> str:
    """Return the word at a place, "" where there is none."""
    return words[at].text if 0 <= at < len(words) else ""
