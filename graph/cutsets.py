"""Minimal cut sets: the smallest sets of faults that make an event true.

The event becomes a binary decision diagram, and the minimal solutions are read off that without ever
listing a set that is not minimal (Rauzy 1993), so repeated events and votes need no special care.

Vesely, Goldberg, Roberts and Haasl 1981, Fault Tree Handbook, NUREG-0492, chapter VII.
Rauzy 1993, New algorithms for fault trees analysis, Reliability Engineering and System Safety 40(3),
203-211.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import networkx as nx

from graph.decision import ONE, ZERO, BooleanDiagram, Diagram, SetDiagram
from graph.errors import GraphError
from graph.gates import at_least
from graph.tree import FaultTree


class Function(NamedTuple):
    """A node of a diagram, and the fault that each of its variables stands for."""

    diagram: Diagram
    root: int
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class EventFunctions:
    """One event twice over: as a Boolean function, and as the family of its minimal cut sets."""

    truth: Function
    cut_sets: Function


def event_functions(tree: FaultTree, event: str) -> EventFunctions:
    """Return an event's decision diagrams. Raises GraphError for a name that is no event."""
    tree.require_event(event)
    diagram = BooleanDiagram()
    met = _depth_first(tree, event)
    faults = tuple(name for name in met if name not in tree.thresholds)
    nodes = {fault: diagram.node(variable, ONE, ZERO) for variable, fault in enumerate(faults)}
    inside = set(met)
    for name in (name for name in tree.upward if name in inside):
        # Lowest in the diagram first, so that each joining only touches what is new.
        inputs = sorted((nodes[cause] for cause in tree.inputs(name)), key=lambda f: -diagram.variable[f])
        nodes[name] = at_least(tree.thresholds[name], inputs, diagram.both, diagram.either, (ZERO, ONE))
    family, root = _minimal_solutions(diagram, nodes[event])
    return EventFunctions(Function(diagram, nodes[event], faults), Function(family, root, faults))


def _depth_first(tree: FaultTree, event: str) -> list[str]:
    """Return what an event is made of, itself first, an event's own faults before its events.

    So the faults of one branch stay together, the usual good order for the variables; and a long chain
    of events takes each fault at the top of what is there, not below it.
    """
    downward = tree.graph.reverse(copy=False)
    return list(
        nx.dfs_preorder_nodes(
            downward, event, sort_neighbors=lambda names: sorted(names, key=tree.thresholds.__contains__)
        )
    )


def _minimal_solutions(diagram: BooleanDiagram, root: int) -> tuple[SetDiagram, int]:
    """Return the minimal solutions of a coherent function (Rauzy 1993).

    A solution with x is minimal when what is left of it solves the high branch minimally and holds
    no solution of the low branch, which would do without x. More faults never make a coherent
    function false, so what solves the low branch solves the high one too: a minimal solution of the
    high branch holds one of the low branch only by being it, and his `without` is a difference.
    """
    family = SetDiagram()
    solutions = {ZERO: ZERO, ONE: ONE}
    for f in diagram.below(root):
        low = solutions[diagram.low[f]]
        high = family.difference(solutions[diagram.high[f]], low)
        solutions[f] = family.node(diagram.variable[f], high, low)
    return family, solutions[root]


def minimal_cut_sets(tree: FaultTree, event: str, max_order: int | None = None) -> tuple[frozenset[str], ...]:
    """Return the minimal cut sets of an event: smallest first, then by file order of their faults.

    `max_order` leaves out sets of more faults than that. Raises GraphError for a name that is no
    event and for a negative `max_order`.
    """
    if max_order is not None and max_order < 0:
        raise GraphError(f"a cut set cannot have {max_order} faults; give a max_order of 0 or more")
    family, root, faults = event_functions(tree, event).cut_sets
    limit = len(faults) if max_order is None else max_order
    places = (sorted(tree.position[faults[v]] for v in found) for found in _sets(family, root, limit))
    ordered = sorted(places, key=lambda found: (len(found), found))
    return tuple(frozenset(tree.faults[place] for place in found) for found in ordered)


def _sets(family: Diagram, root: int, limit: int) -> Iterator[tuple[int, ...]]:
    """Yield the family's sets of at most `limit` members, never entering a branch without one."""
    least = {ZERO: limit + 1, ONE: 0}
    for node in family.below(root):
        least[node] = min(least[family.high[node]] + 1, least[family.low[node]])
    waiting: list[tuple[int, tuple[int, ...]]] = [(root, ())]
    while waiting:
        node, members = waiting.pop()
        if len(members) + least[node] > limit:
            continue
        if node == ONE:
            yield members
        else:
            waiting.append((family.low[node], members))
            waiting.append((family.high[node], (*members, family.variable[node])))
