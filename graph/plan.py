"""What the gains of a set of checks need and what no answer changes: `Plan`.

Legend: `n` checks of the plan, `J` their classes other than class 0 (columns), `E` their entries.
Rows already contain the slip of whoever answers. Columns, entries and checks are in plan order, so that
column j belongs to one check and a check's columns lie together.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import entropy
from graph.evidence import slipped

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from graph.arrays import Floats, Ints
    from graph.sparse_gain import Block
    from graph.tables import Tables


@dataclass(frozen=True)
class Batch:
    """The checks of a plan that have equally many columns, so that they can be reckoned at once."""

    checks: Ints  # (m,) positions in the plan
    columns: Ints  # (m, k)
    rows: Floats  # (m, k, K): row minus the check's otherwise row
    bits: Floats  # (m, k): entropy of the row minus that of the otherwise row
    pair_rows: Floats  # (m, k, k, K): what two causes show beyond the sum of what each shows
    pair_bits: Floats  # (m, k, k)
    entries: Ints  # (e,) positions among the plan's entries
    entry_check: Ints  # (e,) position within the batch
    entry_class: Ints  # (e,) position among the check's columns


@dataclass(frozen=True)
class Plan:
    """See the head of this file."""

    checks: Ints  # (n,) check numbers
    calm: Floats  # (n, K) otherwise rows
    calm_bits: Floats  # (n,)
    unknown: Floats  # (n, K)
    unknown_bits: Floats  # (n,)
    column_rows: Floats  # (J, K) row minus otherwise row
    column_bits: Floats  # (J,)
    column_check: Ints  # (J,)
    entry_fault: Ints  # (E,)
    entry_column: Ints  # (E,)
    batches: tuple[Batch, ...]
    joint_check: Ints  # (G,) position in the plan
    joint_first: Ints
    joint_second: Ints
    joint_rows: Floats  # (G, K) row of the pair minus what its classes show together
    joint_bits: Floats  # (G,)
    blocks: list[Block] = field(default_factory=list, compare=False)  # a memory of `sparse_gain`, no fact

    def place(self, check: int) -> tuple[Batch, int]:
        """Return the batch that holds a check of the plan, and where in it; KeyError without columns."""
        return self._batch_of[check]

    @cached_property
    def _batch_of(self) -> dict[int, tuple[Batch, int]]:
        return {
            check: (batch, at) for batch in self.batches for at, check in enumerate(batch.checks.tolist())
        }


def make_plan(
    tables: Tables, checks: Sequence[int], slips: Sequence[float], cured: Collection[int] = ()
) -> Plan:
    """Return the plan of `checks`, each answered wrongly with probability `slips`.

    Entries of `cured` faults are left out: they are no longer there to be seen.
    """
    chosen = np.array(checks, dtype=np.int64)
    outcomes = tables.outcomes[chosen]
    columns = _columns(tables, chosen)
    entry_fault, entry_column = _entries(tables, chosen, columns, cured)
    slip = np.array(slips, dtype=np.float64)
    rows = _slip_each(tables.rows[columns.number], slip[columns.check], outcomes[columns.check])
    calm = _slip_each(tables.rows[tables.class_start[chosen]], slip, outcomes)
    unknown = _slip_each(tables.unknown_rows[chosen], slip, outcomes)
    column_rows = rows - calm[columns.check]
    column_bits = entropy(rows) - entropy(calm)[columns.check]
    plan = Plan(
        checks=chosen,
        calm=calm,
        calm_bits=entropy(calm),
        unknown=unknown,
        unknown_bits=entropy(unknown),
        column_rows=column_rows,
        column_bits=column_bits,
        column_check=columns.check,
        entry_fault=entry_fault,
        entry_column=entry_column,
        batches=(),
        joint_check=np.zeros(0, dtype=np.int64),
        joint_first=np.zeros(0, dtype=np.int64),
        joint_second=np.zeros(0, dtype=np.int64),
        joint_rows=np.zeros((0, tables.width)),
        joint_bits=np.zeros(0),
    )
    return _with_pairs(tables, plan, columns, slip, frozenset(cured)) if len(tables.pair_rows) else plan


@dataclass(frozen=True)
class _Columns:
    number: Ints  # (J,) class number in the tables; class 0 of the check for a column that only fills up
    check: Ints  # (J,) position in the plan
    first: Ints  # (n,) first column of each check
    size: Ints  # (n,)


def _columns(tables: Tables, chosen: Ints) -> _Columns:
    """Return the columns, filled up per check to a power of two: few sizes make few batches."""
    classes = tables.class_start[chosen + 1] - tables.class_start[chosen] - 1
    size = np.where(classes > 0, 2 ** np.ceil(np.log2(np.maximum(classes, 1))), 0).astype(np.int64)
    check = np.repeat(np.arange(len(chosen)), size)
    first = np.concatenate([[0], np.cumsum(size)])[:-1].astype(np.int64)
    within = np.arange(len(check)) - first[check]
    number = tables.class_start[chosen][check] + np.where(within < classes[check], 1 + within, 0)
    return _Columns(number, check, first, size)


def _entries(tables: Tables, chosen: Ints, columns: _Columns, cured: Collection[int]) -> tuple[Ints, Ints]:
    """Return fault and column of every entry of the plan, column by column."""
    size = tables.entry_start[chosen + 1] - tables.entry_start[chosen]
    check = np.repeat(np.arange(len(chosen)), size)
    start = np.concatenate([[0], np.cumsum(size)])[:-1].astype(np.int64)
    where = tables.entry_start[chosen][check] + np.arange(len(check)) - start[check]
    fault = tables.entry_fault[where]
    column = tables.entry_class[where] - tables.class_start[chosen][check] - 1 + columns.first[check]
    order = np.argsort(column, kind="stable")
    fault, column = fault[order], column[order]
    keep = ~np.isin(fault, np.fromiter(cured, dtype=np.int64, count=len(cured)))
    return fault[keep], column[keep]


def _slip_each(rows: Floats, slip: Floats, outcomes: Ints) -> Floats:
    """Return rows with each check's own slip folded in; padding stays zero."""
    several = np.maximum(outcomes - 1, 1)[:, None]
    slip = np.where(outcomes > 1, slip, 0.0)[:, None]
    real = np.arange(rows.shape[1])[None, :] < outcomes[:, None]
    mixed: Floats = np.where(real, (1.0 - slip) * rows + slip * (1.0 - rows) / several, 0.0)
    return mixed


