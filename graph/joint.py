"""The cut sets of order one and two of an event, joined as its gate joins its inputs.

Carrying no more than two faults is exact, because a cut set of order two is put together from cut
sets that are no larger. Truncating by order is the usual practice of NUREG-0492, chapter VII.
"""

from dataclasses import dataclass
from itertools import product

Pair = frozenset[str]


@dataclass(frozen=True, slots=True)
class Causes:
    """The minimal cut sets of order one and two of an event, or that it is always true."""

    singles: frozenset[str] = frozenset()
    pairs: frozenset[Pair] = frozenset()
    always: bool = False


ENDS = (Causes(), Causes(always=True))


def either(f: Causes, g: Causes) -> Causes:
    """Return the causes of `f or g`; neither may be always true."""
    return _minimal(f.singles | g.singles, f.pairs | g.pairs)


def both(f: Causes, g: Causes) -> Causes:
    """Return the causes of `f and g`, where only g may be always true.

    Pairs are never multiplied with pairs: two different ones have three faults or more between them.
    """
    if g.always:
        return f
    shared = f.singles & g.singles
    crossed = {frozenset(pair) for pair in product(f.singles - shared, g.singles - shared)}
    kept = {pair for pair in f.pairs if pair & g.singles} | {pair for pair in g.pairs if pair & f.singles}
    return _minimal(shared, frozenset(crossed | kept | (f.pairs & g.pairs)))


def _minimal(singles: frozenset[str], pairs: frozenset[Pair]) -> Causes:
    return Causes(singles, frozenset(pair for pair in pairs if not pair & singles))
