"""What an earlier history or a site's own prices change: rates and costs, and the arrays that rest on them.

The rule: only the prior moves. Which rows a fault has, which remedy, which part does not depend on how
often it happens, so a machine that was compiled once is weighed again in milliseconds, and comes out
equal to the same machine compiled anew.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import frozen, tally
from graph.errors import OutOfRange
from graph.prior import Prior, prior

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from graph.arrays import Floats, Ints
    from graph.machine import Machine
    from graph.tables import Tables


@dataclass(frozen=True, slots=True)
class Shown:
    """The arrays that say what each fault shows; see `tables.Tables` for their shapes."""

    rows: Floats
    class_start: Ints
    entry_fault: Ints
    entry_class: Ints
    outcomes: Ints


def weighed(machine: Machine, factors: Mapping[str, float], costs: Mapping[str, float]) -> Machine:
    """Return the machine with rates times `factors`, by fault instance, and with other `costs`.

    A factor on a fault that this machine does not have changes nothing, as a site's switch would not.
    Raises OutOfRange for a factor that is not above zero, and for a cost below zero or that no machine has.
    """
    for name, factor in factors.items():
        if not (math.isfinite(factor) and factor > 0.0):
            raise OutOfRange(f'The factor on "{name}" must be a number above 0, not {factor}.')
    for name, cost in costs.items():
        if name not in machine.settings.costs or not (math.isfinite(cost) and cost >= 0.0):
            known = ", ".join(machine.settings.costs)
            raise OutOfRange(
                f'There is no cost "{name}: {cost}"; a number of 0 or more may stand for {known}.'
            )
    faults = tuple(
        replace(fault, rate=fault.rate * factors[fault.id]) if fault.id in factors else fault
        for fault in machine.faults
    )
    settings = replace(machine.settings, costs={**machine.settings.costs, **costs})
    return replace(machine, faults=faults, settings=settings)


def prior_of(machine: Machine) -> Prior:
    """Return the prior that the rates of a machine make."""
    settings = machine.settings
    return prior(
        np.array([fault.rate for fault in machine.faults]) / 1000.0,
        settings.multiple_share,
        settings.nothing_share,
        settings.unknown_share,
    )


def mixes_of(machine: Machine) -> Sequence[float]:
    """Return for every check the weight of "anything at all" in what an unknown cause shows."""
    mix = machine.settings.unknown_mix
    return [mix if check.kind == "check" else 0.0 for check in machine.checks]


def reweighed(tables: Tables, machine: Machine) -> Tables:
    """Return the arrays of `machine`, which differs from the one that was compiled by `weighed` only."""
    weights = prior_of(machine)
    shown = Shown(tables.rows, tables.class_start, tables.entry_fault, tables.entry_class, tables.outcomes)
    return replace(
        tables,
        odds=frozen(weights.odds),
        nothing=weights.nothing,
        unknown=weights.unknown,
        unknown_rows=unknown_rows(shown, weights.odds, np.array(mixes_of(machine))),
        tail_bound=weights.tail_bound,
    )


def unknown_rows(shown: Shown, odds: Floats, mixes: Floats) -> Floats:
    """Return what a cause outside the graph shows, shape (C, K): what calls show on average, mixed.

    The average keeps a common answer from counting against the unknown; the uniform part lets
    answers that no known fault explains count for it.
    """
    share = odds / odds.sum()
    held = tally(shown.entry_class, share[shown.entry_fault], len(shown.rows))
    start = shown.class_start[:-1]
    held[start] = 1.0 - np.add.reduceat(held, start)  # class 0 has no entries: it holds the rest
    average = np.add.reduceat(held[:, None] * shown.rows, start, axis=0)
    real = np.arange(shown.rows.shape[1]) < shown.outcomes[:, None]
    mixed = (1.0 - mixes)[:, None] * average + (mixes / shown.outcomes)[:, None]
    rows: Floats = frozen(np.where(real, mixed, 0.0))
    return rows
