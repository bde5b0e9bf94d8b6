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
from graph.belief import lead_partners, next_share, pair_partners
from graph.plan import by_check

if TYPE_CHECKING:
    from graph.arrays import Floats
    from graph.belief import Posterior
    from graph.plan import Batch, Plan
    from graph.tables import Tables


NEGLIGIBLE = 1e-15  # extra probability of a pair below which it is left as it is


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

    share: Floats  # (N,) P(fault is the one to deal with next)
    marginal: Floats  # (N,)
    nothing: float
    unknown: float
    scale: float  # of s(a) s(b) k(a, b)
    held: Floats  # (G, J) sum of s over signature and column
    partner: Floats  # (G, J) coupling applied to `held`
    next_open: Floats  # (G, J) the part of `partner` beside which a fault not dealt with is next
    next_dealt: Floats  # (G, J) the part beside which a fault dealt with is next
    own: Floats  # (N,) s(a)^2 k(a, a): a fault is no partner of itself
    apart: Floats  # (X,) extra probability of the pairs weighed apart


def fault_part(plan: Plan, now: Posterior, *, rough: bool = False) -> FaultPart:
    """Return outcome probabilities and the gain about the hypothesis for all checks of the plan.

    With `rough` the sums over pairs are done in single precision, for a bound that has slack.
    """
    level = _level(plan, now, np.float32 if rough else np.float64)
    columns = tally(plan.entry_column, level.marginal[plan.entry_fault], len(plan.column_rows))
    outcomes = plan.calm + level.unknown * (plan.unknown - plan.calm)
    outcomes = outcomes + by_check(plan, columns[:, None] * plan.column_rows)
    given = plan.calm_bits + level.unknown * (plan.unknown_bits - plan.calm_bits)
    given = given + by_check(plan, (columns * plan.column_bits)[:, None])[:, 0]
    apart = _Apart.of(plan, now, level)
    own = tally(plan.entry_column, level.own[plan.entry_fault], len(plan.column_rows))
    for batch in plan.batches:
        together = _together(level, batch, own)
        count, size, _ = together.shape
        flat = 0.5 * together.reshape(count, 1, size * size)
        outcomes[batch.checks] += (flat @ batch.pair_rows.reshape(count, size * size, -1))[:, 0]
        given[batch.checks] += (flat @ batch.pair_bits.reshape(count, size * size, 1))[:, 0, 0]
    apart.add_pairs(plan, outcomes, given)
    np.add.at(outcomes, plan.joint_check, apart.joint[:, None] * plan.joint_rows)
    np.add.at(given, plan.joint_check, apart.joint * plan.joint_bits)
    outcomes = np.maximum(outcomes, 0.0)  # rounding can leave a hair below zero
    return FaultPart(outcomes, np.maximum(entropy(outcomes) - given, 0.0), level, apart)


def remedy_joint(tables: Tables, plan: Plan, now: Posterior, part: FaultPart) -> tuple[Floats, Floats]:
    """Return P(what to do), shape (R + 2,), and P(what to do, outcome), shape (R + 2, n, K)."""
    level = part.level
    mass = tally(tables.remedy, level.share, tables.remedies)
    todo = _remedy_joint(tables, plan, now, level, mass)
    part.apart.add_todo(tables, plan, now, todo)
    return np.concatenate([mass, [level.nothing, level.unknown]]), todo


