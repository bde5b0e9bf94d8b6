"""Slow, obvious second methods: every hypothesis written out, every sum done in full.

Nothing here shares code with the engine but the rule of combination (`graph.likelihood.combine`),
which `test_likelihood.py` checks against `drawn` below.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, product
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from graph.compile import Compiled, assemble
from graph.evidence import HELPED, HELPED_NOTHING, HELPED_UNKNOWN
from graph.likelihood import combine, otherwise_row
from graph.prior import prior

if TYPE_CHECKING:
    from collections.abc import Sequence

    from graph.evidence import Evidence
    from graph.tables import Tables

PAIR = 2  # joint rows speak at the level of pairs; triples are weighed without them
REPAIR = -1  # the check number of an answer to "did the repair help?"


class Answer(NamedTuple):
    """One answer; `faults` are those cured before it was given or, of a repair, those it deals with."""

    check: int
    seen: Sequence[float]
    slip: float = 0.0
    faults: frozenset[int] = frozenset()


def drawn(rows: Sequence[Sequence[float]], usual: int, masks: Sequence[bool]) -> np.ndarray:
    """Return what several causes show together, every combination of their draws gone through."""
    seen = [row for row, mask in zip(rows, masks, strict=True) if mask] or list(rows)
    total = np.zeros(len(seen[0]))
    for draws in product(range(len(seen[0])), repeat=len(seen)):
        chance = float(np.prod([row[draw] for row, draw in zip(seen, draws, strict=True)]))
        unusual = [draw for draw in draws if draw != usual] or [usual]
        for draw in unusual:
            total[draw] += chance / len(unusual)
    return total


def random_tables(
    seed: int, faults: int = 7, checks: int = 5, *, several: float = 0.1, joint: bool = True
) -> Tables:
    """Return small random tables with masks, missing usual outcomes and joint rows among them."""
    rng = np.random.default_rng(seed)
    compiled, outcomes, usual = [], [], []
    for _ in range(checks):
        count = int(rng.integers(2, 5))
        plain = int(rng.integers(-1, count))
        listed = rng.permutation(faults)[: int(rng.integers(1, faults))]
        rows = [otherwise_row(count, plain, 0.9)]
        masks = [False]
        member = {}
        for fault in listed:
            if len(rows) > 1 and rng.random() < 0.4:
                member[int(fault)] = int(rng.integers(1, len(rows)))
                continue
            rows.append(tuple(float(x) for x in rng.dirichlet(np.ones(count) * 0.7)))
            masks.append(bool(rng.random() < 0.2))
            member[int(fault)] = len(rows) - 1
        pairs = []
        if joint and rng.random() < 0.7:
            a, b = sorted(int(f) for f in rng.permutation(faults)[:2])
            pairs.append((a, b, tuple(float(x) for x in rng.dirichlet(np.ones(count)))))
        compiled.append(Compiled(tuple(rows), tuple(masks), member, tuple(pairs)))
        outcomes.append(count)
        usual.append(plain)
    weights = prior(rng.uniform(0.001, 0.3, faults), several, 0.03, 0.05)
    remedy = [int(r) for r in rng.integers(0, 3, faults)]
    return assemble(
        compiled,
        weights,
        outcomes=outcomes,
        usual=usual,
        slips=[np.nan] * checks,
        mixes=[0.5] * checks,
        remedy=remedy,
        component=remedy,
        remedies=3,
        components=3,
    )


@dataclass(frozen=True)
class Dense:
    """All hypotheses of up to `depth` faults, their prior weights, and rows for every check."""

    sets: tuple[tuple[int, ...], ...]
    weight: np.ndarray
    tables: Tables
    dealt: frozenset[int] = frozenset()  # faults that a repair has dealt with

    @classmethod
    def of(cls, tables: Tables, depth: int = 2, told: Sequence[Sequence] = ()) -> Dense:
        sets = [s for size in range(1, depth + 1) for s in combinations(range(tables.faults), size)]
        weight = [float(np.prod(tables.odds[list(s)])) for s in sets]
        every = (*sets, (), (-1,))
        repairs = [answer.faults for answer in (Answer(*one) for one in told) if answer.check == REPAIR]
        dealt = frozenset(fault for faults in repairs for fault in faults)
        return cls(every, np.array([*weight, tables.nothing, tables.unknown]), tables, dealt)

    def row(
        self, check: int, members: Sequence[int], slip: float, cured: frozenset[int] = frozenset()
    ) -> np.ndarray:
        """Return P(answer | exactly these faults), by walking the tables fault by fault."""
        tables = self.tables
        count = int(tables.outcomes[check])
        start = int(tables.class_start[check])
        if tuple(members) == (-1,):
            row = tables.unknown_rows[check, :count]
        else:
            left = [m for m in members if m not in cured]
            drawing = []
            for i in range(int(tables.entry_start[check]), int(tables.entry_start[check + 1])):
                if int(tables.entry_fault[i]) in left:
                    number = int(tables.entry_class[i])
                    drawing.append((tuple(tables.rows[number, :count]), bool(tables.masks[number])))
            row = self._joint(check, left) if len(members) <= PAIR else None
            if row is None and drawing:
                row = np.array(
                    combine([r for r, _ in drawing], int(tables.usual[check]), [m for _, m in drawing])
                )
            elif row is None:
                row = tables.rows[start, :count]
        return np.array([(1 - slip) * p + slip * (1 - p) / (count - 1) for p in row])

    def _joint(self, check: int, left: Sequence[int]) -> np.ndarray | None:
        tables = self.tables
        for i in range(len(tables.joint_check)):
            pair = {int(tables.joint_first[i]), int(tables.joint_second[i])}
            if int(tables.joint_check[i]) == check and pair == set(left):
                return tables.joint_rows[i, : int(tables.outcomes[check])]
        return None

    def repaired(self, members: Sequence[int], faults: frozenset[int]) -> np.ndarray:
        """Return P(cured, not cured | exactly these faults) of a repair that deals with `faults`."""
        if tuple(members) == (-1,):
            return np.array(HELPED_UNKNOWN)
        gone = HELPED_NOTHING[0] if not members else 1.0
        for member in members:
            gone *= HELPED[0][0] if member in faults else HELPED[1][0]
        return np.array([gone, 1.0 - gone])

    def likelihood(self, answer: Sequence, members: Sequence[int]) -> float:
        """Return how likely an answer is under exactly these faults."""
        check, seen, slip, faults = Answer(*answer)
        if check == REPAIR:
            return float(self.repaired(members, faults) @ np.array(seen))
        return float(self.row(check, members, slip, faults) @ np.array(seen))

    def weigh(self, answers: Sequence[Sequence]) -> np.ndarray:
        """Return P(hypothesis, all answers) over `sets`, as shares of the whole prior."""
        weight = self.weight / self.weight.sum()
        for answer in answers:
            weight = weight * np.array([self.likelihood(answer, s) for s in self.sets])
        return weight

    def posterior(self, answers: Sequence[Sequence]) -> np.ndarray:
        """Return the normalised posterior over `sets`."""
        weight = self.weigh(answers)
        return weight / weight.sum()

    def marginals(self, now: np.ndarray) -> np.ndarray:
        """Return P(fault is present) for every fault."""
        return np.array(
            [sum(p for s, p in zip(self.sets, now, strict=True) if f in s) for f in range(self.tables.faults)]
        )

    def todo(self, now: np.ndarray) -> np.ndarray:
        """Return P(what to do), shape (R + 2,); see `next_of` for several faults."""
        return self.targets(now[:, None])[:, 0]

    def gain(
        self, now: np.ndarray, check: int, slip: float, cured: frozenset[int] = frozenset()
    ) -> tuple[float, float]:
        """Return the information gain about the hypothesis and about what to do, textbook form."""
        joint = now[:, None] * np.array([self.row(check, s, slip, cured) for s in self.sets])
        return mutual_information(joint), mutual_information(self.targets(joint))

    def targets(self, joint: np.ndarray) -> np.ndarray:
        """Return the rows of `joint` added up by what to do."""
        targets = np.zeros((self.tables.remedies + 2, joint.shape[1]))
        for members, row in zip(self.sets, joint, strict=True):
            if members == ():
                targets[-2] += row
            elif members == (-1,):
                targets[-1] += row
            else:
                for member, share in self.next_of(members):
                    targets[int(self.tables.remedy[member])] += row * share
        return targets

    def next_of(self, members: Sequence[int]) -> list[tuple[int, float]]:
        """Return who of the faults present is dealt with next, and the chance of it.

        Each with equal chance; of a pair of which one was dealt with, the other.
        """
        left = [member for member in members if member not in self.dealt] if len(members) == PAIR else []
        due = left or list(members)
        return [(member, 1.0 / len(due)) for member in due]


def mutual_information(joint: np.ndarray) -> float:
    """Return the sum of J log2(J / (row sum * column sum)) over all cells, in bits."""
    outer = np.outer(joint.sum(axis=1), joint.sum(axis=0))
    cells = joint > 0
    return float(np.sum(joint[cells] * np.log2(joint[cells] / outer[cells])))


def evidence_list(tables: Tables, answers: Sequence[Sequence]) -> list[Evidence]:
    """Return the engine's own evidence for plain answers."""
    from graph.evidence import check_evidence, repair_evidence  # noqa: PLC0415 - the oracle must not need it

    return [
        repair_evidence(tables, faults, seen)
        if check == REPAIR
        else check_evidence(tables, check, seen, slip, faults)
        for check, seen, slip, faults in (Answer(*answer) for answer in answers)
    ]
