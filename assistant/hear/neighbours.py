"""Barrels told by where they stand: "the one beside the cola", "left of cherry", "between the other two".

Rule of the file: a mention takes the place of those that it is told by; what stands beside a barrel and is no
barrel ("the cup next to the cola") is none.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.hear.joined import Joined
from assistant.hear.mention import Mention

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from assistant.hear.words import Word

ONE = (
    r"\b(?:ones?|barrels?|side|tap|tub|flavour|that|whichever|whatever)"
    r"(?: (?:that is|is|that|sat|sits|sitting|sandwiched))*"
)
LONE = r"(?:^(?:(?:it is|not|sandwiched|in|the|just|only) )*)"  # nothing stands beside it
SUBJECT = rf"(?:{LONE}|\b(?:the |any )?{ONE} |(?<=, ))"
BESIDE = r"(?:right |just |immediately )?(?:next (?:door )?to|beside|alongside|adjacent to|neighbouring)"
AT = r"(?:the )?@(?: ~)*"
HAND = r"(?: hand)?(?: side)?"

BETWEEN = frozenset(["between", "with"])  # what may place a barrel without naming another

Places = tuple[int, ...]


def _beside(barrels: Places, count: int) -> Places:
    near = {other for barrel in barrels for other in (barrel - 1, barrel + 1)} - set(barrels)
    return tuple(sorted(other for other in near if 0 < other <= count))


def _left(barrels: Places, count: int) -> Places:
    del count
    return (barrels[0] - 1,) if barrels[0] > 1 else ()


def _right(barrels: Places, count: int) -> Places:
    return (barrels[0] + 1,) if barrels[0] < count else ()


def _between(barrels: Places, count: int) -> Places:
    del count
    return tuple(range(min(barrels) + 1, max(barrels)))


def _inner(barrels: Places, count: int) -> Places:
    del barrels
    return tuple(range(2, count))


def _both(barrels: Places, count: int) -> Places:
    return tuple(sorted({*barrels, *_beside(barrels, count)}))


# Where it stands, seen from the barrels that are named in it.
RELATIONS: tuple[tuple[re.Pattern[str], Callable[[Places, int], Places]], ...] = (
    (re.compile(rf"{AT} (?:and|plus) (?:(?:its|it is) neighbour|the (?:{ONE} )?{BESIDE} it)\b"), _both),
    (
        re.compile(rf"not {AT}(?: ,)?(?: but)? (?:(?:its|it is) neighbour|the (?:{ONE} )?{BESIDE} it)\b"),
        _beside,
    ),
    (re.compile(rf"{SUBJECT}(?:in )?between {AT} and {AT}"), _between),
    (re.compile(rf"{SUBJECT}(?:in )?between (?:the )?(?:other two|other 2|others|two others)\b"), _inner),
    (re.compile(rf"{SUBJECT}with a (?:barrel|one) (?:on )?(?:either|each) side\b"), _inner),
    (re.compile(rf"{SUBJECT}(?:on )?(?:either|each|both) sides? of {AT}"), _beside),
    (re.compile(rf"{SUBJECT}(?:on |to )?(?:the |its )?left{HAND} of {AT}"), _left),
    (re.compile(rf"{SUBJECT}(?:on |to )?(?:the |its )?right{HAND} of {AT}"), _right),
    (re.compile(rf"{SUBJECT}{BESIDE} {AT}"), _beside),
)


def placed_by_others(found: Sequence[Mention], words: Sequence[Word], count: int) -> list[Mention]:
    """Return the mentions, those by which another barrel is placed made into that one.

    Nothing is known of "the one next to the cherry", which has two neighbours.
    """
    texts = [word.text for word in words]
    if not found and BETWEEN.isdisjoint(texts):
        return []
    for mention in found:
        side_of = texts[mention.start] in {"left", "right"} and texts[mention.end : mention.end + 1] == ["of"]
        if mention.scope != "some" or side_of:
            continue
        texts[mention.start : mention.end] = ["@", *["~"] * (mention.end - mention.start - 1)]
    joined, left = Joined.of_texts(texts), list(found)
    for pattern, place in RELATIONS:
        match = pattern.search(joined.text)
        if match is None:
            continue
        first, end = joined.span(match)
        named = tuple(b for m in left if first <= m.start < end and texts[m.start] == "@" for b in m.barrels)
        barrels = place(named, count) if named or place is _inner else ()
        single = len(barrels) == 1 or place is _both or "one " not in f"{match[0]} "
        left = [m for m in left if m.end <= first or m.start >= end]
        left.append(
            Mention(first, end, "some", barrels) if barrels and single else Mention(first, end, "one")
        )
        break
    return sorted(left, key=lambda mention: mention.start)