def _level(plan: Plan, now: Posterior, precision: type = np.float64) -> _Level:
    """Return the pair level; triples are left out and the rest made to sum to one."""
    kept = 1.0 - now.triple_mass
    strength, pairs = now.strength, now.pairs
    single, scale = now.single_scale / kept, now.pair_scale / kept
    partner = pair_partners(strength, pairs)
    lead = lead_partners(strength, pairs, now.dealt, partner)
    groups, width = len(pairs.held), len(plan.column_rows)
    code = pairs.signature[plan.entry_fault] * width + plan.entry_column
    held = tally(code, strength[plan.entry_fault], groups * width)
    held = held.reshape(groups, width).astype(precision, copy=False)
    k = pairs.coupling[pairs.signature[pairs.first], pairs.signature[pairs.second]]
    columns = pairs.coupling.astype(precision, copy=False) @ held
    next_open, next_dealt = 0.5 * columns, 0.0 * columns[:, :0]
    if now.dealt.any():
        done = tally(code, np.where(now.dealt, strength, 0.0)[plan.entry_fault], groups * width)
        repaired = pairs.coupling @ done.reshape(groups, width)
        next_open, next_dealt = 0.5 * (columns + repaired), 0.5 * repaired
    return _Level(
        share=single * strength + scale * strength * lead,
        marginal=single * strength + scale * strength * partner,
        nothing=now.nothing / kept,
        unknown=now.unknown / kept,
        scale=scale,
        held=held,
        partner=columns,
        next_open=next_open,
        next_dealt=next_dealt,
        own=strength**2 * np.diagonal(pairs.coupling)[pairs.signature],
        apart=scale * strength[pairs.first] * strength[pairs.second] * k * (pairs.factor - 1.0),
    )


def _together(level: _Level, batch: Batch, own: Floats) -> Floats:
    """Return twice the probability of two faults, by the classes they fall into, shape (m, k, k)."""
    held = level.held[:, batch.columns].transpose(1, 2, 0)
    partner = level.partner[:, batch.columns].transpose(1, 0, 2)
    both: Floats = level.scale * (held @ partner).astype(np.float64, copy=False)
    index = np.arange(both.shape[1])
    both[:, index, index] -= level.scale * own[batch.columns]
    return both


def _remedy_joint(tables: Tables, plan: Plan, now: Posterior, level: _Level, mass: Floats) -> Floats:
    """Return P(what to do, outcome), shape (R + 2, n, K), up to the pairs weighed apart."""
    count, width = tables.remedies, len(plan.column_rows)
    remedy = tables.remedy[plan.entry_fault]
    groups = len(now.pairs.held)
    cell = tables.remedy * groups + now.pairs.signature
    open_now = tally(cell, np.where(now.dealt, 0.0, now.strength), count * groups).reshape(count, groups)
    together = open_now @ level.next_open
    if now.dealt.any():
        done = tally(cell, np.where(now.dealt, now.strength, 0.0), count * groups).reshape(count, groups)
        together += done @ level.next_dealt
    code = remedy * width + plan.entry_column
    weights = level.share - 0.5 * level.scale * level.own
    first = tally(code, weights[plan.entry_fault], count * width)
    columns = first.reshape(count, width) + level.scale * together
    joint = np.empty((count + 2, len(plan.checks), tables.width))
    joint[:count] = mass[:, None, None] * plan.calm
    joint[count] = level.nothing * plan.calm
    joint[count + 1] = level.unknown * plan.unknown
    for batch in plan.batches:
        moved = columns[:, batch.columns].transpose(1, 0, 2) @ batch.rows  # (m, R, K)
        both = _entry_pairs(plan, now, level, batch)
        cell = batch.entry_check * count + remedy[batch.entries]
        each = (cell[:, None] * tables.width + np.arange(tables.width)).ravel()
        moved += tally(each, both.ravel(), moved.size).reshape(moved.shape)
        joint[:count, batch.checks] += moved.transpose(1, 0, 2)
    return joint


def _entry_pairs(plan: Plan, now: Posterior, level: _Level, batch: Batch) -> Floats:
    """Return for each entry what its fault, being next, shows together with others, shape (e, K)."""
    fault = plan.entry_fault[batch.entries]
    at = (now.pairs.signature[fault][:, None], batch.columns[batch.entry_check])
    partner = level.next_open[at] * now.strength[fault, None]
    dealt = np.flatnonzero(now.dealt[fault])
    if len(dealt):
        signature, columns = at[0][dealt], at[1][dealt]
        partner[dealt] = level.next_dealt[signature, columns] * now.strength[fault[dealt], None]
    partner[np.arange(len(fault)), batch.entry_class] -= 0.5 * level.own[fault]
    extra = batch.pair_rows[batch.entry_check, batch.entry_class]  # (e, k, K)
    both: Floats = level.scale * np.einsum("eb,ebo->eo", partner, extra)
    return both


