"""Small repair problems and their exact optimum by dynamic programming.

A state is what was answered and which repairs were tried in vain; in each the cheapest of asking a check,
trying a repair and giving up is taken. One fault is present; a repair helps exactly when it is the fault's.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from graph.belief import posterior
from graph.choose import LOOK_AHEAD, Stop, rank, verdict
from graph.compile import Compiled, assemble
from graph.evidence import check_evidence
from graph.gain import gains
from graph.likelihood import otherwise_row
from graph.plan import make_plan
from graph.prior import prior


@dataclass(frozen=True)
class Problem:
    """`rows[c]` has shape (faults, outcomes); costs are of one check, one repair, giving up."""

    share: np.ndarray
    remedy: tuple[int, ...]
    rows: tuple[np.ndarray, ...]
    check_cost: np.ndarray
    repair_cost: np.ndarray
    give_up: float


def random_problem(seed: int, faults: int = 8, remedies: int = 4, checks: int = 5) -> Problem:
    """Return a random problem: noisy checks, unequal costs."""
    rng = np.random.default_rng(seed)
    share = rng.dirichlet(np.ones(faults))
    rows = []
    for _ in range(checks):
        count = int(rng.integers(2, 4))
        normal = np.array(otherwise_row(count, 0, 0.9))
        table = np.tile(normal, (faults, 1))
        for fault in rng.permutation(faults)[: int(rng.integers(1, faults))]:
            table[fault] = np.array(
                otherwise_row(count, int(rng.integers(1, count)), float(rng.uniform(0.7, 0.97)))
            )
        rows.append(table)
    return Problem(
        share=share,
        remedy=tuple(int(r) for r in rng.permutation(np.arange(faults) % remedies)),
        rows=tuple(rows),
        check_cost=np.exp(rng.uniform(0.0, np.log(10.0), checks)),
        repair_cost=np.exp(rng.uniform(np.log(10.0), np.log(100.0), remedies)),
        give_up=200.0,
    )


def optimum(problem: Problem) -> float:
    """Return the least expected cost of any policy, over all states."""
    dealt = [np.array([r == remedy for r in problem.remedy]) for remedy in range(len(problem.repair_cost))]

    @cache
    def best(answers: tuple[int, ...], tried: frozenset[int]) -> float:
        weight = _weight(problem, answers, tried)
        total = weight.sum()
        if total <= 0.0:
            return 0.0
        options = [problem.give_up * total]
        options += [
            problem.repair_cost[r] * total + best(answers, tried | {r})
            for r in range(len(dealt))
            if r not in tried and weight[dealt[r]].sum() > 0.0
        ]
        options += [
            problem.check_cost[c] * total
            + sum(best(_with(answers, c, o), tried) for o in range(row.shape[1]))
            for c, row in enumerate(problem.rows)
            if answers[c] < 0
        ]
        return float(min(options))

    return best((-1,) * len(problem.rows), frozenset())


def policy_cost(problem: Problem, stop: Stop) -> float:
    """Return the exact expected cost of the engine's rule: `rank` and `verdict`, over all states."""
    tables = _tables(problem)
    names = np.arange(len(problem.rows))
    dealt = [np.array([r == remedy for r in problem.remedy]) for remedy in range(len(problem.repair_cost))]

    @cache
    def cost(answers: tuple[int, ...], tried: frozenset[int]) -> float:
        weight = _weight(problem, answers, tried)
        total = float(weight.sum())
        if total <= 1e-12:
            return 0.0
        now = posterior(tables, _evidence(tables, problem, answers, tried))
        left = [int(c) for c in names if answers[c] < 0]
        plan = make_plan(tables, left, [0.0] * len(left))
        prices = np.where([r in tried for r in range(len(dealt))], np.inf, problem.repair_cost)
        found = gains(tables, plan, now)
        order = [int(i) for i in rank(found, problem.check_cost[left], np.array(left))]
        advice = verdict(found, order[:LOOK_AHEAD], problem.check_cost[left], prices, stop)
        if advice.reason == "ask":
            check = left[order[0]]
            after = sum(cost(_with(answers, check, o), tried) for o in range(problem.rows[check].shape[1]))
            return float(problem.check_cost[check]) * total + after
        if not np.isfinite(prices[advice.remedy]) or advice.cost_act >= problem.give_up:
            return problem.give_up * total
        return float(problem.repair_cost[advice.remedy]) * total + cost(answers, tried | {advice.remedy})

    return cost((-1,) * len(problem.rows), frozenset())


def _weight(problem: Problem, answers: tuple[int, ...], tried: frozenset[int]) -> np.ndarray:
    weight = problem.share.copy()
    for row, outcome in zip(problem.rows, answers, strict=True):
        if outcome >= 0:
            weight = weight * row[:, outcome]
    return np.where([r in tried for r in problem.remedy], 0.0, weight)


def _with(answers: tuple[int, ...], check: int, outcome: int) -> tuple[int, ...]:
    return (*answers[:check], outcome, *answers[check + 1 :])


def _tables(problem: Problem):
    """Return the problem as the engine's tables; pairs are made so rare that they count for nothing."""
    compiled = []
    for table in problem.rows:
        rows = [otherwise_row(table.shape[1], 0, 0.9), *(tuple(float(x) for x in row) for row in table)]
        compiled.append(
            Compiled(tuple(rows), (False,) * len(rows), {f: f + 1 for f in range(len(table))}, ())
        )
    weights = prior(problem.share, 1e-9, 1e-9, 1e-9)
    return assemble(
        compiled,
        weights,
        outcomes=[row.shape[1] for row in problem.rows],
        usual=[0] * len(problem.rows),
        slips=[np.nan] * len(problem.rows),
        mixes=[0.5] * len(problem.rows),
        remedy=problem.remedy,
        component=problem.remedy,
        remedies=len(problem.repair_cost),
        components=len(problem.repair_cost),
    )


def _evidence(tables, problem: Problem, answers: tuple[int, ...], tried: frozenset[int]):
    found = [
        check_evidence(tables, c, np.eye(row.shape[1])[o], 0.0)
        for c, (row, o) in enumerate(zip(problem.rows, answers, strict=True))
        if o >= 0
    ]
    return [*found, *(_failed(problem, remedy) for remedy in sorted(tried))]


def _failed(problem: Problem, remedy: int):
    """Return the evidence that a repair did not help, in a world where repairs that fit always do."""
    from graph.evidence import Evidence  # noqa: PLC0415 - only here

    rows = np.array([[0.5, 0.5], [1.0 - 1e-9, 1e-9]])
    member = np.array([int(r == remedy) for r in problem.remedy])
    seen = np.array([0.0, 1.0])
    alone = rows @ seen
    return Evidence(
        check=-1,
        weights=seen,
        slip=0.0,
        usual=0,
        rows=rows,
        masks=np.zeros(2, dtype=bool),
        member=member,
        class_likelihood=alone,
        pair_likelihood=np.outer(alone, alone) / alone[0],
        unknown_likelihood=0.5,
        joint=(),
        coupled=False,
    )
