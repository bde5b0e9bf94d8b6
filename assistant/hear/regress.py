"""How probable each meaning is, given the words: softmax regression fitted to the phrases.

Likeness tells how close a line comes to single phrases; this tells which words set meanings apart. Fitted
by plain gradient descent with momentum from zero, a fixed number of steps, so that the same phrases give
the same weights. Multinomial logistic regression: Hastie, Tibshirani and Friedman 2009, section 4.4.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from assistant.hear.match import Index

    Vector = Mapping[str, float]

STEPS = 40
FEWEST = 2  # phrases that a feature must be in
PACE, MOMENTUM, DECAY = 60.0, 0.9, 3e-5


@dataclass(frozen=True, slots=True)
class Regression:
    """Weights of features for classes, shape (features, classes); `names` gives the row of a feature."""

    names: Mapping[str, int]
    weights: NDArray[np.float32]

    def probabilities(self, vector: Vector, index: Index) -> NDArray[np.float64]:
        """Return the probability of each class, shape (classes,); `index` weighs the features."""
        parts = {name: count * index.spans[name][2] for name, count in vector.items() if name in self.names}
        norm = np.sqrt(sum(weight**2 for weight in parts.values())) or 1.0
        scores = np.zeros(self.weights.shape[1])
        for name, weight in parts.items():
            scores += weight / norm * self.weights[self.names[name]]
        odds = np.exp(scores - scores.max())
        shares: NDArray[np.float64] = odds / odds.sum()
        return shares


def fit(index: Index, classes: Sequence[int]) -> Regression:
    """Return the regression of classes, one a phrase, on the features of indexed phrases."""
    names = telling(index)
    held = np.array([last - first for first, last, _ in index.spans.values()])
    kept = np.repeat(held >= FEWEST, held)
    features = np.repeat(np.arange(len(names)), held[held >= FEWEST])
    return Regression(names, _descend(features, index.rows[kept], index.weights[kept], np.asarray(classes)))


def telling(index: Index) -> dict[str, int]:
    """Return the features that more than one phrase has, with their rows: one phrase alone teaches little."""
    held = (name for name, (first, last, _) in index.spans.items() if last - first >= FEWEST)
    return {name: row for row, name in enumerate(held)}


def _descend(
    features: NDArray[np.int64],
    rows: NDArray[np.int32],
    values: NDArray[np.float32],
    classes: NDArray[np.int64],
) -> NDArray[np.float32]:
    """Return the fitted weights; the entries come in order of feature."""
    by_row = np.argsort(rows, kind="stable")
    row_starts = np.searchsorted(rows[by_row], np.arange(len(classes)))
    feature_starts = np.searchsorted(features, np.arange(int(features[-1]) + 1))
    held = np.bincount(rows, minlength=len(classes)) > 0
    target = np.eye(int(classes.max()) + 1, dtype=np.float32)[classes]
    weights = np.zeros((target.shape[1], len(feature_starts)), dtype=np.float32)
    speed = np.zeros_like(weights)
    places, columns, scale = rows.astype(np.intp), features[by_row], values[by_row]
    starts = np.minimum(row_starts, len(rows) - 1)
    for _ in range(STEPS):
        scores = np.ascontiguousarray(_sums(weights, columns, scale, starts).T) * held[:, None]
        odds = np.exp(scores - scores.max(axis=1, keepdims=True))
        missed = np.ascontiguousarray((odds / odds.sum(axis=1, keepdims=True) - target).T)
        slope = _sums(missed, places, values, feature_starts) / len(classes)
        speed = (MOMENTUM * speed - PACE * (slope + DECAY * weights)).astype(np.float32)
        weights += speed
    return np.ascontiguousarray(weights.T)


def _sums(
    by_class: NDArray[np.float32],
    places: NDArray[np.intp],
    scale: NDArray[np.float32],
    starts: NDArray[np.intp],
) -> NDArray[np.float32]:
    """Return the sums of stretches of entries, class by class: one class fits the processor's cache."""
    return np.stack([np.add.reduceat(each[places] * scale, starts) for each in by_class])