@dataclass(frozen=True)
class _Apart:
    """Corrections for pairs that make an event true together: few, so they are done one by one."""

    pairs: tuple[tuple[int, int, float], ...]  # extra probability of a pair in the answered checks
    columns: dict[int, dict[int, int]]  # of the faults in `pairs`: plan position -> column
    joint: Floats  # (G,) probability of each joint pair of the plan

    @classmethod
    def of(cls, plan: Plan, now: Posterior, level: _Level) -> _Apart:
        """Return the corrections; empty for most packs and most posteriors."""
        pairs = now.pairs
        listed = zip(pairs.first, pairs.second, level.apart, strict=True)
        extra = tuple((int(a), int(b), float(w)) for a, b, w in listed if abs(w) > NEGLIGIBLE)
        columns = {fault: _columns_of(plan, fault) for a, b, _ in extra for fault in (a, b)}
        return cls(extra, columns, _joint_mass(plan, now, level))

    def together(self, pair: tuple[int, int]) -> list[int]:
        """Return the plan positions of the checks in which both faults of a pair have a row."""
        return sorted(self.columns[pair[0]].keys() & self.columns[pair[1]].keys())

    def add_pairs(self, plan: Plan, outcomes: Floats, given: Floats) -> None:
        """Add what the extra probability of each pair shows beyond its members' own rows."""
        for a, b, extra in self.pairs:
            for check in self.together((a, b)):
                rows, bits = _pair_extra(plan, check, self.columns[a][check], self.columns[b][check])
                outcomes[check] += extra * rows
                given[check] += extra * bits

    def add_todo(self, tables: Tables, plan: Plan, now: Posterior, todo: Floats) -> None:
        """Add to what to do what pairs show beyond the rows of their members."""
        ends = (plan.joint_first, plan.joint_second)
        for faults, others in (ends, ends[::-1]):
            weight = next_share(now.dealt, faults, others) * self.joint
            np.add.at(todo, (tables.remedy[faults], plan.joint_check), weight[:, None] * plan.joint_rows)
        for a, b, extra in self.pairs:
            for pair in ((a, b), (b, a)):
                share = float(next_share(now.dealt, np.array(pair[:1]), np.array(pair[1:]))[0])
                self._add_partner(plan, todo[tables.remedy[pair[0]]], pair, share * extra)

    def _add_partner(self, plan: Plan, todo: Floats, pair: tuple[int, int], extra: float) -> None:
        """Add to the remedy of the first fault what its partner's row moves, and what both do together."""
        mine, other = self.columns[pair[0]], self.columns[pair[1]]
        columns = list(other.values())
        todo[list(other)] += extra * plan.column_rows[columns]
        for check in self.together(pair):
            todo[check] += extra * _pair_extra(plan, check, mine[check], other[check])[0]


def _columns_of(plan: Plan, fault: int) -> dict[int, int]:
    """Return the column of a fault in every check of the plan that has a row for it."""
    columns = plan.entry_column[plan.entry_fault == fault]
    return dict(zip(plan.column_check[columns].tolist(), columns.tolist(), strict=True))


def _pair_extra(plan: Plan, check: int, first: int, second: int) -> tuple[Floats, float]:
    """Return what the columns `first` and `second` of a check show together beyond their own rows."""
    batch, place = plan.place(check)
    start = int(batch.columns[place, 0])
    return (
        batch.pair_rows[place, first - start, second - start],
        float(batch.pair_bits[place, first - start, second - start]),
    )


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
