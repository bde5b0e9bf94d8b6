"""One answer as inference sees it: classes of faults and what each class says of the answer.

The rule: whatever was seen - a plain answer, a number near the edge of a band, the outcome of a repair -
becomes the same thing here, so that the posterior knows one kind of evidence only.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import RULED_OUT
from graph.likelihood import combine

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from graph.arrays import Bools, Floats, Ints
    from graph.tables import Tables

HELPED = ((0.95, 0.05), (0.03, 0.97))  # row of a fault that the repair cures, and of any other
REPAIRED = 1  # class of the faults that a repair deals with, in its evidence
HELPED_NOTHING = (0.6, 0.4)  # when nothing was wrong the complaint often goes by itself
HELPED_UNKNOWN = (0.1, 0.9)


@dataclass(frozen=True)
class Evidence:
    """What was seen, with `k` classes of faults over `K` outcomes.

    `weights` are the likelihood of each outcome having been meant (one for a plain answer); `slip` is
    the chance that the answer given is wrong, spread over the other outcomes.
    """

    check: int  # -1 for the outcome of a repair
    weights: Floats  # (K,)
    slip: float
    usual: int
    rows: Floats  # (k, K)
    masks: Bools  # (k,)
    member: Ints  # (N,) class of each fault
    class_likelihood: Floats  # (k,)
    pair_likelihood: Floats  # (k, k)
    unknown_likelihood: float
    joint: tuple[tuple[int, int, float], ...]  # pairs with a row of their own, and its likelihood
    coupled: bool  # whether any two faults have rows here
    known_triples: dict[int, float] = field(default_factory=dict, compare=False)  # a memory, no fact

    def weigh(self, row: Floats) -> float:
        """Return the likelihood of what was seen under a row over the outcomes."""
        return float(slipped(row, self.slip, len(self.weights)) @ self.weights)

    def coupling(self) -> Floats:
        """Return l(a, b) d / (l(a) l(b)) for all pairs of classes, shape (k, k)."""
        alone = np.maximum(self.class_likelihood, RULED_OUT)
        k: Floats = np.maximum(self.pair_likelihood, RULED_OUT) * alone[0] / np.outer(alone, alone)
        return k

    def triple_ratio(self, members: Ints) -> Floats:
        """Return l(a, b, c) / d of sets of three faults, shape (T, 3); each kind is combined once."""
        classes = np.sort(self.member[members], axis=1)
        size = len(self.class_likelihood)
        code = (classes[:, 0] * size + classes[:, 1]) * size + classes[:, 2]
        kinds, where = np.unique(code, return_inverse=True)
        ratios = [self._triple(int(kind), size) for kind in kinds]
        found: Floats = np.array(ratios)[where.reshape(-1)]
        return found

    def _triple(self, kind: int, size: int) -> float:
        if kind not in self.known_triples:
            classes = [c for c in (kind // size // size, kind // size % size, kind % size) if c]
            likelihood = max(self._together(classes), RULED_OUT)
            self.known_triples[kind] = likelihood / float(self.class_likelihood[0])
        return self.known_triples[kind]

    def _together(self, classes: list[int]) -> float:
        """Return the likelihood of causes of several classes at once."""
        if not classes:
            return float(self.class_likelihood[0])
        rows = [tuple(self.rows[c]) for c in classes]
        return self.weigh(np.array(combine(rows, self.usual, [bool(self.masks[c]) for c in classes])))


def slipped(rows: Floats, slip: float, outcomes: int) -> Floats:
    """Return rows as an answer shows them that is wrong with probability `slip`.

    A wrong answer is any of the other outcomes with equal chance. Rows have shape (..., K) with at
    least `outcomes` columns; columns beyond stay zero.
    """
    if outcomes < 2:  # noqa: PLR2004 - a single outcome cannot be mistaken for another
        return rows
    mixed: Floats = (1.0 - slip) * rows + slip * (1.0 - rows) / (outcomes - 1)
    if rows.shape[-1] > outcomes:
        mixed[..., outcomes:] = 0.0
    return mixed


def check_evidence(
    tables: Tables, check: int, weights: Sequence[float], slip: float, cured: Collection[int] = ()
) -> Evidence:
    """Return the evidence of an answer to `check`, shape of `weights` its outcomes.

    Faults that were `cured` before the answer was given count as absent: class 0.
    """
    outcomes = int(tables.outcomes[check])
    start, stop = int(tables.class_start[check]), int(tables.class_start[check + 1])
    rows = tables.rows[start:stop, :outcomes]
    member = np.zeros(tables.faults, dtype=np.int64)
    entries = slice(int(tables.entry_start[check]), int(tables.entry_start[check + 1]))
    member[tables.entry_fault[entries]] = tables.entry_class[entries] - start
    gone = np.fromiter(cured, dtype=np.int64, count=len(cured))
    member[gone] = 0
    seen = np.asarray(weights, dtype=np.float64)
    alone = slipped(rows, slip, outcomes) @ seen
    where = np.flatnonzero(tables.joint_check == check)
    absent = {int(fault) for fault in gone}
    joint = tuple(
        (a, b, float(slipped(tables.joint_rows[i, :outcomes], slip, outcomes) @ seen))
        for i in where
        for a, b in ((int(tables.joint_first[i]), int(tables.joint_second[i])),)
        if a not in absent and b not in absent
    )
    return Evidence(
        check=check,
        weights=seen,
        slip=slip,
        usual=int(tables.usual[check]),
        rows=rows,
        masks=tables.masks[start:stop],
        member=member,
        class_likelihood=alone,
        pair_likelihood=_of_pairs(tables, check, alone, slip, seen),
        unknown_likelihood=float(slipped(tables.unknown_rows[check, :outcomes], slip, outcomes) @ seen),
        joint=joint,
        coupled=stop - start > 1,
    )


def _of_pairs(tables: Tables, check: int, alone: Floats, slip: float, seen: Floats) -> Floats:
    """Return the likelihood of an answer under all pairs of classes.

    Tables whose pairs weigh nothing may leave their rows out; then no two faults are coupled.
    """
    if not len(tables.pair_rows):
        uncoupled: Floats = np.outer(alone, alone) / alone[0]
        return uncoupled
    outcomes = len(seen)
    likelihood: Floats = slipped(tables.pair_block(check)[:, :, :outcomes], slip, outcomes) @ seen
    return likelihood


def repair_evidence(tables: Tables, faults: Collection[int], weights: Sequence[float]) -> Evidence:
    """Return the evidence of a repair that deals with `faults`; weights over (cured, not cured).

    Two faults at once: the complaint goes only when both are dealt with.
    """
    seen = np.asarray(weights, dtype=np.float64)
    rows = np.array([HELPED_NOTHING, *HELPED])
    member = np.full(tables.faults, 2, dtype=np.int64)
    member[np.fromiter(faults, dtype=np.int64, count=len(faults))] = REPAIRED
    calm = rows[:, 0]
    together = np.outer(calm, calm)
    together[0, :], together[:, 0] = calm, calm
    pairs = np.stack([together, 1.0 - together], axis=-1)
    return Evidence(
        check=-1,
        weights=seen,
        slip=0.0,
        usual=0,
        rows=rows,
        masks=np.zeros(3, dtype=np.bool_),
        member=member,
        class_likelihood=rows @ seen,
        pair_likelihood=pairs @ seen,
        unknown_likelihood=float(np.array(HELPED_UNKNOWN) @ seen),
        joint=(),
        coupled=True,
    )


def decibans(ratio: float) -> float:
    """Return a likelihood ratio as weight of evidence in decibans.

    Good, I. J. (1950). Probability and the Weighing of Evidence, chapter 6.
    """
    return float(10.0 * np.log10(ratio))
