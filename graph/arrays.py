"""The one helper that freezes arrays, and the array types that inference speaks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

if TYPE_CHECKING:
    from collections.abc import Iterable

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]

RULED_OUT = 1e-15  # stands in for a likelihood of zero: a pair may still show what one fault cannot
MOST_COUPLED = 1e200  # a coupling never grows past this, so that no number of answers overflows
TINY = 1e-300  # stands in for zero where a logarithm is taken; times its logarithm it is nothing


def frozen(values: Iterable[Any] | Any, dtype: type = np.float64) -> Any:  # noqa: ANN401 - any array-like
    """Return a read-only copy of `values`: a view would leave its base writable."""
    array: npt.NDArray[Any] = np.array(values, dtype=dtype)
    array.setflags(write=False)
    return array


def tally(index: Ints, weights: Floats, size: int) -> Floats:
    """Return the sum of `weights` at each position 0..size-1 that `index` names."""
    total: Floats = np.bincount(index, weights=weights, minlength=size).astype(np.float64, copy=False)
    return total


def xlogx(values: Floats) -> Floats:
    """Return v log2 v of each value, zero at zero; a hair below zero counts as zero."""
    safe = np.maximum(values, TINY)
    product: Floats = safe * np.log2(safe)
    return product


def entropy(rows: Floats, axis: int = -1) -> Floats:
    """Return the entropy in bits of each distribution along `axis`; 0 log 0 counts as 0.

    Shannon, C. E. (1948). A mathematical theory of communication. BSTJ 27, section 6.
    """
    bits: Floats = -np.sum(xlogx(rows), axis=axis)
    return bits
