"""Which outcome of one check is meant, as told apart from the others of that check alone.

Likeness finds the nearest phrase among all; this weighs every phrase of the check for and against each of
its outcomes. Kernel ridge regression on the likeness of phrases, one indicator an outcome, solved outright:
Hastie, Tibshirani and Friedman 2009, sections 5.8.2 and 12.3.7. Deterministic.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from assistant.hear.match import Index

    Entries = tuple[NDArray[np.int32], NDArray[np.int64], NDArray[np.float32]]  # phrase, feature, weight

RIDGE = 0.1  # what is added to the likeness of a phrase with itself, so that no single phrase rules

Spaces = tuple[tuple["Index", float], ...]  # feature spaces, each with its share of the likeness


@dataclass(frozen=True, slots=True)
class Apart:
    """What each phrase says for the outcomes of its own check.

    `weights` has shape (phrases, most outcomes of any check); the phrases of a check stand together.
    """

    weights: NDArray[np.float32]

    def shares(self, near: NDArray[np.float64], first: int) -> NDArray[np.float64]:
        """Return how far a likeness with the phrases of a check speaks for its outcomes, 0 to 1, clipped.

        `near` has shape (phrases of the check,); the first of them is the phrase `first`.
        """
        shares: NDArray[np.float64] = np.clip(near @ self.weights[first : first + len(near)], 0.0, 1.0)
        return shares


def fit(spaces: Spaces, owners: NDArray[np.int32], groups: Sequence[int]) -> Apart:
    """Return the weights of phrases; `owners` has the meaning of each, `groups` the check of each meaning.

    Phrases and meanings of one check must stand together.
    """
    group_of = np.asarray(groups)
    firsts = np.flatnonzero(np.diff(group_of, prepend=-1))  # first meaning of each check
    group_at = np.cumsum(np.diff(group_of, prepend=-1) != 0) - 1
    inner = np.arange(len(group_of)) - firsts[group_at]
    starts = np.searchsorted(owners, firsts)
    weights = np.zeros((len(owners), int(inner.max(initial=0)) + 1), dtype=np.float32)
    entries = [_by_row(index) for index, _ in spaces]
    for first, end in zip(starts, [*starts[1:], len(owners)], strict=True):
        likeness = sum(
            share * _gram(by_row, first, end) for by_row, (_, share) in zip(entries, spaces, strict=True)
        )
        wanted = np.eye(weights.shape[1])[inner[owners[first:end]]]
        weights[first:end] = np.linalg.solve(likeness + RIDGE * np.eye(end - first), wanted)
    return Apart(weights)


def _by_row(index: Index) -> Entries:
    """Return the entries of an index in order of phrase."""
    held = [last - first for first, last, _ in index.spans.values()]
    order = np.argsort(index.rows, kind="stable")
    return index.rows[order], np.repeat(np.arange(len(held)), held)[order], index.weights[order]


def _gram(by_row: Entries, first: int, end: int) -> NDArray[np.float64]:
    """Return the likeness of phrases first to end with each other, shape (end - first, end - first)."""
    low, high = np.searchsorted(by_row[0], [first, end])
    rows, features, weights = (each[low:high] for each in by_row)
    names, columns = np.unique(features, return_inverse=True)
    dense = np.zeros((end - first, len(names)))
    dense[rows - first, columns] = weights
    likeness: NDArray[np.float64] = dense @ dense.T
    return likeness
