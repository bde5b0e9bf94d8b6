"""Decision diagrams: Boolean functions and families of sets as shared graphs.

A diagram is a table of nodes `(variable, high, low)`, each stored once, with the ends ZERO and ONE.
Variables rise from the root down, and a node is made after its branches, so walking the table upwards
meets branches first. Nodes are named by their index, which means something in their own table only.

The tables grow while a function is being built; they are working storage, and never leave `graph`.

Bryant 1986, Graph-based algorithms for Boolean function manipulation, IEEE Transactions on Computers
35(8), 677-691. Minato 1993, Zero-suppressed BDDs for set manipulation in combinatorial problems,
30th Design Automation Conference, 272-277. Rauzy 1993, New algorithms for fault trees analysis,
Reliability Engineering and System Safety 40(3), 203-211.
"""

import sys
from collections.abc import Callable, Generator
from typing import TypeAlias

ZERO, ONE = 0, 1
_UNSTARTED = -1

Recursion: TypeAlias = Generator["Recursion", int, int]


def settle(call: Recursion) -> int:
    """Return the result of a recursion that yields its inner calls instead of making them.

    A diagram of 800 faults is up to 800 levels deep, near the interpreter's own limit on recursion.
    """
    stack, answer = [call], _UNSTARTED
    while stack:
        try:
            inner = next(stack[-1]) if answer == _UNSTARTED else stack[-1].send(answer)
        except StopIteration as done:
            stack.pop()
            answer = done.value
        else:
            stack.append(inner)
            answer = _UNSTARTED
    return answer


class Diagram:
    """A table of shared nodes; the two kinds below differ in which nodes they leave out."""

    def __init__(self) -> None:
        self.variable = [sys.maxsize, sys.maxsize]
        self.high = [ZERO, ONE]
        self.low = [ZERO, ONE]
        self._index: dict[tuple[int, int, int], int] = {}
        self._solved: dict[tuple[int, ...], int] = {}

    def _shared(self, variable: int, high: int, low: int) -> int:
        key = (variable, high, low)
        index = self._index.setdefault(key, len(self.variable))
        if index == len(self.variable):
            self.variable.append(variable)
            self.high.append(high)
            self.low.append(low)
        return index

    def below(self, root: int) -> list[int]:
        """Return the nodes that `root` is made of, itself included, branches first, without the ends."""
        found: set[int] = set()
        waiting = [root]
        while waiting:
            node = waiting.pop()
            if node > ONE and node not in found:
                found.add(node)
                waiting += (self.high[node], self.low[node])
        return sorted(found)

    def fold(self, root: int, weigh: Callable[[int, float, float], float]) -> float:
        """Return the value of `root`, ends being 0 and 1, nodes `weigh(variable, high, low)`."""
        value = {ZERO: 0.0, ONE: 1.0}
        for node in self.below(root):
            value[node] = weigh(self.variable[node], value[self.high[node]], value[self.low[node]])
        return value[root]


class BooleanDiagram(Diagram):
    """Reduced ordered binary decision diagrams (Bryant 1986) under `and` and `or`."""

    def node(self, variable: int, high: int, low: int) -> int:
        """Return the function "if `variable` then `high` else `low`"."""
        return low if high == low else self._shared(variable, high, low)

    def both(self, f: int, g: int) -> int:
        """Return `f and g`."""
        return settle(self._joined(ZERO, f, g))

    def either(self, f: int, g: int) -> int:
        """Return `f or g`."""
        return settle(self._joined(ONE, f, g))

    def _branches(self, f: int, variable: int) -> tuple[int, int]:
        return (self.high[f], self.low[f]) if self.variable[f] == variable else (f, f)

    def _joined(self, absorber: int, f: int, g: int) -> Recursion:
        """Join by `and` (absorber ZERO, neutral ONE) or by `or` (the other way round)."""
        neutral = ONE - absorber
        if absorber in (f, g):
            return absorber
        if f == g or neutral in (f, g):
            return g if f == neutral else f
        key = (absorber, min(f, g), max(f, g))
        if key not in self._solved:
            variable = min(self.variable[f], self.variable[g])
            (f_high, f_low), (g_high, g_low) = self._branches(f, variable), self._branches(g, variable)
            high = yield self._joined(absorber, f_high, g_high)
            low = yield self._joined(absorber, f_low, g_low)
            self._solved[key] = self.node(variable, high, low)
        return self._solved[key]


class SetDiagram(Diagram):
    """Zero-suppressed diagrams (Minato 1993): ZERO is no set at all, ONE is the empty set alone."""

    def node(self, variable: int, high: int, low: int) -> int:
        """Return the family of `high`'s sets with `variable` put in, and of `low`'s as they are."""
        return low if high == ZERO else self._shared(variable, high, low)

    def difference(self, a: int, b: int) -> int:
        """Return the sets of `a` that are not in `b`."""
        return settle(self._difference(a, b))

    def _branches(self, a: int, variable: int) -> tuple[int, int]:
        return (self.high[a], self.low[a]) if self.variable[a] == variable else (ZERO, a)

    def _difference(self, a: int, b: int) -> Recursion:
        if ZERO in (a, b):
            return a
        if a == b:
            return ZERO
        key = (a, b)
        if key not in self._solved:
            variable = min(self.variable[a], self.variable[b])
            (a_high, a_low), (b_high, b_low) = self._branches(a, variable), self._branches(b, variable)
            high = yield self._difference(a_high, b_high)
            low = yield self._difference(a_low, b_low)
            self._solved[key] = self.node(variable, high, low)
        return self._solved[key]
