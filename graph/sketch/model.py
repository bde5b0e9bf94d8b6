"""A fault tree as something to draw: nodes with titles, gates and subsystems, without any shape yet.

`sketch(machine)` draws repeated elements once, with the number of their instances; `instances=True` draws
each of them. With a root only what leads to it or comes of it is drawn.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import networkx as nx

from graph.complaint import did_you_mean
from graph.errors import PackMissing

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from graph.machine import Check, Machine, Row

GATES = {"any": "or", "all": "and", "at_least": "vote"}


@dataclass(frozen=True, slots=True)
class Link:
    """One input of a gate: how many instances of it, and how likely it shows as a symptom (or None)."""

    cause: str
    count: int
    share: float | None


@dataclass(frozen=True, slots=True)
class Node:
    """A fault, event or symptom. `gate` is empty for a fault; `k` of `total` inputs make a vote true."""

    id: str
    kind: str
    title: str
    gate: str
    k: int
    total: int
    links: tuple[Link, ...]
    hidden: int  # inputs that this drawing leaves out
    instances: int
    subsystem: str


@dataclass(frozen=True, slots=True)
class Subsystem:
    """A chapter of the pack, with letters that say without colour which one it is."""

    id: str
    title: str
    code: str
    fill: str
    line: str


@dataclass(frozen=True, slots=True)
class Sketch:
    """What is drawn: nodes by id in file order (causes first), tops, subsystems that occur."""

    title: str
    nodes: Mapping[str, Node]
    tops: tuple[str, ...]
    subsystems: Mapping[str, Subsystem]


@dataclass(frozen=True, slots=True)
class _Raw:
    """One instance as the machine has it."""

    id: str
    base: str
    kind: str
    title: str
    gate: str
    k: int
    inputs: tuple[tuple[str, float | None], ...]
    chapter: str


def sketch(machine: Machine, root: str = "", *, instances: bool = False) -> Sketch:
    """Return the drawing of a machine's tree, or of what is above and below `root`.

    `root` is an id, with or without its place. Raises PackMissing when no fault, event or symptom is
    called so.
    """
    raw = _raw(machine)
    if not instances:
        merged = _nodes(raw, lambda one: one.base)
        if nx.is_directed_acyclic_graph(_graph(merged.values())):  # merging places can close a circle
            return _selected(machine, merged, root.partition("@")[0])
    return _selected(machine, _nodes(raw, lambda one: one.id), root)


def _raw(machine: Machine) -> tuple[_Raw, ...]:
    """Return faults, events and symptoms as instances; a symptom is true by any of its rows' keys.

    A row may name a fault that this machine does not have.
    """
    known = {element.id for element in machine.faults} | {element.id for element in machine.events}
    faults = (_Raw(f.id, f.base, "fault", f.title, "", 0, (), f.chapter) for f in machine.faults)
    events = (
        _Raw(e.id, e.base, "event", e.title, GATES[e.gate], e.k, tuple((n, None) for n in e.of), e.chapter)
        for e in machine.events
    )
    symptoms = (
        _Raw(
            c.id,
            c.base,
            "symptom",
            c.title,
            "or",
            1,
            tuple((row.key, row.probabilities[0]) for row in _raising(c) if row.key in known),
            c.chapter,
        )
        for c in machine.checks
        if c.kind == "symptom"
    )
    return (*faults, *events, *(symptom for symptom in symptoms if symptom.inputs))


def _raising(symptom: Check) -> tuple[Row, ...]:
    """Return the rows that make a symptom likelier than it is without a cause."""
    return tuple(row for row in symptom.rows if row.probabilities[0] > symptom.otherwise[0])


def _nodes(raw: tuple[_Raw, ...], name: Callable[[_Raw], str]) -> dict[str, Node]:
    """Return one node per name; the first instance of a name speaks for the others."""
    called = {one.id: name(one) for one in raw}
    count: dict[str, int] = {}
    for one in raw:
        count[called[one.id]] = count.get(called[one.id], 0) + 1
    nodes: dict[str, Node] = {}
    for one in raw:
        here = called[one.id]
        if here in nodes:
            continue
        title = _shared_title(one.title) if count[here] > 1 else one.title
        links = _links(one, called)
        nodes[here] = Node(
            here, one.kind, title, one.gate, one.k, len(one.inputs), links, 0, count[here], one.chapter
        )
    return nodes


def _shared_title(title: str) -> str:
    """Return the title of a repeated element without the name of its first place."""
    return title.rpartition(", ")[0] or title


def _links(one: _Raw, called: Mapping[str, str]) -> tuple[Link, ...]:
    """Return the inputs of an instance by the names of their nodes, each once."""
    links: dict[str, Link] = {}
    for cause, share in one.inputs:
        here = called[cause]
        if here == called[one.id]:
            continue
        known = links.get(here)
        links[here] = Link(here, 1 + (known.count if known else 0), known.share if known else share)
    return tuple(links.values())


def _graph(nodes: Iterable[Node]) -> nx.DiGraph:
    """Return the edges from cause to effect."""
    graph = nx.DiGraph()
    for node in nodes:
        graph.add_node(node.id)
        graph.add_edges_from((link.cause, node.id) for link in node.links)
    return graph


def _selected(machine: Machine, nodes: Mapping[str, Node], root: str) -> Sketch:
    title = f"{machine.pack_title}, {machine.profile_title}"
    graph = _graph(nodes.values())
    kept = set(nodes)
    if root:
        if root not in nodes:
            hint = did_you_mean(root, nodes) or "Give the id of a fault, an event or a symptom."
            raise PackMissing(f'No fault, event or symptom of this drawing is called "{root}". {hint}')
        kept = {root, *nx.ancestors(graph, root), *nx.descendants(graph, root)}
        title = f"{nodes[root].title} ({root})"
    shown = {name: _within(node, kept) for name, node in nodes.items() if name in kept}
    inside = graph.subgraph(kept)
    tops = tuple(
        name for name in shown if not any(True for _ in inside.successors(name)) and shown[name].gate
    )
    return Sketch(title, shown, tops or ((root,) if root else ()), _subsystems(machine, shown.values()))


def _within(node: Node, kept: set[str]) -> Node:
    links = tuple(link for link in node.links if link.cause in kept)
    return replace(node, links=links, hidden=len(node.links) - len(links))


def _subsystems(machine: Machine, nodes: Iterable[Node]) -> dict[str, Subsystem]:
    """Return the chapters in order, with codes and colours that do not depend on what is drawn."""
    chapters = tuple(dict.fromkeys(e.chapter for e in machine.faults))
    chapters = tuple(dict.fromkeys((*chapters, *(e.chapter for e in machine.events))))
    chapters = tuple(dict.fromkeys((*chapters, *(e.chapter for e in machine.checks))))
    used = {node.subsystem for node in nodes}
    codes = letter_codes(chapters)
    found = {}
    for index, name in enumerate(chapters):
        # The golden angle keeps neighbours in the list far apart in hue, whatever their number.
        hue = round(index * 137.508 + 15) % 360
        fill, line = f"hsl({hue}, 60%, {90 - 6 * (index % 2)}%)", f"hsl({hue}, 70%, 28%)"
        if name in used:
            title = name.replace("_", " ").capitalize()
            found[name] = Subsystem(name, title, codes[name], fill, line)
    return found


def letter_codes(names: Iterable[str]) -> dict[str, str]:
    """Return two or more capital letters for every name, no two alike: GS for gas_supply, BA for barrel."""
    codes: dict[str, str] = {}
    for name in names:
        words = [word for word in name.split("_") if word]
        short = "".join(word[0] for word in words) if len(words) > 1 else name[:2]
        longer = (
            words[0][:size] + "".join(word[0] for word in words[1:]) for size in range(2, len(name) + 1)
        )
        wanted = (option.upper() for option in (short, *longer))
        taken = set(codes.values())
        codes[name] = next((code for code in wanted if code not in taken), f"{short.upper()}{len(codes)}")
    return codes
