"""Of which barrel a number is, where there is one per barrel."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.features import weighty
from assistant.hear.mention import Mention
from assistant.hear.quantities import Measured, in_pounds

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from assistant.hear.numbers import Number
    from assistant.hear.quantities import Quantities
    from assistant.hear.words import Word


BEHIND = 2  # words between a number and the barrel that it is of: "62 on the cola"


def placed(
    base: str, run: list[Number], first: int, mentions: Sequence[Mention], quantities: Quantities
) -> list[Measured]:
    """Return the numbers with the barrel that each is for, where there is one per barrel."""
    unit = quantities.units.get(base, "")
    if base not in quantities.per_barrel:
        return (
            [Measured(base, in_pounds(run[0], unit), (), (min(first, run[0].start), run[0].end))]
            if run
            else []
        )
    found = []
    backwards = tuple(range(quantities.barrels, 0, -1))
    if len(run) == len(backwards) and any(m.barrels == backwards for m in mentions):  # "right to left"
        return [
            Measured(base, in_pounds(n, unit), (barrel,), (n.start, n.end))
            for n, barrel in zip(run, backwards, strict=True)
        ]
    if len(run) == quantities.barrels and _in_order(run, mentions):
        barrels: Iterator[tuple[int, ...]] = iter((number,) for number in range(1, quantities.barrels + 1))
    else:
        barrels = iter([])
    behind = _each_behind(run, mentions, quantities.barrels)
    if behind:
        pairs = zip(run, behind, strict=True)
        return [Measured(base, in_pounds(n, unit), m.barrels, (n.start, m.end)) for n, m in pairs]
    begin = first
    every = tuple(range(1, quantities.barrels + 1)) if any(m.scope == "all" for m in mentions) else ()
    for number in run:
        in_turn = next(barrels, ())
        which = _before(number, -1, mentions, run) or in_turn or (every if len(run) == 1 else ())
        if len(run) == quantities.barrels and not which:
            which = next(barrels, ())
        found.append(Measured(base, in_pounds(number, unit), which, (min(begin, number.start), number.end)))
        begin = number.end
    return found


def owned(found: list[Measured], words: Sequence[Word], mentions: Sequence[Mention]) -> list[Measured]:
    """Return readings, a lone one of the barrel that is named behind it: "52, that's barrel 1"."""
    some = [mention for mention in mentions if mention.scope == "some"]
    if len(found) != 1 or len(some) != 1 or found[0].which:
        return found
    between = words[found[0].number.end : some[0].start]
    rest = words[some[0].end :]
    told = any(map(weighty, (*between, *rest))) or found[0].number.end > some[0].start
    return found if told else [replace(found[0], which=some[0].barrels)]


def _in_order(run: Sequence[Number], mentions: Sequence[Mention]) -> bool:
    """Tell whether numbers are told from left to right: what is named, if anything, stands in its place."""
    named = [_before(number, run[0].start, mentions, run) for number in run]
    return not named[-1] or (not any(named[:-1]) and named[-1] == (len(run),))


def _each_behind(run: Sequence[Number], mentions: Sequence[Mention], count: int) -> list[Mention]:
    """Return the name behind each number, "62 on cola, 64 for cherry", empty if any number has none.

    The last may go without a name where only one barrel is left.
    """
    some = [mention for mention in mentions if mention.scope == "some"]
    if not run or any(mention.start < run[0].start for mention in some):
        return []
    nexts = [number.start for number in run[1:]] + [run[-1].end + BEHIND + 1]
    found = [
        next((m for m in some if n.end <= m.start <= n.end + BEHIND and m.start < stop), None)
        for n, stop in zip(run, nexts, strict=True)
    ]
    if found[-1] is None and None not in found[:-1] and len(found) == count > 1:  # "..., 20 in between"
        left = set(range(1, count + 1)) - {barrel for m in found if m is not None for barrel in m.barrels}
        found[-1] = Mention(run[-1].end, run[-1].end, "some", tuple(left)) if len(left) == 1 else None
    return [mention for mention in found if mention is not None] if None not in found else []


def groups(mentions: Sequence[Mention], run: Sequence[Number]) -> list[tuple[int, ...]]:
    """Return the barrels named, those that are joined by one word ("cola and cherry") together."""
    found: list[tuple[int, ...]] = []
    end = -2
    figures = {number.start for number in run}
    for mention in (mention for mention in mentions if mention.scope == "some"):
        joined = found and mention.start - end <= 1 and end not in figures
        both = (
            tuple(dict.fromkeys((*found[-1], *mention.barrels))) if joined else ()
        )  # "blue, blue syrup is 6"
        found[-1:] = [both] if joined else [*found[-1:], mention.barrels]
        end = mention.end
    return found


def _before(
    number: Number, after: int, mentions: Sequence[Mention], run: Sequence[Number]
) -> tuple[int, ...]:
    """Return the barrel named last before a number, or right behind it."""
    named = groups([m for m in mentions if m.scope == "some" and after <= m.start < number.start], run)
    behind = [
        m.barrels
        for m in mentions
        if m.scope == "some" and number.end <= m.start <= number.end + 2 and not _leads(m, run)
    ]
    return (named or behind[:1] or [()])[-1]


def _leads(mention: Mention, run: Sequence[Number]) -> bool:
    """Tell whether a name belongs to the number after it: "64, middle 63"."""
    return any(0 <= number.start - mention.end <= 1 for number in run)
