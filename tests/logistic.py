"""Logistic regression with a ridge, for the weights that `fit_trust.py` and its like print."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.optimize import minimize

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

RIDGE = 3.0  # on standardised signs


def fit(rows: NDArray[Any], right: NDArray[Any]) -> NDArray[Any]:
    """Return the weights, the base last, by ridge-penalised maximum likelihood."""
    mean, spread = rows.mean(0), rows.std(0) + 1e-9
    scaled = np.column_stack([(rows - mean) / spread, np.ones(len(rows))])
    sign = np.where(right, 1.0, -1.0)

    def loss(weights: NDArray[Any]) -> tuple[float, NDArray[Any]]:
        odds = sign * (scaled @ weights)
        penalised = np.append(weights[:-1], 0.0)
        slope = -(scaled.T @ (sign / (1.0 + np.exp(odds)))) + RIDGE * penalised
        return float(np.logaddexp(0.0, -odds).sum() + RIDGE / 2 * (penalised**2).sum()), slope

    weights = minimize(loss, np.zeros(scaled.shape[1]), jac=True, method="L-BFGS-B").x
    plain = weights[:-1] / spread
    return np.append(plain, weights[-1] - (plain * mean).sum())


def held_out(rows: NDArray[Any], right: NDArray[Any], groups: NDArray[Any]) -> NDArray[Any]:
    """Return the log odds of each row by weights fitted to the other groups, shape (rows,)."""
    odds = np.zeros(len(rows))
    for group in np.unique(groups):
        weights = fit(rows[groups != group], right[groups != group])
        odds[groups == group] = rows[groups == group] @ weights[:-1] + weights[-1]
    return odds


def taken_rightly(odds: NDArray[Any], right: NDArray[Any], wrong: Sequence[int]) -> list[str]:
    """Return, in words, how many would be taken rightly where so many are taken wrongly."""
    order = np.argsort(-odds, kind="stable")
    missed = np.cumsum(~right[order])
    found = []
    for few in wrong:
        at = int(np.searchsorted(missed, few + 1))
        least = 1 / (1 + np.exp(-odds[order[at - 1]]))
        found.append(f"with {few} wrong: {at - few} taken rightly, from {least:.3f} on")
    return found


def shown(names: Sequence[str], weights: NDArray[Any]) -> list[str]:
    """Return weights, the base last, as they are written in the code."""
    lines = [f"    {name}={value:.3g}," for name, value in zip(names, weights[:-1], strict=True)]
    return [*lines, f"BASE = {weights[-1]:.3g}"]
