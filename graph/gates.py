"""The one gate there is, the vote, over whatever stands for an event: truth, diagram or cut sets."""

from collections.abc import Callable, Sequence
from typing import TypeVar

T = TypeVar("T")


def at_least(
    k: int,
    inputs: Sequence[T],
    both: Callable[[T, T], T],
    either: Callable[[T, T], T],
    ends: tuple[T, T],
) -> T:
    """Return "at least `k` of `inputs`" out of a conjunction, a disjunction and (never, always).

    Row j holds "at least j of the inputs so far". Only rows that can still matter are kept up, so
    `any` (k = 1) and `all` (k = n) cost one operation an input, like the plain folds they are.
    """
    never, always = ends
    rows = [always] + [never] * k
    for seen, value in enumerate(inputs, start=1):
        still_needed = max(1, k - (len(inputs) - seen))
        for j in range(min(k, seen), still_needed - 1, -1):
            rows[j] = either(both(value, rows[j - 1]), rows[j])
    return rows[k]
