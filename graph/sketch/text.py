"""A sketch in the languages of other drawing programs: Mermaid, DOT, GraphML."""

from __future__ import annotations

from typing import TYPE_CHECKING

import networkx as nx

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.sketch.model import Node, Sketch

MERMAID_GATES = {"or": ("{{", "}}"), "and": ("[/", "\\]"), "vote": ("{{", "}}")}
DOT_GATES = {"or": "invhouse", "and": "house", "vote": "hexagon"}


def gate_label(node: Node) -> str:
    """Return OR, AND, or how many of how many."""
    return f"{node.k}/{node.total}" if node.gate == "vote" else node.gate.upper()


def labelled(node: Node, sketch: Sketch) -> tuple[str, ...]:
    """Return the lines of a node's label: title, id, what is left out."""
    times = f" x{node.instances}" if node.instances > 1 else ""
    more = (f"+{node.hidden} more inputs",) if node.hidden else ()
    return f"[{sketch.subsystems[node.subsystem].code}] {node.title}{times}", node.id, *more


def mermaid(sketch: Sketch) -> str:
    """Return a Mermaid flowchart, causes below: faults round, events square, gates between."""
    number = {name: f"n{index}" for index, name in enumerate(sketch.nodes)}
    lines = ["flowchart TD", *_mermaid_nodes(sketch, number)]
    for name, node in sketch.nodes.items():
        gate = f"{number[name]}g"
        if node.gate and node.links:
            lines.append(f"  {number[name]} --- {gate}")
        for link in node.links:
            times = f'|"x{link.count}"|' if link.count > 1 else ""
            lines.append(f"  {gate} ---{times} {number[link.cause]}")
    lines += [
        f"  classDef {part.code} fill:{_hsl(part.fill)},stroke:{_hsl(part.line)},color:#000"
        for part in sketch.subsystems.values()
    ]
    for part in sketch.subsystems.values():
        mine = [number[name] for name, node in sketch.nodes.items() if node.subsystem == part.id]
        lines.append(f"  class {','.join(mine)} {part.code}")
    return "\n".join(lines) + "\n"


def _mermaid_nodes(sketch: Sketch, number: dict[str, str]) -> Iterator[str]:
    for name, node in sketch.nodes.items():
        text = "<br/>".join(_mermaid_text(line) for line in labelled(node, sketch))
        left, right = ("((", "))") if node.kind == "fault" else ("[", "]")
        yield f'  {number[name]}{left}"{text}"{right}'
        if node.gate and node.links:
            left, right = MERMAID_GATES[node.gate]
            yield f'  {number[name]}g{left}"{gate_label(node)}"{right}'


def _mermaid_text(text: str) -> str:
    """Return a text with everything that Mermaid would read as its own written as character codes."""
    special = {"#": "#35;", '"': "#quot;", "<": "#lt;", ">": "#gt;", "&": "#amp;", "`": "#96;"}
    return "".join(special.get(char, char) for char in text)


def _hsl(colour: str) -> str:
    """Return a colour without the commas that Mermaid would split a style at."""
    hue, saturation, light = (float(part.strip(" %")) for part in colour[4:-1].split(","))
    chroma = saturation / 100 * min(light / 100, 1 - light / 100)
    channels = []
    for offset in (0, 8, 4):  # the shortest form of HSL to RGB: CSS Color Module Level 4, section 7
        k = (offset + hue / 30) % 12
        channels.append(light / 100 - chroma * max(-1.0, min(k - 3, 9 - k, 1.0)))
    return "#" + "".join(f"{round(255 * channel):02x}" for channel in channels)


def dot(sketch: Sketch) -> str:
    """Return a DOT digraph, effects above their causes."""
    number = {name: f"n{index}" for index, name in enumerate(sketch.nodes)}
    lines = [
        "digraph fault_tree {",
        f"  label={_quoted(sketch.title)}; labelloc=t; rankdir=TB;",
        '  node [fontname="Helvetica", style=filled, fillcolor=white]; edge [arrowhead=none];',
    ]
    for name, node in sketch.nodes.items():
        part = sketch.subsystems[node.subsystem]
        shape = "circle" if node.kind == "fault" else "box"
        label = _quoted("\n".join(labelled(node, sketch)))
        fill, line = _hsl(part.fill), _hsl(part.line)
        lines.append(f'  {number[name]} [shape={shape}, label={label}, fillcolor="{fill}", color="{line}"];')
        if node.gate and node.links:
            gate = f"{number[name]}g"
            lines.append(f"  {gate} [shape={DOT_GATES[node.gate]}, label={_quoted(gate_label(node))}];")
            lines.append(f"  {number[name]} -> {gate};")
            lines += [f"  {gate} -> {number[link.cause]}{_times(link.count)};" for link in node.links]
    return "\n".join([*lines, "}"]) + "\n"


def _times(count: int) -> str:
    return f' [label="x{count}"]' if count > 1 else ""


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def graphml(sketch: Sketch) -> str:
    """Return GraphML of the edges from cause to effect, with everything a node is as attributes."""
    graph = nx.DiGraph(title=sketch.title)
    for name, node in sketch.nodes.items():
        graph.add_node(
            name,
            kind=node.kind,
            title=node.title,
            gate=node.gate,
            k=node.k,
            inputs=node.total,
            instances=node.instances,
            subsystem=node.subsystem,
        )
    for name, node in sketch.nodes.items():
        for link in node.links:
            share = {} if link.share is None else {"present": round(link.share, 4)}
            graph.add_edge(link.cause, name, count=link.count, **share)
    return "\n".join(nx.generate_graphml(graph)) + "\n"
