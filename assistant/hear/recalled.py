"""Numbers told in a clause of their own, of the quantity that was named before: "gas keeps climbing, 84 now".

Rule of the file: the clause says nothing but the number, and the last quantity named before it has none yet.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.english import listed
from assistant.hear.placing import placed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.mention import Mention
    from assistant.hear.numbers import Number
    from assistant.hear.quantities import Measured, Quantities
    from assistant.hear.words import Word

LEADS = listed(
    """
    it is at on reads reading says saying showing shows sits sitting about around roughly only just now and
    but by that down up to currently nearly almost exactly still = :
    """
)  # before such a number, from the mark on
CLOSES = listed("now at the moment today currently though psi bar fwiw atm mate right")  # behind it
TURNS = frozenset(["and", "but"])  # begin a clause as a mark does


def recalled(
    words: Sequence[Word],
    numbers: Sequence[Number],
    names: Sequence[tuple[str, int, int]],
    mentions: Sequence[Mention],
    quantities: Quantities,
) -> list[Measured]:
    """Return the readings told apart from their names; `names` and `numbers` are those left over."""
    found: list[Measured] = []
    for number in numbers:
        before = [name for name in names if name[2] <= number.start]
        label = not number.unit and number.value in range(1, quantities.barrels + 1)  # of a barrel
        if not before or label or not _alone(words, number):
            continue
        base, first, _ = before[-1]
        if (
            quantities.takes(base, number)
            and quantities.plain(base, number)
            and quantities.can_be(base, number)
        ):
            near = [mention for mention in mentions if mention.start < number.start]
            told = placed(base, [number], first, near, quantities)[:1]
            found.extend(replace(each, span=(number.start, number.end)) for each in told)
            names = [name for name in names if name[0] != base]
    return found


def _alone(words: Sequence[Word], number: Number) -> bool:
    """Tell whether nothing else stands in the clause of a number, and something stands before it."""
    at = number.start - 1
    while at >= 0 and not _parts(words, at) and words[at].text in LEADS:
        at -= 1
    end = number.end
    while end < len(words) and not words[end].is_mark and words[end].text in CLOSES:
        end += 1
    return (
        at >= 0
        and _parts(words, at)
        and (end == len(words) or words[end].is_mark or words[end].text in TURNS)
    )


def _parts(words: Sequence[Word], at: int) -> bool:
    """Tell whether a clause ends at a word; an equals sign or a colon leads to its number."""
    return (words[at].is_mark and words[at].text not in "=:") or words[at].text in TURNS
