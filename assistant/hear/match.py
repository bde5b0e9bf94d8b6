"""Likeness: how close a stretch of words comes to each of many phrases.

TF-IDF cosine over words (Salton and Buckley 1988, Information Processing and Management 24(5)) blended
with the same over groups of letters. An inverted index in flat arrays: a query touches only the phrases
that share a feature with it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log, sqrt
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    Vector = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Index:
    """Postings of one feature space; `spans[name]` is (first, last, inverse document frequency)."""

    size: int
    spans: Mapping[str, tuple[int, int, float]]
    rows: NDArray[np.int32]
    weights: NDArray[np.float32]
    unknown: float  # weight of a feature that no phrase has

    @classmethod
    def of(cls, vectors: Sequence[Vector], owners: Sequence[int]) -> Index:
        """Return the index of phrases; a feature's frequency counts owners, not phrases."""
        postings: dict[str, list[tuple[int, float]]] = {}
        for row, vector in enumerate(vectors):
            for name, count in vector.items():
                postings.setdefault(name, []).append((row, count))
        total = len(set(owners))
        idf = {
            name: log((1 + total) / (1 + len({owners[row] for row, _ in found}))) + 0.3
            for name, found in postings.items()
        }
        norms = [
            sqrt(sum((count * idf[name]) ** 2 for name, count in vector.items())) or 1.0 for vector in vectors
        ]
        spans, rows, weights = {}, [], []
        for name, found in postings.items():
            spans[name] = (len(rows), len(rows) + len(found), idf[name])
            rows.extend(row for row, _ in found)
            weights.extend(count * idf[name] / norms[row] for row, count in found)
        return cls(
            len(vectors),
            spans,
            np.array(rows, dtype=np.int32),
            np.array(weights, dtype=np.float32),
            log(1 + total) + 0.3,
        )

    def cosines(self, vector: Vector, foreign: float) -> NDArray[np.float64]:
        """Return the cosine with every phrase, shape (phrases,).

        A feature that no phrase has counts `foreign` times its weight in the length of the query.
        """
        square = 0.0
        parts: list[tuple[int, int, float]] = []
        for name, count in vector.items():
            first, last, idf = self.spans.get(name, (0, 0, self.unknown * foreign))
            square += (count * idf) ** 2
            if last > first:
                parts.append((first, last, count * idf))
        if not parts:
            return np.zeros(self.size)
        rows = np.concatenate([self.rows[first:last] for first, last, _ in parts])
        weights = np.concatenate([self.weights[first:last] * weight for first, last, weight in parts])
        sums = np.bincount(rows, weights=weights, minlength=self.size)
        cosines: NDArray[np.float64] = sums / sqrt(square)
        return cosines
