"""Probability from signs and their weights: the logistic function.

Hastie, Tibshirani and Friedman, The Elements of Statistical Learning, 2nd edition 2009, section 4.4.
"""

from __future__ import annotations

from dataclasses import astuple
from math import exp
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


def probability(base: float, weights: DataclassInstance, signs: DataclassInstance) -> float:
    """Return the probability, 0 to 1, that signs speak for; both are dataclasses of the same numbers.

    `base` are the log odds where every sign is 0.
    """
    odds = base + sum(weight * sign for weight, sign in zip(astuple(weights), astuple(signs), strict=True))
    return 1.0 / (1.0 + exp(-odds))
