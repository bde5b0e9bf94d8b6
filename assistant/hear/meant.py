"""Which of several numbers in an answer is the one that was read: not what it was, should be, or goes up to.

Rule of the file: every number is weighed by the words right before and behind it; the heaviest is meant, of
equals the first.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.english import listed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.numbers import Number
    from assistant.hear.words import Word

NEAR = 4  # words looked at on each side, not beyond a mark or another number
# Before a number: what it was, should be, or might at most be.
NOT_NOW = listed(
    """
    was were been used normally normal usually usual typically supposed should shoulda meant not nowhere
    against card max maximum limit rated scale goes go than only trolley barrow
    stamp stamped tare empty minus target aim wants
    ought sheet sticker plate nameplate label manual sum patch zone band green from started start screen
    colleague lad lads mark half metre metres
    """
)
# In the same clause before a number, however far: whose number it is, or which it should be.
OF_OTHERS = listed("should ought card sheet sticker nameplate green patch screen started supposed sum")
# Behind a number: likewise.
NOT_NOW_BEHIND = listed(
    """
    ago normally normal usually usual typically before earlier yesterday morning last once max maximum limit
    years old when staff pouring filling fills pours theirs
    """
)
# Before a number: what it is now, or in the end.
NOW = listed(
    """
    now today currently actually really call say reckon think already more just still at left here get getting
    so
    """
)
TURNING = frozenset(
    ["but", "now", "so", "reads", "get", "getting", "smack", "this"]
)  # begin what is meant after all
STANDS = listed("now currently today moment mo degrees degree deg steady solid static")  # behind a number
VAGUE = listed("over above past about around roughly near nearly approximately somewhere bit just")
DECADE = 10.0
PLAINLY = 1.0  # how much heavier than the others the number is that is plainly meant
THEN = (["then"], ["then", "a"], ["then", "an"], [",", "then"], ["and", "then", "a"], ["and", "then"])
UNITS_TELL, PLAUSIBLE = 2.0, 3.0  # what a unit counts, and a value that the quantity can have


def meant(
    words: Sequence[Word], run: Sequence[Number], typical: tuple[float, float] | None = None
) -> list[Number]:
    """Return the one number of several that is meant, none if there is none.

    `typical` are the limits of what the quantity can be, in its own unit; a number without a unit is in that.
    """
    spelled = _spelled(words, run) or _made_exact(words, run)
    if spelled is not None:
        return [spelled]
    weights = [_weight(words, number, run, typical) for number in run]
    if not run:
        return []
    found = run[weights.index(max(weights))]
    others = [weight for number, weight in zip(run, weights, strict=True) if number.value != found.value]
    return [replace(found, doubtful=bool(others) and max(others) > max(weights) - PLAINLY)]


def _spelled(words: Sequence[Word], run: Sequence[Number]) -> Number | None:
    """Return the last number if those before it spell it, or what they spell: "six, then nine, 69"."""
    figures = [number for number in run if number.high is None and not number.unit and number.value < DECADE]
    if len(run) == len(figures) == 2 and [w.text for w in words[run[0].end : run[1].start]] in THEN:  # noqa: PLR2004
        return replace(run[0], value=run[0].value * DECADE + run[1].value, end=run[1].end)
    for at in range(2, len(run)):
        spelled = "".join(f"{number.value:g}" for number in run[:at])
        if len(spelled) == at and float(spelled) == run[at].value:
            return run[at]
    return None


def _made_exact(words: Sequence[Word], run: Sequence[Number]) -> Number | None:
    """Return the last number if it only makes the one before exact: "a bit over fifty, fifty three"."""
    if len(run) != 2 or [word.text for word in words[run[0].end : run[1].start]] != [","]:  # noqa: PLR2004 - a pair
        return None
    vague, exact = run
    low, high = vague.value, vague.high if vague.high is not None else vague.value + DECADE
    near = low <= exact.value < high + (vague.high is not None) and (exact.high or exact.value) <= high
    said = {word.text for word in words[max(vague.start - NEAR, 0) : vague.start]}
    return exact if near and (vague.high is not None or said & VAGUE) else None


def _weight(
    words: Sequence[Word], number: Number, run: Sequence[Number], typical: tuple[float, float] | None
) -> float:
    places = {at for other in run for at in range(other.start, other.end)}
    before = _beside(words, range(number.start - 1, number.start - 1 - NEAR, -1), places)
    behind = _beside(words, range(number.end, number.end + NEAR), places)
    unlike = typical is not None and not number.unit and not typical[0] <= number.value <= typical[1]
    clause = [word.text for word in words[_clause_start(words, number, places) : number.start]]
    turns = number is not run[0] and any(text in TURNING for text in clause)
    return (
        turns
        - any(text in OF_OTHERS for text in clause)
        + UNITS_TELL * bool(number.unit)
        - PLAUSIBLE * unlike
        - any(text in NOT_NOW for text in before)
        - any(text in NOT_NOW_BEHIND for text in behind)
        + any(text in NOW for text in before)
        + any(text in STANDS for text in behind)
    )


def _clause_start(words: Sequence[Word], number: Number, numbers: set[int]) -> int:
    """Return where the clause of a number begins: behind a mark, another number, an "and" or a "but"."""
    at = number.start
    while at > 0 and at - 1 not in numbers and not words[at - 1].is_mark:
        at -= 1
        if words[at].text in {"and", "but", "so", "now"}:
            break
    return at


def _beside(words: Sequence[Word], places: range, numbers: set[int]) -> list[str]:
    """Return the words from a number on, up to a mark or another number."""
    found: list[str] = []
    for at in places:
        if not 0 <= at < len(words) or at in numbers or words[at].is_mark:
            break
        found.append(words[at].text)
    return found
