"""Likeness: how close a stretch of words comes to each of many phrases.

TF-IDF cosine over words (Salton and Buckley 1988, Information Processing and Management 24(5)) blended
with the same over groups of letters. An inverted index in flat arrays: a query touches only the phrases
that share a feature with it.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property
from itertools import chain
from math import log, sqrt
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    Vector = Mapping[str, float]

COMMON = 0.3  # weight of a feature that every owner has


@dataclass(frozen=True)
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
        names: defaultdict[str, int] = defaultdict()
        names.default_factory = names.__len__  # a new name gets the next number
        features = np.fromiter(map(names.__getitem__, chain.from_iterable(vectors)), dtype=np.int64)
        counts = np.fromiter(chain.from_iterable(vector.values() for vector in vectors), dtype=np.float64)
        rows = np.repeat(np.arange(len(vectors)), [len(vector) for vector in vectors])
        held_by = np.asarray(owners, dtype=np.int64)
        total = len(set(owners))
        pairs = np.unique(features * (int(held_by.max(initial=0)) + 1) + held_by[rows])
        frequency = np.bincount(pairs // (int(held_by.max(initial=0)) + 1), minlength=len(names))
        idf = np.log((1 + total) / (1 + frequency)) + COMMON
        weights = counts * idf[features]
        norms = np.sqrt(np.bincount(rows, weights=weights**2, minlength=len(vectors)))
        order = np.argsort(features, kind="stable")
        ends = np.cumsum(np.bincount(features, minlength=len(names)))
        starts = [0, *ends.tolist()]
        spans = {
            name: (starts[feature], starts[feature + 1], float(idf[feature]))
            for name, feature in names.items()
        }
        scaled = weights / np.where(norms[rows] > 0, norms[rows], 1.0)
        return cls(
            len(vectors),
            spans,
            rows[order].astype(np.int32),
            scaled[order].astype(np.float32),
            log(1 + total) + COMMON,
        )

    @cached_property
    def order(self) -> NDArray[np.int64]:
        """Return a number for each entry that grows from entry to entry: its feature, then its phrase."""
        firsts = np.array([first for first, _, _ in self.spans.values()], dtype=np.int64)
        held = [last - first for first, last, _ in self.spans.values()]
        ordered: NDArray[np.int64] = np.repeat(firsts, held) * self.size + self.rows
        return ordered

    def cosines(
        self, vector: Vector, foreign: float, within: tuple[int, int] | None = None
    ) -> NDArray[np.float64]:
        """Return the cosine with every phrase, or with those from one on up to another, shape (phrases,).

        A feature that no phrase has counts `foreign` times its weight in the length of the query.
        """
        square = 0.0
        parts: list[tuple[int, int, float]] = []
        for name, count in vector.items():
            first, last, idf = self.spans.get(name, (0, 0, self.unknown * foreign))
            square += (count * idf) ** 2
            if last > first:
                parts.append((first, last, count * idf))
        low, high = within or (0, self.size)
        if within is not None and parts:
            firsts = np.array([first for first, _, _ in parts], dtype=np.int64) * self.size
            bounds = np.searchsorted(self.order, (firsts + low, firsts + high))
            parts = [
                (first, last, weight)
                for first, last, (_, _, weight) in zip(*bounds.tolist(), parts, strict=True)
                if last > first
            ]
        if not parts:
            return np.zeros(high - low)
        rows = np.concatenate([self.rows[first:last] for first, last, _ in parts])
        weights = np.concatenate([self.weights[first:last] * weight for first, last, weight in parts])
        sums = np.bincount(rows - low if low else rows, weights=weights, minlength=high - low)
        cosines: NDArray[np.float64] = sums / sqrt(square)
        return cosines
