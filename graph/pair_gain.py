"""The part of the gain that two faults at once make: sums over all pairs without listing them.

Notation as in `gain.py` and `belief.py`. With T[g, j] the sum of s over the faults of signature g in
column j, the probability of two faults in the columns i and j of one check is a quadratic form in the
coupling matrix k; what a fault's partner shows is a product with it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import entropy, tally
from graph.belief import pair_partners
from graph.plan import by_check

if TYPE_CHECKING:
    from graph.arrays import Floats
    from graph.belief import Posterior
    from graph.plan import Batch, Plan
    from graph.tables import Tables


@dataclass(frozen=True)
class FaultPart:
    """What needs no remedies: outcome probabilities, and the gain about the hypothesis."""

    outcomes: Floats  # (n, K)
    bits: Floats  # (n,)
    level: _Level
    apart: _Apart


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


def fault_part(plan: Plan, now: Posterior) -> FaultPart:
    """Return outcome probabilities and the gain about the hypothesis for all checks of the plan."""
    level = _level(plan, now)
    columns = tally(plan.entry_column, level.marginal[plan.entry_fault], len(plan.column_rows))
    outcomes = plan.calm + level.unknown * (plan.unknown - plan.calm)
    outcomes = outcomes + by_check(plan, columns[:, None] * plan.column_rows)
    given = plan.calm_bits + level.unknown * (plan.unknown_bits - plan.calm_bits)
    given = given + by_check(plan, (columns * plan.column_bits)[:, None])[:, 0]
    apart = _Apart.of(plan, now, level)
    own = tally(plan.entry_column, level.own[plan.entry_fault], len(plan.column_rows))
    for batch in plan.batches:
        together = _together(level, batch, own)
        apart.add_pairs(batch, together)
        outcomes[batch.checks] += 0.5 * np.einsum("mab,mabo->mo", together, batch.pair_rows)
        given[batch.checks] += 0.5 * np.einsum("mab,mab->m", together, batch.pair_bits)
    np.add.at(outcomes, plan.joint_check, apart.joint[:, None] * plan.joint_rows)
    np.add.at(given, plan.joint_check, apart.joint * plan.joint_bits)
    outcomes = np.maximum(outcomes, 0.0)  # rounding can leave a hair below zero
    return FaultPart(outcomes, np.maximum(entropy(outcomes) - given, 0.0), level, apart)


def remedy_joint(tables: Tables, plan: Plan, now: Posterior, part: FaultPart) -> tuple[Floats, Floats]:
    """Return P(what to do), shape (R + 2,), and P(what to do, outcome), shape (R + 2, n, K)."""
    level = part.level
    mass = tally(tables.remedy, level.share, tables.remedies)
    todo = _remedy_joint(tables, plan, now, level, mass)
    part.apart.add_todo(tables, plan, todo)
    return np.concatenate([mass, [level.nothing, level.unknown]]), todo


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


def _together(level: _Level, batch: Batch, own: Floats) -> Floats:
    """Return twice the probability of two faults, by the classes they fall into, shape (m, k, k)."""
    held = level.held[:, batch.columns].transpose(1, 2, 0)
    partner = level.partner[:, batch.columns].transpose(1, 0, 2)
    both: Floats = level.scale * (held @ partner)
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
            involved = np.isin(plan.entry_fault, [fault for a, b, _ in extra for fault in (a, b)])
            listed = zip(plan.entry_fault[involved], plan.entry_column[involved], strict=True)
            column = {(int(plan.column_check[c]), int(f)): int(c) for f, c in listed}
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

    def add_todo(self, tables: Tables, plan: Plan, todo: Floats) -> None:
        """Add to what to do what pairs show beyond the rows of their members."""
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
