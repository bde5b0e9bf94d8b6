"""The gain on hypotheses of at most one fault: only entries are touched, whatever the number of faults.

What no answer changes is laid out once per plan: entries by check and remedy, outcomes first, in blocks of
checks small enough that a block's intermediate arrays stay in the processor's cache.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import tally, xlogx

if TYPE_CHECKING:
    from graph.arrays import Floats, Ints
    from graph.belief import Posterior
    from graph.plan import Plan
    from graph.tables import Tables

BLOCK = 1500  # checks


@dataclass(frozen=True)
class Block:
    """Consecutive checks of a plan. A cell is a remedy that some fault with a row in the check calls for."""

    checks: slice
    fault: Ints  # (e,)
    rows: Floats  # (K, e) row minus the check's otherwise row
    bits: Floats  # (e,)
    told: Ints  # (m,) checks of the block that have entries
    told_entry: Ints  # (m,) where each begins among the entries
    told_cell: Ints  # (m,) and among the cells
    cell_entry: Ints  # (c,) where each cell begins among the entries
    cell_remedy: Ints  # (c,)
    cell_calm: Floats  # (K, c)
    calm: Floats  # (K, b)
    beyond: Floats  # (K, b) unknown minus otherwise row


@dataclass(frozen=True)
class SparseGains:
    """Gains of all checks of a plan, and P(remedy)."""

    outcomes: Floats  # (n, K)
    fault_bits: Floats  # (n,)
    remedy_bits: Floats  # (n,)
    mass: Floats  # (R,)


def sparse_gains(tables: Tables, plan: Plan, now: Posterior) -> SparseGains:
    """Return the gains on single faults; cost grows with the entries of the plan."""
    p = now.singles
    mass = tally(tables.remedy, p, tables.remedies)
    mass_bits = xlogx(mass)
    outcomes = np.empty_like(plan.calm)
    given = plan.calm_bits + now.unknown * (plan.unknown_bits - plan.calm_bits)
    todo = (1.0 - now.unknown) * plan.calm_bits + now.unknown * plan.unknown_bits
    for block in _blocks(tables, plan):
        weight = p[block.fault]
        moved = block.rows * weight
        shown = block.calm + now.unknown * block.beyond
        outcomes[block.checks] = shown.T
        if not len(block.told):
            continue
        shown[:, block.told] += np.add.reduceat(moved, block.told_entry, axis=1)
        outcomes[block.checks] = shown.T
        given[block.checks][block.told] += np.add.reduceat(weight * block.bits, block.told_entry)
        held = mass[block.cell_remedy]
        joint = np.add.reduceat(moved, block.cell_entry, axis=1) + held * block.cell_calm
        kept = mass_bits[block.cell_remedy] - xlogx(joint).sum(axis=0)
        todo[block.checks][block.told] += (
            np.add.reduceat(kept, block.told_cell)
            - np.add.reduceat(held, block.told_cell) * plan.calm_bits[block.checks][block.told]
        )
    marginal = -xlogx(outcomes).sum(axis=1)
    return SparseGains(outcomes, np.maximum(marginal - given, 0.0), np.maximum(marginal - todo, 0.0), mass)


def _blocks(tables: Tables, plan: Plan) -> tuple[Block, ...]:
    """Return the blocks of a plan, laid out when first asked for."""
    if not plan.blocks:
        check = plan.column_check[plan.entry_column]
        order = np.lexsort((tables.remedy[plan.entry_fault], check))
        starts = range(0, len(plan.checks), BLOCK)
        ends = np.searchsorted(check[order], [*starts, len(plan.checks)])
        plan.blocks.extend(
            _block(tables, plan, slice(start, start + BLOCK), order[ends[i] : ends[i + 1]])
            for i, start in enumerate(starts)
        )
    return tuple(plan.blocks)


def _block(tables: Tables, plan: Plan, checks: slice, entries: Ints) -> Block:
    """Return one block of its entries, which are sorted by check and remedy."""
    column, fault = plan.entry_column[entries], plan.entry_fault[entries]
    check, remedy = plan.column_check[column] - checks.start, tables.remedy[fault]
    told_entry = np.flatnonzero(np.diff(check, prepend=-1))
    new_cell = np.diff(remedy, prepend=-1) != 0
    new_cell[told_entry] = True
    cell_entry = np.flatnonzero(new_cell)
    calm = np.ascontiguousarray(plan.calm[checks].T)
    return Block(
        checks=checks,
        fault=fault,
        rows=np.ascontiguousarray(plan.column_rows[column].T),
        bits=plan.column_bits[column],
        told=check[told_entry],
        told_entry=told_entry,
        told_cell=np.searchsorted(cell_entry, told_entry),
        cell_entry=cell_entry,
        cell_remedy=remedy[cell_entry],
        cell_calm=np.ascontiguousarray(calm[:, check[cell_entry]]),
        calm=calm,
        beyond=np.ascontiguousarray((plan.unknown - plan.calm)[checks].T),
    )
