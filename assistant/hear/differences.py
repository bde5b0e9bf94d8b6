"""Quantities that are differences, told by the numbers that they lie between: "72 before, 60 after".

Rule of the file: two numbers or more are made one; a lone number that is said to stay makes none at all.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.english import listed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.numbers import Number
    from assistant.hear.words import Word

NEAR = 3  # words before a number that may say which it is
LATER, LATER_BEHIND = (
    listed("now then after to down up finally ended ends later during out"),
    listed("now after during out later filling pouring finished afterwards"),
)
SOONER, SOONER_BEHIND = (
    listed("from was were before started start starts beginning began first rest static"),
    listed("before started start beginning first rest static in"),
)
SHOULD = listed("wants needs asks card should target supposed meant label spec wanted aim against versus vs")
BY = listed(
    "lost loses drops drop dropped down up rose rises gained climbs falls fell by within dips dipped about"
)
# What says that it went the other way than a fall or a rise: "gained two".
AGAINST = {
    "fall": frozenset(["rose", "rises", "gained", "climbed", "climbs", "up"]),
    "rise": frozenset(["lost", "loses", "drops", "drop", "dropped", "falls", "fell", "down", "dipped"]),
}
# A lone number is what stays only right behind one of these: "it is 5, same as before" tells 5.
WHERE = listed("at on")
STAYS = listed("still stays stay stayed sits sat solid steady same holding holds held stuck parked")


def difference(words: Sequence[Word], numbers: Sequence[Number], how: str) -> Number | None:
    """Return the one number that several make, as `how` says; None where they make none.

    `how` is "fall", "rise", "above", "apart" or "spread" (`graph.pack.head.Difference`).
    """
    read = [part for number in numbers if not number.counts for part in _ends(number)]
    if not read:
        return None
    if read[0].start and words[read[0].start - 1].text in BY:  # "lost 3 in 15" tells the difference itself
        against = AGAINST.get(how, frozenset())
        wrong_way = len(read) == 1 and words[read[0].start - 1].text in against and read[0].value > 0
        return replace(read[0], value=-read[0].value) if wrong_way else None
    unit = next((number.unit for number in read if number.unit), "")
    whole = replace(read[0], end=read[-1].end, high=None, unit=unit)
    if len(read) == 1:
        return replace(whole, value=0.0) if how != "above" and _stays(words, read[0]) else None
    values = [number.value for number in read]
    if how == "spread":
        return replace(whole, value=_plain(max(values) - min(values)))
    first, second = values[:2]
    if how == "above":
        turned = _before(words, read[0], SHOULD) and not _before(words, read[1], SHOULD)
    else:
        first_later = _before(words, read[0], LATER) or _behind(words, read[0], LATER_BEHIND)
        second_sooner = _before(words, read[1], SOONER) or _behind(words, read[1], SOONER_BEHIND)
        turned = first_later or (second_sooner and not _before(words, read[0], SOONER))
    if turned:
        first, second = second, first
    value = second - first if how == "rise" else first - second
    return replace(whole, value=_plain(abs(value) if how == "apart" else value))


def _ends(number: Number) -> tuple[Number, ...]:
    """Return a range as its two ends."""
    if number.high is None:
        return (number,)
    return replace(number, high=None), replace(number, value=number.high, high=None)


def _plain(value: float) -> float:
    return round(value, 6)


def _before(words: Sequence[Word], number: Number, said: frozenset[str]) -> bool:
    return any(text in said for text in _beside(words, range(number.start - 1, number.start - 1 - NEAR, -1)))


def _behind(words: Sequence[Word], number: Number, said: frozenset[str]) -> bool:
    return any(text in said for text in _beside(words, range(number.end, number.end + 1)))


def _beside(words: Sequence[Word], places: range) -> list[str]:
    """Return the words from a number on, up to a mark, an "and" or another number."""
    found: list[str] = []
    for at in places:
        if not 0 <= at < len(words) or words[at].is_mark or words[at].is_number or words[at].text == "and":
            break
        found.append(words[at].text)
    return found


def _stays(words: Sequence[Word], number: Number) -> bool:
    """Tell whether a lone number is only said to stay: "rock solid at 70"."""
    before = [word.text for word in words[: number.start] if not word.is_mark and word.text not in WHERE]
    return bool(before) and before[-1] in STAYS
