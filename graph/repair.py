"""What it is expected to cost to put the machine right: by acting now, or by asking first.

Heckerman, D., Breese, J. S. and Rommelse, K. (1995). Decision-theoretic troubleshooting.
Communications of the ACM 38(3), 49-57: with one fault and independent actions, trying repairs in
falling order of probability over cost has the least expected cost (Kadane and Simon 1977).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from graph.arrays import Floats, Ints


def repair_order(probability: Floats, cost: Floats) -> Ints:
    """Return the order of trying repairs, best first: falling p / c, ties by position."""
    order: Ints = np.argsort(-(probability / cost), kind="stable").astype(np.int64)
    return order


def expected_cost(probability: Floats, cost: Floats, leftover: float = np.inf) -> float:
    """Return the expected cost of trying repairs in the best order until one helps.

    ECR = sum of c_i (1 - sum of p_j over j before i), over all repairs. With a finite `leftover`, the
    cost of giving up with the machine still down, trying ends where giving up is cheaper: the least
    over k of the cost of the first k repairs plus `leftover` times the chance that none of them helps.
    `probability` and `cost` have shape (R,); costs are positive, and a repair of infinite cost is never
    tried.
    """
    table = np.asarray(probability, dtype=np.float64)[:, None]
    return float(batch_costs(table, cost, leftover, total=1.0).sum())


def cost_in_order(probability: Floats, cost: Floats, order: Ints) -> float:
    """Return the expected cost of trying repairs in a given order."""
    p, c = probability[order], cost[order]
    still = 1.0 - np.concatenate([[0.0], np.cumsum(p)[:-1]])
    return float(c @ still)


def batch_costs(joint: Floats, cost: Floats, leftover: float, total: float | None = None) -> Floats:
    """Return the expected cost of repair after each outcome, times the outcome's probability.

    `joint[r, o]` is P(what to do is r, outcome o), the rows beyond the R of `cost` standing for causes
    that no repair of ours meets. All outcomes are put in order at once. `total` is the probability that
    each outcome's column stands for, where it is not the column's own sum.
    """
    open_to_us = np.isfinite(cost)
    whole = joint.sum(axis=0) if total is None else np.full(joint.shape[1], total)
    repairs, cost = joint[: len(cost)][open_to_us], cost[open_to_us]
    order = np.argsort(-(repairs / cost[:, None]), axis=0, kind="stable")
    p = np.take_along_axis(repairs, order, axis=0)
    left = np.maximum(whole - np.cumsum(p, axis=0), 0.0)
    spent: Floats = np.cumsum(cost[order] * np.minimum(left + p, whole), axis=0)
    if not np.isfinite(leftover):
        whole_way: Floats = spent[-1]
        return whole_way
    tried = np.vstack([whole * leftover, spent + leftover * left])
    least: Floats = tried.min(axis=0)
    return least


@dataclass(frozen=True, slots=True)
class Plan:
    """Repairs in the order of trying them, by position, and what that is expected to cost until one helps.

    `likeliest_first` is the same in falling order of probability alone.
    """

    order: tuple[int, ...]
    cost: float
    likeliest_first: float


def plan(probability: Sequence[float], cost: Sequence[float]) -> Plan:
    """Return the best order of trying some repairs with positive, finite costs, and its expected cost."""
    p, c = np.asarray(probability, dtype=np.float64), np.asarray(cost, dtype=np.float64)
    best = repair_order(p, c)
    likeliest = np.argsort(-p, kind="stable").astype(np.int64)
    return Plan(tuple(int(i) for i in best), cost_in_order(p, c, best), cost_in_order(p, c, likeliest))
