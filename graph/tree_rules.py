"""What a fault tree must be before anything is worked out on it; every problem is said at once."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Protocol

import networkx as nx


class Spec(Protocol):
    """The part of an event's definition that the rules read."""

    @property
    def gate(self) -> str: ...
    @property
    def k(self) -> int | None: ...
    @property
    def inputs(self) -> tuple[str, ...]: ...


@dataclass(frozen=True, slots=True)
class TreeProblem:
    """One thing wrong with one event: what it is, and what to do about it."""

    event: str
    what: str
    remedy: str

    def __str__(self) -> str:
        return f'event "{self.event}" {self.what}; {self.remedy}'


def tree_problems(events: Mapping[str, Spec], faults: Sequence[str] | None) -> tuple[TreeProblem, ...]:
    """Return every problem of a tree in file order of the events, circles last; none means sound.

    With `faults` given, an input must be a fault or an event; with None, any other name is a fault.
    """
    known = None if faults is None else {*faults, *events}
    clash = frozenset(faults or ())
    single = (
        problem
        for event, spec in events.items()
        for problem in (
            *_name_problems(event, clash),
            *_gate_problems(event, spec),
            *_input_problems(event, spec, known),
        )
    )
    return (*single, *_circles(events))


def _name_problems(event: str, faults: Collection[str]) -> Iterator[TreeProblem]:
    if event in faults:
        yield TreeProblem(event, "has the id of a fault", "give one of the two another id")


def _gate_problems(event: str, spec: Spec) -> Iterator[TreeProblem]:
    count = len(spec.inputs)
    if spec.gate not in ("any", "all", "at_least"):
        yield TreeProblem(event, f'has the unknown gate "{spec.gate}"', "use any, all or at_least")
    if not count:
        yield TreeProblem(event, "has no inputs", "list the faults and events that make it true")
    elif spec.gate == "at_least" and (spec.k is None or not 1 <= spec.k <= count):
        asked = "says at_least but not how many" if spec.k is None else f"wants at least {spec.k} of {count}"
        yield TreeProblem(event, asked, f"give a number from 1 to {count}")


def _input_problems(event: str, spec: Spec, known: Collection[str] | None) -> Iterator[TreeProblem]:
    for name in dict.fromkeys(spec.inputs):
        if spec.inputs.count(name) > 1:
            yield TreeProblem(event, f'lists the input "{name}" more than once', "list it once")
        if known is not None and name not in known:
            close = get_close_matches(name, sorted(known), n=1)
            remedy = f'did you mean "{close[0]}"?' if close else "define it or take it out"
            yield TreeProblem(event, f'has the input "{name}", which is no fault or event', remedy)


def _circles(events: Mapping[str, Spec]) -> Iterator[TreeProblem]:
    """Yield one circle for each tangle of events, told from its first event in file order."""
    needs = nx.DiGraph()
    needs.add_nodes_from(events)
    needs.add_edges_from((event, name) for event in events for name in events[event].inputs if name in events)
    tangle_of = {name: part for part in nx.strongly_connected_components(needs) for name in part}
    seen: set[str] = set()
    for event in events:
        if event in seen:
            continue
        seen |= tangle_of[event]
        inside = [edge for edge in needs.edges if tangle_of[event].issuperset(edge)]
        if inside:
            # A new graph, since a networkx subgraph view may iterate in set order.
            ring = [cause for cause, _ in nx.find_cycle(nx.DiGraph(inside), event)]
            words = " needs ".join(f'"{name}"' for name in (*ring, ring[0]))
            yield TreeProblem(event, f"goes round in a circle: {words}", "break the circle at one of them")
