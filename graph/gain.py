"""How much each check is expected to tell, in bits: about the hypothesis, and about what to do.

The gain is H(outcome) - E[H(outcome | target)], which needs no division and so has no special case
for an outcome that cannot happen.

    Lindley, D. V. (1956). On a measure of the information provided by an experiment.
    Annals of Mathematical Statistics 27(4), 986-1005.

Most checks give the `otherwise` row d under most hypotheses, so only faults with a row of their own are
touched: P(o) = d_o + sum over them of p (L_o - d_o), and likewise for entropies. A pair of faults
shows d + (L_a - d) + (L_b - d) + D_ab, where D_ab is nonzero only if both have a row.

The target "what to do" is the remedy of the fault to deal with first; of two faults present, each is the
first with equal chance. `nothing` and `unknown` are targets of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import entropy, tally
from graph.belief import pair_partners

if TYPE_CHECKING:
    from graph.arrays import Floats
    from graph.belief import Posterior
    from graph.plan import Batch, Plan
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
    if now.pair_scale <= 0.0 or not len(tables.pair_rows):
        return single_gains(tables, plan, now)
    return _pair_gains(tables, plan, now)


def single_gains(tables: Tables, plan: Plan, now: Posterior) -> Gains:
    """Return the gains on hypotheses of at most one fault; cost grows with the entries only."""
    p = now.singles
    mass = tally(tables.remedy, p, tables.remedies)
    columns = tally(plan.entry_column, p[plan.entry_fault], len(plan.column_rows))
    outcomes = (
        plan.calm
        + now.unknown * (plan.unknown - plan.calm)
        + _by_check(plan, columns[:, None] * plan.column_rows)
    )
    given = plan.calm_bits + now.unknown * (plan.unknown_bits - plan.calm_bits)
    given = given + _by_check(plan, (columns * plan.column_bits)[:, None])[:, 0]
    marginal = entropy(outcomes)
    entry_check = plan.column_check[plan.entry_column]
    code = entry_check * tables.remedies + tables.remedy[plan.entry_fault]
    order = np.argsort(code, kind="stable")
    cells, first = np.unique(code[order], return_index=True)
    check, remedy = cells // tables.remedies, cells % tables.remedies
    moved = p[plan.entry_fault[order], None] * plan.column_rows[plan.entry_column[order]]
    joint = np.add.reduceat(moved, first, axis=0) + mass[remedy, None] * plan.calm[check]
    touched = _xlogx(mass[remedy]) - _xlogx(joint).sum(axis=1)
    held = tally(check, mass[remedy], len(plan.checks))
    left = 1.0 - now.unknown - held
    todo = left * plan.calm_bits + now.unknown * plan.unknown_bits
    todo = todo + tally(check, touched, len(plan.checks))
    return Gains(
        outcomes=outcomes,
        fault_bits=np.maximum(marginal - given, 0.0),
        remedy_bits=np.maximum(marginal - todo, 0.0),
        remedy_mass=np.concatenate([mass, [now.nothing, now.unknown]]),
        joint=None,
    )


def _by_check(plan: Plan, columns: Floats) -> Floats:
    """Return values per column summed to values per check, shape (n, ...)."""
    total = np.zeros((len(plan.checks), columns.shape[1]))
    if len(columns):
        starts = np.flatnonzero(np.diff(plan.column_check, prepend=-1))
        total[plan.column_check[starts]] = np.add.reduceat(columns, starts, axis=0)
    return total


def _xlogx(values: Floats) -> Floats:
    """Return v log2 v, zero at zero; a hair below zero counts as zero."""
    safe = np.where(values > 0.0, values, 1.0)
    product: Floats = safe * np.log2(safe)
    return np.where(values > 0.0, product, 0.0)


@dataclass(frozen=True)
class _Level:
    """The pair level of a posterior in the columns of a plan; probabilities of up to two faults."""

    share: Floats  # (N,) P(fault is the one to deal with first)
    marginal: Floats  # (N,)
    nothing: float
    unknown: float
    scale: float  # of s(a) s(b) k(a, b)
    held: Floats  # (G, J) sum of s over signature and column
    partner: Floats  # (G, J) coupling applied to `held`
    own: Floats  # (N,) s(a)^2 k(a, a): a fault is no partner of itself
    apart: Floats  # (X,) extra probability of the pairs weighed apart


def _pair_gains(tables: Tables, plan: Plan, now: Posterior) -> Gains:
    level = _level(plan, now)
    columns = tally(plan.entry_column, level.marginal[plan.entry_fault], len(plan.column_rows))
    outcomes = plan.calm + level.unknown * (plan.unknown - plan.calm)
    outcomes = outcomes + _by_check(plan, columns[:, None] * plan.column_rows)
    given = plan.calm_bits + level.unknown * (plan.unknown_bits - plan.calm_bits)
    given = given + _by_check(plan, (columns * plan.column_bits)[:, None])[:, 0]
    mass = tally(tables.remedy, level.share, tables.remedies)
    todo = _remedy_joint(tables, plan, now, level, mass)
    apart = _Apart.of(plan, now, level)
    for batch in plan.batches:
        together = _together(plan, level, batch)
        apart.add_pairs(batch, together)
        outcomes[batch.checks] += 0.5 * np.einsum("mab,mabo->mo", together, batch.pair_rows)
        given[batch.checks] += 0.5 * np.einsum("mab,mab->m", together, batch.pair_bits)
    apart.add_joint(tables, plan, outcomes, given, todo)
    marginal = entropy(np.maximum(outcomes, 0.0))
    all_mass = np.concatenate([mass, [level.nothing, level.unknown]])
    kept = _xlogx(all_mass).sum() - _xlogx(todo).sum(axis=(0, 2))
    return Gains(
        outcomes=outcomes,
        fault_bits=np.maximum(marginal - given, 0.0),
        remedy_bits=np.maximum(marginal - kept, 0.0),
        remedy_mass=all_mass,
        joint=todo,
    )


def _level(plan: Plan, now: Posterior) -> _Level:
    """Return the pair level; triples are left out and the rest made to sum to one."""
    kept = 1.0 - now.triple_mass
    strength, pairs = now.strength, now.pairs
    single, scale = now.single_scale / kept, now.pair_scale / kept
    partner = strength * pair_partners(strength, pairs)
    groups, width = len(pairs.held), len(plan.column_rows)
    code = pairs.signature[plan.entry_fault] * width + plan.entry_column
    held = tally(code, strength[plan.entry_fault], groups * width)
    held = held.reshape(groups, width)
    k = pairs.coupling[pairs.signature[pairs.first], pairs.signature[pairs.second]]
    return _Level(
        share=single * strength + 0.5 * scale * partner,
        marginal=single * strength + scale * partner,
        nothing=now.nothing / kept,
        unknown=now.unknown / kept,
        scale=scale,
        held=held,
        partner=pairs.coupling @ held,
        own=strength**2 * np.diagonal(pairs.coupling)[pairs.signature],
        apart=scale * strength[pairs.first] * strength[pairs.second] * k * (pairs.factor - 1.0),
    )


def _together(plan: Plan, level: _Level, batch: Batch) -> Floats:
    """Return twice the probability of two faults, by the classes they fall into, shape (m, k, k)."""
    held = level.held[:, batch.columns].transpose(1, 2, 0)
    partner = level.partner[:, batch.columns].transpose(1, 0, 2)
    both: Floats = level.scale * (held @ partner)
    own = tally(
        plan.entry_column[batch.entries],
        level.own[plan.entry_fault[batch.entries]],
        len(plan.column_rows),
    )
    index = np.arange(both.shape[1])
    both[:, index, index] -= level.scale * own[batch.columns]
    return both


def _remedy_joint(tables: Tables, plan: Plan, now: Posterior, level: _Level, mass: Floats) -> Floats:
    """Return P(what to do, outcome), shape (R + 2, n, K), up to the pairs weighed apart."""
    count, width = tables.remedies, len(plan.column_rows)
    remedy = tables.remedy[plan.entry_fault]
    groups = len(now.pairs.held)
    by_group = tally(tables.remedy * groups + now.pairs.signature, now.strength, count * groups).reshape(
        count, groups
    )
    code = remedy * width + plan.entry_column
    weights = level.share - 0.5 * level.scale * level.own
    first = tally(code, weights[plan.entry_fault], count * width)
    columns = first.reshape(count, width) + 0.5 * level.scale * (by_group @ level.partner)
    joint = np.empty((count + 2, len(plan.checks), tables.width))
    joint[:count] = mass[:, None, None] * plan.calm
    joint[count] = level.nothing * plan.calm
    joint[count + 1] = level.unknown * plan.unknown
    for batch in plan.batches:
        moved = columns[:, batch.columns].transpose(1, 0, 2) @ batch.rows  # (m, R, K)
        both = _entry_pairs(plan, now, level, batch)
        cell = batch.entry_check * count + remedy[batch.entries]
        for outcome in range(tables.width):
            moved[:, :, outcome] += tally(cell, both[:, outcome], len(batch.checks) * count).reshape(
                len(batch.checks), count
            )
        joint[:count, batch.checks] += moved.transpose(1, 0, 2)
    return joint


def _entry_pairs(plan: Plan, now: Posterior, level: _Level, batch: Batch) -> Floats:
    """Return for each entry half of what its fault shows together with others, shape (e, K)."""
    fault = plan.entry_fault[batch.entries]
    partner = (
        level.partner[now.pairs.signature[fault][:, None], batch.columns[batch.entry_check]]
        * now.strength[fault, None]
    )
    partner[np.arange(len(fault)), batch.entry_class] -= level.own[fault]
    extra = batch.pair_rows[batch.entry_check, batch.entry_class]  # (e, k, K)
    both: Floats = 0.5 * level.scale * np.einsum("eb,ebo->eo", partner, extra)
    return both


@dataclass(frozen=True)
class _Apart:
    """Corrections for pairs that make an event true together: few, so they are done one by one."""

    pairs: tuple[tuple[int, int, float], ...]  # extra probability of a pair in the answered checks
    classes: dict[tuple[int, int], tuple[int, int]]  # (pair, plan position) -> columns within the check
    joint: Floats  # (G,) probability of each joint pair of the plan

    @classmethod
    def of(cls, plan: Plan, now: Posterior, level: _Level) -> _Apart:
        """Return the corrections; empty for most packs and most posteriors."""
        pairs = now.pairs
        extra = tuple(
            (int(a), int(b), float(w)) for a, b, w in zip(pairs.first, pairs.second, level.apart, strict=True)
        )
        classes: dict[tuple[int, int], tuple[int, int]] = {}
        if extra:
            column = {
                (int(plan.column_check[c]), int(f)): int(c)
                for f, c in zip(plan.entry_fault, plan.entry_column, strict=True)
            }
            start = np.searchsorted(plan.column_check, np.arange(len(plan.checks)))
            for index, (a, b, _) in enumerate(extra):
                for position in range(len(plan.checks)):
                    first, second = column.get((position, a)), column.get((position, b))
                    if first is not None and second is not None:
                        at = int(start[position])
                        classes[(index, position)] = (first - at, second - at)
        return cls(extra, classes, _joint_mass(plan, now, level))

    def add_pairs(self, batch: Batch, together: Floats) -> None:
        """Add the extra probability of pairs whose faults both have a row in a check."""
        if not self.classes:
            return
        place = {int(check): index for index, check in enumerate(batch.checks)}
        for (index, position), (a, b) in self.classes.items():
            if position in place:
                together[place[position], a, b] += self.pairs[index][2]
                together[place[position], b, a] += self.pairs[index][2]

    def add_joint(self, tables: Tables, plan: Plan, outcomes: Floats, given: Floats, todo: Floats) -> None:
        """Add what pairs show that their single rows do not say, and their share of what to do."""
        np.add.at(outcomes, plan.joint_check, self.joint[:, None] * plan.joint_rows)
        np.add.at(given, plan.joint_check, self.joint * plan.joint_bits)
        for fault in (plan.joint_first, plan.joint_second):
            half = 0.5 * self.joint[:, None] * plan.joint_rows
            np.add.at(todo, (tables.remedy[fault], plan.joint_check), half)
        for a, b, extra in self.pairs:
            self._add_todo(tables, plan, todo, (a, b), extra)

    def _add_todo(
        self, tables: Tables, plan: Plan, todo: Floats, pair: tuple[int, int], extra: float
    ) -> None:
        """Add the extra probability of one pair to what to do: the partner's row moves it too."""
        rows = _pair_shift(plan, pair)
        for fault in pair:
            todo[tables.remedy[fault]] += 0.5 * extra * (rows - _own_shift(plan, fault))


