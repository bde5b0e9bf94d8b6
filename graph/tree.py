"""The fault tree: which faults make which events true.

Edges run from cause to effect, so an event's inputs are its predecessors. Every gate is a threshold
on the number of true inputs (`any` is at least 1, `all` is at least n), so the tree is coherent:
one more fault never makes an event false. The cut sets rest on that, and it is why there is no "not".

IEC 61025:2006, Fault tree analysis (FTA): static gates OR, AND and the m-out-of-n vote.
Vesely, Goldberg, Roberts and Haasl 1981, Fault Tree Handbook, NUREG-0492, chapter IV.
"""

from collections import Counter, deque
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Literal

import networkx as nx

from graph.errors import GraphError, TreeInvalid
from graph.gates import at_least
from graph.joint import ENDS, Causes, both, either
from graph.tree_rules import tree_problems

Gate = Literal["any", "all", "at_least"]


@dataclass(frozen=True, slots=True)
class EventSpec:
    """How an event comes about; `k` is read for the gate `at_least` only."""

    gate: Gate
    k: int | None
    inputs: tuple[str, ...]

    @property
    def threshold(self) -> int:
        """Return how many inputs must be true; `tree_problems` finds an `at_least` without `k`."""
        return {"any": 1, "all": len(self.inputs), "at_least": self.k or 0}[self.gate]


@dataclass(frozen=True, eq=False)
class FaultTree:
    """A checked, acyclic fault tree.

    `graph` is a frozen networkx.DiGraph, cause to effect; event nodes carry `gate` and `k`, where `k`
    is the number of inputs that must be true whatever the gate. `faults` and `events` keep file order.
    """

    graph: nx.DiGraph
    faults: tuple[str, ...]
    events: tuple[str, ...]

    @cached_property
    def position(self) -> Mapping[str, int]:
        """Return the place of each id in file order, faults before events."""
        return MappingProxyType({name: place for place, name in enumerate(self.faults + self.events)})

    @cached_property
    def thresholds(self) -> Mapping[str, int]:
        """Return for each event how many of its inputs must be true."""
        return MappingProxyType({event: self.graph.nodes[event]["k"] for event in self.events})

    @cached_property
    def upward(self) -> tuple[str, ...]:
        """Return the events so that each comes after its inputs."""
        return tuple(name for name in nx.topological_sort(self.graph) if name in self.thresholds)

    @cached_property
    def tops(self) -> tuple[str, ...]:
        """Return the events that feed no other event, in file order."""
        return tuple(event for event in self.events if not self.effects(event))

    def inputs(self, event: str) -> tuple[str, ...]:
        """Return what an event is made of, in file order of the event."""
        return tuple(self.graph.predecessors(event))

    def effects(self, name: str) -> tuple[str, ...]:
        """Return the events that a fault or event feeds."""
        return tuple(self.graph.successors(name))

    def require_event(self, name: str) -> None:
        """Raise GraphError unless `name` is an event of this tree."""
        if name not in self.thresholds:
            raise GraphError(f'"{name}" is no event of this fault tree; ask about one of its events')

    def require_fault(self, name: str) -> None:
        """Raise GraphError unless `name` is a fault of this tree."""
        if name not in self.position or name in self.thresholds:
            raise GraphError(f'"{name}" is no fault of this fault tree; name one of its faults')


def build_tree(events: Mapping[str, EventSpec], faults: Iterable[str] | None = None) -> FaultTree:
    """Return the fault tree of `events`, in the order of the mapping.

    Every input that is no event is a fault (a basic event). When `faults` is given it is the full list
    in file order, and any other input is refused; otherwise faults are ordered by first mention.

    Raises TreeInvalid, naming every problem that `tree_problems` finds.
    """
    known = None if faults is None else tuple(dict.fromkeys(faults))
    problems = tree_problems(events, known)
    if problems:
        raise TreeInvalid("\n".join(str(problem) for problem in problems))
    mentioned = (name for spec in events.values() for name in spec.inputs if name not in events)
    basic = tuple(dict.fromkeys(mentioned)) if known is None else known
    return FaultTree(graph=_frozen_graph(events, basic), faults=basic, events=tuple(events))


def _frozen_graph(events: Mapping[str, EventSpec], faults: Iterable[str]) -> nx.DiGraph:
    graph = nx.DiGraph()
    graph.add_nodes_from(faults)
    for event, spec in events.items():
        graph.add_node(event, gate=spec.gate, k=spec.threshold)
    for event, spec in events.items():
        graph.add_edges_from((name, event) for name in spec.inputs)
    return nx.freeze(graph)


def truth(tree: FaultTree, present: Collection[str]) -> frozenset[str]:
    """Return the events that are true when exactly the faults in `present` are there.

    Counts arrivals at each gate and goes up only from what is true, so the cost is that of the part
    of the tree above `present`. Raises GraphError for a name that is no fault of the tree.
    """
    for fault in present:
        tree.require_fault(fault)
    arrived: Counter[str] = Counter()
    waiting = deque(set(present))
    true: set[str] = set()
    while waiting:
        for event in tree.graph.successors(waiting.popleft()):
            arrived[event] += 1
            if arrived[event] == tree.thresholds[event]:
                true.add(event)
                waiting.append(event)
    return frozenset(true)


def ancestors_true(tree: FaultTree, fault: str) -> tuple[tuple[str, int], ...]:
    """Return the events that one fault alone makes true, each with its number of steps up.

    Steps are edges on the shortest way up that passes through true events only. Nearest first, then
    file order. Raises GraphError for a name that is no fault of the tree.
    """
    true = truth(tree, (fault,))
    steps = {fault: 0}
    waiting = deque([fault])
    while waiting:
        cause = waiting.popleft()
        for event in tree.graph.successors(cause):
            if event in true and event not in steps:
                steps[event] = steps[cause] + 1
                waiting.append(event)
    del steps[fault]
    return tuple(sorted(steps.items(), key=lambda pair: (pair[1], tree.position[pair[0]])))


def loose_ends(tree: FaultTree, tops: Iterable[str]) -> tuple[str, ...]:
    """Return the faults and events that lead to none of `tops`, in file order.

    They are allowed, and change no top event; what an author makes of them is for the pack check.
    Raises GraphError when one of `tops` is no event of the tree.
    """
    reached: set[str] = set()
    for top in tops:
        tree.require_event(top)
        reached |= {top, *nx.ancestors(tree.graph, top)}
    return tuple(name for name in tree.position if name not in reached)


def joint_pairs(tree: FaultTree) -> tuple[tuple[str, str, str], ...]:
    """Return `(fault, fault, event)` where the two make the event true and neither alone does.

    They are the minimal cut sets of order two of every event, from one pass up the tree. The first
    fault comes before the second in file order; rows go by the first, the second, then the event.
    """
    causes = {fault: Causes(singles=frozenset([fault])) for fault in tree.faults}
    for event in tree.upward:
        inputs = [causes[name] for name in tree.inputs(event)]
        causes[event] = at_least(tree.thresholds[event], inputs, both, either, ENDS)
    place = tree.position
    rows = (
        (*sorted(place[fault] for fault in pair), place[event])
        for event in tree.events
        for pair in causes[event].pairs
    )
    names = tree.faults + tree.events
    return tuple((names[a], names[b], names[event]) for a, b, event in sorted(rows))
