"""The prior: from rates per call to odds, so that the stated share of calls has several faults."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from graph.arrays import Floats

DEEPEST = 3  # faults at once that are ever looked at
HALVINGS = 200  # bisection steps; far past the precision of a double


@dataclass(frozen=True)
class Prior:
    """Odds per fault, and weights on the scale of products of odds."""

    odds: Floats
    nothing: float
    unknown: float
    tail_bound: float


def elementary(odds: Floats, depth: int) -> list[float]:
    """Return the sums of products over all sets of 1, 2, ... `depth` faults.

    Newton's identities: k e_k = sum over i of (-1)^(i-1) e_(k-i) p_i, with power sums p_i
    (Macdonald, Symmetric Functions and Hall Polynomials, 2nd ed. 1995, I.2).
    """
    powers = [float(np.sum(odds**i)) for i in range(1, depth + 1)]
    sums = [1.0]
    for k in range(1, depth + 1):
        total = sum((-1) ** (i - 1) * sums[k - i] * powers[i - 1] for i in range(1, k + 1))
        sums.append(max(0.0, total / k))
    return sums[1:]


def multiple_share(odds: Floats) -> float:
    """Return the share of calls with a fault that have more than one."""
    sums = elementary(odds, DEEPEST)
    return sum(sums[1:]) / sum(sums) if sum(sums) > 0.0 else 0.0


def prior(rates: Floats, several: float, nothing: float, unknown: float) -> Prior:
    """Return the prior whose share of calls with several faults is `several`.

    `rates` are primary faults per call, shape (N,). One scale turns them into odds; it is found by
    bisection, since the share grows with it. `nothing` and `unknown` are shares of all calls.
    `tail_bound` bounds the prior share of more than DEEPEST faults at once: each elementary sum is at
    most the one before times e1 / k, so what lies beyond is at most a tail of the exponential series.
    """
    low, high = 0.0, 1.0
    if np.count_nonzero(rates) < 2:  # noqa: PLR2004 - a single fault has no company, whatever the scale
        several = 0.0
    while multiple_share(rates * high) < several and high < 2.0**40:
        high *= 2.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if multiple_share(rates * middle) < several else (low, middle)
    odds = rates * high
    sums = elementary(odds, DEEPEST)
    faulty = sum(sums)
    scale = faulty / (1.0 - nothing - unknown)
    beyond = _beyond(sums)
    return Prior(odds, nothing * scale, unknown * scale, float(beyond / (scale + beyond)))


def _beyond(sums: list[float]) -> float:
    """Return a bound on the elementary sums after the last of `sums`.

    e_(k+j) <= e_k k! e1^j / (k+j)!, summed over j >= 1; the terms fall, so adding stops when nothing
    more is added.
    """
    term, total, order = sums[-1], 0.0, len(sums)
    while term > 0.0 and total + term != total:
        order += 1
        term *= sums[0] / order
        total += term
    return total