def _own_shift(plan: Plan, fault: int) -> Floats:
    """Return by how much a fault's own row differs from `otherwise` in every check, shape (n, K)."""
    shift = np.zeros_like(plan.calm)
    mine = plan.entry_fault == fault
    columns = plan.entry_column[mine]
    shift[plan.column_check[columns]] = plan.column_rows[columns]
    return shift


def _pair_shift(plan: Plan, pair: tuple[int, int]) -> Floats:
    """Return by how much a pair's row differs from `otherwise` in every check, shape (n, K)."""
    shift = _own_shift(plan, pair[0]) + _own_shift(plan, pair[1])
    for batch in plan.batches:
        place = {}
        for fault in pair:
            mine = plan.entry_fault[batch.entries] == fault
            place[fault] = dict(zip(batch.entry_check[mine], batch.entry_class[mine], strict=True))
        for check in set(place[pair[0]]) & set(place[pair[1]]):
            shift[batch.checks[check]] += batch.pair_rows[check, place[pair[0]][check], place[pair[1]][check]]
    return shift


def _joint_mass(plan: Plan, now: Posterior, level: _Level) -> Floats:
    """Return the probability of each joint pair of the plan, shape (G,)."""
    pairs, strength = now.pairs, now.strength
    first, second = plan.joint_first, plan.joint_second
    k = pairs.coupling[pairs.signature[first], pairs.signature[second]]
    mass: Floats = level.scale * strength[first] * strength[second] * k
    known = {
        (int(a), int(b)): float(f) for a, b, f in zip(pairs.first, pairs.second, pairs.factor, strict=True)
    }
    if known:
        mass = mass * np.array([known.get((int(a), int(b)), 1.0) for a, b in zip(first, second, strict=True)])
    return mass