def _with_pairs(tables: Tables, plan: Plan, columns: _Columns, slip: Floats, cured: frozenset[int]) -> Plan:
    """Return the plan with what two causes at once show."""
    batches = tuple(
        _batch(tables, plan, columns, slip, int(size)) for size in np.unique(columns.size) if size > 0
    )
    position = {int(check): index for index, check in enumerate(plan.checks)}
    joint = [
        i
        for i, check in enumerate(tables.joint_check)
        if int(check) in position and not {int(tables.joint_first[i]), int(tables.joint_second[i])} & cured
    ]
    values = {name: getattr(plan, name) for name in plan.__dataclass_fields__ if name != "blocks"}
    where = np.array([position[int(tables.joint_check[i])] for i in joint], dtype=np.int64)
    rows, bits = _joint(tables, plan, slip, joint, where)
    return Plan(
        **{
            **values,
            "batches": batches,
            "joint_check": where,
            "joint_first": tables.joint_first[joint],
            "joint_second": tables.joint_second[joint],
            "joint_rows": rows,
            "joint_bits": bits,
        }
    )


def _batch(tables: Tables, plan: Plan, columns: _Columns, slip: Floats, size: int) -> Batch:
    checks = np.flatnonzero(columns.size == size)
    table = columns.first[checks][:, None] + np.arange(size)
    rows, bits = plan.column_rows[table], plan.column_bits[table]
    pair_rows = np.zeros((len(checks), size, size, tables.width))
    pair_bits = np.zeros((len(checks), size, size))
    for index, check in enumerate(checks):
        outcomes = int(tables.outcomes[plan.checks[check]])
        block = slipped(tables.pair_block(int(plan.checks[check])), float(slip[check]), outcomes)[1:, 1:]
        k = len(block)
        own, told = rows[index, :k], bits[index, :k]
        pair_rows[index, :k, :k] = block - own[:, None] - own[None, :] - plan.calm[check]
        pair_bits[index, :k, :k] = entropy(block) - told[:, None] - told[None, :] - plan.calm_bits[check]
    place = np.full(len(plan.checks), -1)
    place[checks] = np.arange(len(checks))
    entry_check = plan.column_check[plan.entry_column]
    entries = np.flatnonzero(place[entry_check] >= 0)
    return Batch(
        checks=checks,
        columns=table,
        rows=rows,
        bits=bits,
        pair_rows=pair_rows,
        pair_bits=pair_bits,
        entries=entries,
        entry_check=place[entry_check[entries]],
        entry_class=plan.entry_column[entries] - columns.first[entry_check[entries]],
    )


