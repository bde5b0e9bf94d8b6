"""Likelihood rows: from an author's words, and of several causes at once.

A row is P(outcome | cause), one number per outcome, summing to one.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

LIKELIHOOD_WORDS = ("almost_always", "usually", "sometimes", "rarely")

Row = tuple[float, ...]


def otherwise_row(outcomes: int, usual: int, share: float) -> Row:
    """Return the row of a cause that nobody wrote one for.

    The usual outcome takes `share`, the others part the rest; without a usual outcome
    (`usual` = -1) the row is uniform and tells nothing.
    """
    if usual < 0:
        return (1.0 / outcomes,) * outcomes
    rest = (1.0 - share) / (outcomes - 1)
    return tuple(share if index == usual else rest for index in range(outcomes))


def row_from_anchors(outcomes: int, anchors: Mapping[int, float]) -> Row:
    """Return the row of a cause that is listed under some outcomes with a likelihood word.

    Anchors of one outcome are already added up. A sum of at most one leaves a remainder, parted
    evenly by the outcomes where the cause is not listed; a larger sum is divided out
    (two "almost always" mean "one or the other").
    """
    total = sum(anchors.values())
    unlisted = outcomes - len(anchors)
    if total > 1.0 or unlisted == 0:
        return tuple(anchors.get(index, 0.0) / total for index in range(outcomes))
    rest = (1.0 - total) / unlisted
    return tuple(anchors.get(index, rest) for index in range(outcomes))


def combine(rows: Sequence[Row], usual: int, masks: Sequence[bool]) -> Row:
    """Return the row of several causes present at once, by causal independence.

    Each cause draws an outcome from its own row. Rows marked in `masks` hide the others. Otherwise
    an unusual draw wins over the usual outcome, and different unusual draws share equally: one
    of the unusual draws is taken, each with the same chance.

    Heckerman, D. and Breese, J. (1996). Causal independence for probability assessment and
    inference using Bayesian networks. IEEE Trans. SMC-A 26(6), 826-831.
    """
    seen = [row for row, mask in zip(rows, masks, strict=True) if mask] or list(rows)
    if len(seen) == 1:
        return tuple(seen[0])
    outcomes = len(seen[0])
    calm = [row[usual] if usual >= 0 else 0.0 for row in seen]
    mixed = [0.0] * outcomes
    for group in _groups(len(seen)):
        quiet = _product(calm[i] for i in range(len(seen)) if i not in group)
        if not group:
            mixed[usual] += quiet
            continue
        for i in group:
            share = quiet * _product(1.0 - calm[j] for j in group if j != i) / len(group)
            for outcome in range(outcomes):
                if outcome != usual:
                    mixed[outcome] += share * seen[i][outcome]
    return tuple(mixed)


def _groups(count: int) -> Iterable[tuple[int, ...]]:
    """Return every set of causes that may have drawn something unusual, the empty one first."""
    for size in range(count + 1):
        yield from combinations(range(count), size)


def _product(factors: Iterable[float]) -> float:
    result = 1.0
    for factor in factors:
        result *= factor
    return result
