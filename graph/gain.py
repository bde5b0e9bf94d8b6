"""How much each check is expected to tell, in bits: about the hypothesis, and about what to do.

The gain is H(outcome) - E[H(outcome | target)], which needs no division and so has no special case
for an outcome that cannot happen.

    Lindley, D. V. (1956). On a measure of the information provided by an experiment.
    Annals of Mathematical Statistics 27(4), 986-1005.

Most checks give the `otherwise` row d under most hypotheses, so only faults with a row of their own are
touched: P(o) = d_o + sum over them of p (L_o - d_o), and likewise for entropies. A pair of faults
shows d + (L_a - d) + (L_b - d) + D_ab, where D_ab is nonzero only if both have a row.

The target "what to do" is the remedy of the fault to deal with next; of two faults present, each is the
next with equal chance, unless a repair has dealt with one of them. `nothing` and `unknown` are targets of
their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import entropy, xlogx
from graph.pair_gain import fault_part, remedy_joint
from graph.sparse_gain import sparse_gains

if TYPE_CHECKING:
    from graph.arrays import Floats
    from graph.belief import Posterior
    from graph.plan import Plan
    from graph.tables import Tables


@dataclass(frozen=True)
class Gains:
    """Per check of the plan, in plan order."""

    outcomes: Floats  # (n, K) probability of each outcome
    fault_bits: Floats  # (n,) expected information gain about the hypothesis
    remedy_bits: Floats  # (n,) expected information gain about what to do
    remedy_mass: Floats  # (R + 2,) P(remedy), then nothing, unknown
    joint: Floats | None  # (R + 2, n, K) P(what to do, outcome); None in the sparse single-fault form


def gains(tables: Tables, plan: Plan, now: Posterior) -> Gains:
    """Return the gains of all checks of the plan, on hypotheses of up to two faults.

    Where no pair can occur the sparse form for single faults is used, whose cost grows with the
    number of entries only.
    """
    if not pairs_matter(tables, now):
        return single_gains(tables, plan, now)
    part = fault_part(plan, now)
    mass, todo = remedy_joint(tables, plan, now, part)
    kept = xlogx(mass).sum() - xlogx(todo).sum(axis=(0, 2))
    return Gains(
        outcomes=part.outcomes,
        fault_bits=part.bits,
        remedy_bits=np.maximum(entropy(part.outcomes) - kept, 0.0),
        remedy_mass=mass,
        joint=todo,
    )


def fault_bits(tables: Tables, plan: Plan, now: Posterior, *, rough: bool = False) -> Floats:
    """Return the gain about the hypothesis of all checks of the plan, shape (n,).

    It bounds the gain about what to do from above: what to do depends on the answers only through the
    hypothesis (data processing inequality; Cover and Thomas, Elements of Information Theory, 2.8).
    `rough` is faster, and off by less than 1e-5 bits.
    """
    return (
        fault_part(plan, now, rough=rough).bits
        if pairs_matter(tables, now)
        else single_gains(tables, plan, now).fault_bits
    )


def pairs_matter(tables: Tables, now: Posterior) -> bool:
    """Return whether hypotheses of two faults have any weight."""
    return now.pair_scale > 0.0 and len(tables.pair_rows) > 0


def single_gains(tables: Tables, plan: Plan, now: Posterior) -> Gains:
    """Return the gains on hypotheses of at most one fault; cost grows with the entries only."""
    found = sparse_gains(tables, plan, now)
    return Gains(
        outcomes=found.outcomes,
        fault_bits=found.fault_bits,
        remedy_bits=found.remedy_bits,
        remedy_mass=np.concatenate([found.mass, [now.nothing, now.unknown]]),
        joint=None,
    )