def _joint(tables: Tables, plan: Plan, slip: Floats, joint: list[int], where: Ints) -> tuple[Floats, Floats]:
    """Return what each joint pair shows beyond its classes, as rows and as bits."""
    rows = np.zeros((len(joint), tables.width))
    bits = np.zeros(len(joint))
    for index, (number, position) in enumerate(zip(joint, where, strict=True)):
        check = int(plan.checks[position])
        outcomes = int(tables.outcomes[check])
        classes = [
            class_of(tables, check, int(faults[number]))
            for faults in (tables.joint_first, tables.joint_second)
        ]
        own = slipped(tables.joint_rows[number], float(slip[position]), outcomes)
        plain = slipped(tables.pair_block(check)[classes[0], classes[1]], float(slip[position]), outcomes)
        rows[index] = own - plain
        bits[index] = float(entropy(own) - entropy(plain))
    return rows, bits


def select(plan: Plan, positions: Ints) -> Plan:
    """Return the plan of some of its checks, in the order given; cheap, nothing is reckoned anew."""
    number = np.full(len(plan.checks), -1)
    number[positions] = np.arange(len(positions))
    columns = np.flatnonzero(number[plan.column_check] >= 0)
    columns = columns[np.argsort(number[plan.column_check[columns]], kind="stable")]
    renamed = np.full(len(plan.column_check), -1)
    renamed[columns] = np.arange(len(columns))
    entries = np.flatnonzero(renamed[plan.entry_column] >= 0)
    entries = entries[np.argsort(renamed[plan.entry_column[entries]], kind="stable")]
    entry = np.full(len(plan.entry_column), -1)
    entry[entries] = np.arange(len(entries))
    joint = np.flatnonzero(number[plan.joint_check] >= 0)
    return Plan(
        checks=plan.checks[positions],
        calm=plan.calm[positions],
        calm_bits=plan.calm_bits[positions],
        unknown=plan.unknown[positions],
        unknown_bits=plan.unknown_bits[positions],
        column_rows=plan.column_rows[columns],
        column_bits=plan.column_bits[columns],
        column_check=number[plan.column_check[columns]],
        entry_fault=plan.entry_fault[entries],
        entry_column=renamed[plan.entry_column[entries]],
        batches=tuple(part for batch in plan.batches for part in _part(batch, number, renamed, entry)),
        joint_check=number[plan.joint_check[joint]],
        joint_first=plan.joint_first[joint],
        joint_second=plan.joint_second[joint],
        joint_rows=plan.joint_rows[joint],
        joint_bits=plan.joint_bits[joint],
    )


def _part(batch: Batch, number: Ints, renamed: Ints, entry: Ints) -> tuple[Batch, ...]:
    """Return what is left of a batch under new numbers of checks, columns and entries; maybe nothing."""
    kept = np.flatnonzero(number[batch.checks] >= 0)
    if not len(kept):
        return ()
    place = np.full(len(batch.checks), -1)
    place[kept] = np.arange(len(kept))
    mine = np.flatnonzero(place[batch.entry_check] >= 0)
    return (
        Batch(
            checks=number[batch.checks[kept]],
            columns=renamed[batch.columns[kept]],
            rows=batch.rows[kept],
            bits=batch.bits[kept],
            pair_rows=batch.pair_rows[kept],
            pair_bits=batch.pair_bits[kept],
            entries=entry[batch.entries[mine]],
            entry_check=place[batch.entry_check[mine]],
            entry_class=batch.entry_class[mine],
        ),
    )


def by_check(plan: Plan, columns: Floats) -> Floats:
    """Return values per column summed to values per check, shape (n, ...)."""
    total = np.zeros((len(plan.checks), columns.shape[1]))
    if len(columns):
        starts = np.flatnonzero(np.diff(plan.column_check, prepend=-1))
        total[plan.column_check[starts]] = np.add.reduceat(columns, starts, axis=0)
    return total


def class_of(tables: Tables, check: int, fault: int) -> int:
    """Return the class of a fault in a check, counted from the check's class 0."""
    start, stop = int(tables.entry_start[check]), int(tables.entry_start[check + 1])
    where = start + int(np.searchsorted(tables.entry_fault[start:stop], fault))
    if where < stop and int(tables.entry_fault[where]) == fault:
        return int(tables.entry_class[where] - tables.class_start[check])
    return 0
