"""The frozen arrays that inference works on: `Tables`.

Legend: `N` faults, `C` checks (symptoms are checks with the outcomes present and absent), `K` the
largest number of outcomes, `J` classes. A *class* of a check is a set of faults that share one
likelihood row there; class 0 holds all faults that no row speaks of (the `otherwise` row). Classes
of all checks are numbered through, so that check c owns `class_start[c]` (its class 0) up to
`class_start[c + 1]`. An *entry* says that a fault belongs to a class other than 0: most checks have
few, and only these are ever touched.

Two faults at once show `pair_rows` of their classes; a pair that together makes an event true which
neither makes true alone has a row of its own (`joint_*`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from graph.arrays import Bools, Floats, Ints


@dataclass(frozen=True)
class Tables:
    """All numbers of one machine. Arrays are read-only; rows are padded with zeros to K."""

    odds: Floats  # (N,) prior odds of each fault
    nothing: float  # prior weight of "nothing is wrong", on the scale of products of odds
    unknown: float  # prior weight of "not in this graph", on the same scale
    remedy: Ints  # (N,) index of the fault's remedy
    component: Ints  # (N,) index of the fault's component
    remedies: int
    components: int
    outcomes: Ints  # (C,) number of outcomes of each check
    usual: Ints  # (C,) the usual outcome, -1 where there is none
    slip_own: Floats  # (C,) slip probability of the check itself, nan where the role decides
    class_start: Ints  # (C + 1,)
    rows: Floats  # (J, K) likelihood row of each class
    masks: Bools  # (J,) whether the class hides the true value
    unknown_rows: Floats  # (C, K) what an unknown cause shows
    entry_start: Ints  # (C + 1,)
    entry_fault: Ints  # (E,)
    entry_class: Ints  # (E,) class number, counted through all checks
    pair_start: Ints  # (C + 1,) where a check's block of pair rows begins
    pair_rows: Floats  # (sum of k*k, K): row of the classes (a, b) of check c at pair_start[c] + a*k + b
    joint_check: Ints  # (G,)
    joint_first: Ints  # (G,) smaller fault index of the pair
    joint_second: Ints  # (G,)
    joint_rows: Floats  # (G, K)
    tail_bound: float  # prior probability of more faults at once than are ever looked at

    @property
    def faults(self) -> int:
        """Return N."""
        return len(self.odds)

    @property
    def checks(self) -> int:
        """Return C."""
        return len(self.outcomes)

    @property
    def width(self) -> int:
        """Return K."""
        return int(self.rows.shape[1])

    def classes(self, check: int) -> int:
        """Return how many classes the check has, class 0 included."""
        return int(self.class_start[check + 1] - self.class_start[check])

    def pair_block(self, check: int) -> Floats:
        """Return the rows of all pairs of classes of a check, shape (k, k, K)."""
        size = self.classes(check)
        start = int(self.pair_start[check])
        block: Floats = self.pair_rows[start : start + size * size].reshape(size, size, -1)
        return block
