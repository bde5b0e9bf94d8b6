"""The best checks without reckoning all of them: exact, by a bound.

The gain about the hypothesis costs little for all checks at once, and no check tells more about what to
do than about the hypothesis. So checks are reckoned in falling order of that bound, a block at a time,
until no bound left can reach the best found.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from graph.gain import Gains, fault_bits, gains, pairs_matter
from graph.plan import select

if TYPE_CHECKING:
    from graph.arrays import Floats, Ints
    from graph.belief import Posterior
    from graph.choose import By
    from graph.plan import Plan
    from graph.tables import Tables

BLOCK = 24
SLACK = 1e-4  # bits per minute; a rough bound must not cut off a check that ties


@dataclass(frozen=True)
class Found:
    """The checks that were reckoned; every other candidate scores no better than the `top` best of them."""

    plan: Plan
    positions: Ints  # (m,) where the checks of `plan` stand in the whole plan
    gains: Gains


def best_checks(
    tables: Tables, plan: Plan, now: Posterior, minutes: Floats, keep: Ints, *, by: By, top: int
) -> Found:
    """Return the gains of at least the `top` best of the checks `keep`, positions in the plan."""
    if not pairs_matter(tables, now):
        part = select(plan, keep)
        return Found(part, keep, gains(tables, part, now))
    cost = minutes if by == "minutes" else np.ones_like(minutes)
    bound = (fault_bits(tables, plan, now, rough=True) / cost)[keep]
    order = keep[np.argsort(-bound, kind="stable")]
    bound = -np.sort(-bound, kind="stable")
    size = min(len(order), max(BLOCK, top))
    while True:
        part = select(plan, order[:size])
        found = gains(tables, part, now)
        scores = np.sort(found.remedy_bits / cost[order[:size]])[::-1]
        reached = size >= len(order) or bound[size] + SLACK < scores[min(top, len(scores)) - 1]
        if reached:
            return Found(part, order[:size], found)
        size = min(len(order), _next_size(bound, size, float(scores[min(top, len(scores)) - 1])))


def _next_size(bound: Floats, size: int, score: float) -> int:
    """Return how many checks must be reckoned for no bound left to reach `score`; at least a block more."""
    return max(size + BLOCK, int(np.count_nonzero(bound + SLACK >= score)))
