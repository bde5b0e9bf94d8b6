"""Which faults look most like one fault: the expected weight of evidence between them.

If fault a is there, a check with rows p (of a) and q (of b) is expected to weigh
sum p log10(p / q) bans for a against b: the Kullback-Leibler divergence in other units. Summed over
all checks and symptoms it says how far the whole pack can tell a from b; a small sum is a look-alike.

Good, I. J. (1950). Probability and the Weighing of Evidence, chapter 6. Kullback, S. and Leibler, R. A.
(1951). On information and sufficiency. Annals of Mathematical Statistics 22(1), 79-86.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from graph.arrays import Floats
    from graph.audit.view import View

LEAST = 1e-12  # in place of a probability of zero


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A fault that resembles another: the decibans that all checks are expected to weigh against it."""

    fault: str
    decibans: float
    remedy: str
    best_check: str  # the check that weighs most of them
    best_decibans: float


def weights_against(view: View, fault: int) -> Floats:
    """Return the expected weight of evidence for `fault` against every other one, decibans, (N, C).

    Checks that only prove a repair count nothing.
    """
    rows = np.maximum(view.seen, LEAST)
    true = np.where(view.seen[view.member[fault]] > 0.0, rows[view.member[fault]], 0.0)  # (C, K)
    own = np.log10(rows[view.member[fault]])
    other = np.log10(rows)[view.member]  # (N, C, K)
    found: Floats = 10.0 * np.einsum("ck,nck->nc", true, own - other)
    found[:, [check.phase == "proving" for check in view.machine.checks]] = 0.0
    return found


def look_alikes(view: View, name: str, count: int = 5) -> tuple[LookAlike, ...]:
    """Return the `count` faults that resemble the fault `name` most, the nearest first."""
    faults = view.machine.faults
    index = next(i for i, fault in enumerate(faults) if fault.id == name)
    table = weights_against(view, index)
    total = table.sum(axis=1)
    total[index] = np.inf
    order = np.argsort(np.round(total, 9), kind="stable")[: min(count, len(faults) - 1)]
    found = []
    for other in order:
        best = int(table[other].argmax())
        check, most = view.machine.checks[best].id, float(table[other, best])
        found.append(
            LookAlike(
                faults[other].id, float(total[other]), faults[other].remedy, check if most else "", most
            )
        )
    return tuple(found)
