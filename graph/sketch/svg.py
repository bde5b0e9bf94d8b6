"""A laid-out tree as self-contained SVG, with the gate shapes of standard fault trees.

Rule of the file: every text from the pack goes through `escape`. Colours only repeat what letters
and shapes say already.
"""

from __future__ import annotations

import textwrap
from html import escape
from typing import TYPE_CHECKING

from graph.sketch.layout import BOX_HEIGHT, BOX_WIDTH, GATE_DROP, LEAF_WIDTH, lay_out
from graph.sketch.text import gate_label

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.sketch.layout import Block, Column, Drawing, Leaf
    from graph.sketch.model import Node, Sketch, Subsystem

MARGIN = 16
HEADING = 30
LEGEND_ROW, LEGEND_COLUMN, LEGEND_COLUMNS = 24, 236, 4
OR_SHAPE = "M -22 20 Q 0 8 22 20 C 22 0 12 -14 0 -22 C -12 -14 -22 0 -22 20 Z"
AND_SHAPE = "M -22 20 L 22 20 L 22 0 A 22 22 0 0 0 -22 0 Z"
_K_OF_N = '<text class="s" y="5" text-anchor="middle" style="font-size:7px">k/n</text>'
SHAPES = {"or": OR_SHAPE, "and": AND_SHAPE, "vote": OR_SHAPE}
STYLE = (
    "text{font:12px Helvetica,Arial,sans-serif;fill:#111}"
    ".t{font-weight:600}.s{font-size:10px;fill:#444}.c{font-weight:700;font-size:11px}"
    ".w{stroke:#333;fill:none;stroke-width:1.3}.g{stroke:#111;fill:#fff;stroke-width:1.5}"
    ".h{font-size:16px;font-weight:700}"
)


def svg(sketch: Sketch, top: str, prefix: str = "") -> str:
    """Return one tree as an SVG element; `prefix` makes ids into links, such as "#" within a page."""
    drawing = lay_out(sketch, top)
    width, height = drawing.width + 2 * MARGIN, drawing.height + 2 * MARGIN
    body = "".join(_blocks(sketch, drawing, prefix))
    name = escape(sketch.nodes[top].title)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{height:.0f}" '
        f'viewBox="{-MARGIN} {-MARGIN} {width:.0f} {height:.0f}" role="img" aria-label="{name}">'
        f"<style>{STYLE}</style>{body}</svg>"
    )


def svg_document(sketch: Sketch) -> str:
    """Return all trees of a sketch under one another, with the legend, as an SVG file."""
    parts: list[str] = []
    width, y = float(LEGEND_COLUMN * LEGEND_COLUMNS), float(HEADING)
    legend, tall = _legend(sketch, y)
    parts += [f'<text class="h" x="0" y="14">{escape(sketch.title)}</text>', legend]
    y += tall + MARGIN
    for top in sketch.tops:
        drawing = lay_out(sketch, top)
        parts.append(f'<g transform="translate(0 {y:.0f})">{"".join(_blocks(sketch, drawing, ""))}</g>')
        y += drawing.height + 3 * MARGIN
        width = max(width, drawing.width)
    size = f'width="{width + 2 * MARGIN:.0f}" height="{y + 2 * MARGIN:.0f}"'
    box = f'viewBox="{-MARGIN} {-MARGIN} {width + 2 * MARGIN:.0f} {y + 2 * MARGIN:.0f}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box}><style>{STYLE}</style>'
        f'<rect x="{-MARGIN}" y="{-MARGIN}" width="100%" height="100%" fill="#fff"/>{"".join(parts)}</svg>\n'
    )


def legend_svg(sketch: Sketch) -> str:
    """Return the legend alone as an SVG element."""
    body, tall = _legend(sketch, 0)
    width = LEGEND_COLUMNS * LEGEND_COLUMN
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{tall:.0f}" '
        f'viewBox="-4 0 {width} {tall:.0f}" role="img" aria-label="legend"><style>{STYLE}</style>{body}</svg>'
    )


def _legend(sketch: Sketch, y: float) -> tuple[str, float]:
    """Return the legend at height `y`, and how tall it is."""
    symbols = (
        (f'<path class="g" transform="scale(.5)" d="{OR_SHAPE}"/>', "or: any input is enough"),
        (f'<path class="g" transform="scale(.5)" d="{AND_SHAPE}"/>', "and: all inputs needed"),
        (f'<path class="g" transform="scale(.5)" d="{OR_SHAPE}"/>{_K_OF_N}', "vote: at least k of n inputs"),
        ('<circle class="g" r="10"/>', "fault, its subsystem's letters in it"),
        (f'<path class="g" d="{_triangle(10)}"/>', "drawn in full elsewhere"),
        ('<rect class="g" x="-11" y="-8" width="22" height="16" stroke-width="3"/>', "symptom, or top event"),
        ('<text class="s" y="4" text-anchor="middle">75 %</text>', "how often a fault shows a symptom"),
        (
            f'<text class="s" y="4" text-anchor="middle">{_times(3).strip()}</text>',
            "stands at so many places",
        ),
    )
    entries = [*symbols, *((_disc(part, 10), escape(part.title)) for part in sketch.subsystems.values())]
    parts = []
    for index, (shape, words) in enumerate(entries):
        row, column = divmod(index, LEGEND_COLUMNS)
        x, middle = 14 + column * LEGEND_COLUMN, y + row * LEGEND_ROW + 14
        parts.append(f'<g transform="translate({x} {middle:.0f})">{shape}</g>')
        parts.append(f'<text x="{x + 18}" y="{middle + 4:.0f}">{words}</text>')
    return "".join(parts), (len(entries) + LEGEND_COLUMNS - 1) // LEGEND_COLUMNS * LEGEND_ROW + 8


def _disc(part: Subsystem, radius: float) -> str:
    size = 11 if len(part.code) <= 2 else 8  # noqa: PLR2004 - two letters fit the circle, three need less
    return (
        f'<circle r="{radius}" fill="{part.fill}" stroke="{part.line}" stroke-width="1.5"/>'
        f'<text class="c" y="4" text-anchor="middle" style="font-size:{size}px">{part.code}</text>'
    )


def _triangle(size: float) -> str:
    return f"M 0 {-size} L {size} {size * 0.8:.1f} L {-size} {size * 0.8:.1f} Z"


def _blocks(sketch: Sketch, drawing: Drawing, prefix: str) -> Iterator[str]:
    for block in drawing.top.all_blocks():
        yield from _lines(block)
        yield _box(sketch, block, prefix)
        if block.node.links:
            yield _gate(block)
        for column in block.columns:
            yield from (_leaf(sketch, leaf, prefix) for leaf in column.leaves)


def _lines(block: Block) -> Iterator[str]:
    """Yield the lines from a box through its gate to its inputs."""
    ends = [(one.x, one.y) for one in block.blocks] + [(column.x, column.top) for column in block.columns]
    if not ends:
        return
    yield f'<path class="w" d="M {block.x:.0f} {block.y + BOX_HEIGHT:.0f} V {block.bus_y:.0f}"/>'
    left = min(block.x, *(x for x, _ in ends))
    right = max(block.x, *(x for x, _ in ends))
    yield f'<path class="w" d="M {left:.0f} {block.bus_y:.0f} H {right:.0f}"/>'
    for x, y in ends:
        yield f'<path class="w" d="M {x:.0f} {block.bus_y:.0f} V {y:.0f}"/>'
    for column in block.columns:
        yield _comb(column)


def _comb(column: Column) -> str:
    """Return the line down a column, with a tooth to each leaf."""
    teeth = "".join(f" M {column.x:.0f} {leaf.y:.0f} H {leaf.x - 12:.0f}" for leaf in column.leaves)
    return f'<path class="w" d="M {column.x:.0f} {column.top:.0f} V {column.leaves[-1].y:.0f}{teeth}"/>'


def _box(sketch: Sketch, block: Block, prefix: str) -> str:
    node = block.node
    part = sketch.subsystems[node.subsystem]
    lines = _cut(f"{node.title}{_times(node.instances)}", 30, 3)
    first = block.y + 16 + (3 - len(lines)) * 7
    middle = f'x="{block.x:.0f}" text-anchor="middle"'
    text = "".join(
        f'<text class="t" {middle} y="{first + 14 * row:.0f}">{escape(line)}</text>'
        for row, line in enumerate(lines)
    )
    paint = f'fill="{part.fill}" stroke="{part.line}" stroke-width="{3 if node.kind == "symptom" else 1.5}"'
    shape = (
        f'<rect x="{block.x - BOX_WIDTH / 2:.0f}" y="{block.y:.0f}" '
        f'width="{BOX_WIDTH}" height="{BOX_HEIGHT}" rx="3" {paint}/>'
    )
    more = f", {node.hidden} more inputs not drawn" if node.hidden else ""
    count = _count(block.link.count if block.link else 1)
    foot = (
        f'<text class="s" {middle} y="{block.y + BOX_HEIGHT - 5:.0f}">'
        f"{part.code}{escape(count + more)}</text>"
    )
    return _linked(node, f"{shape}{text}{foot}", prefix)


def _gate(block: Block) -> str:
    node = block.node
    label = gate_label(node) if node.gate == "vote" else ""
    inside = f'<text class="c" y="9" text-anchor="middle">{label}</text>' if label else ""
    place = f"translate({block.x:.0f} {block.y + BOX_HEIGHT + GATE_DROP:.0f})"
    return (
        f'<g transform="{place}"><title>{gate_label(node)}</title>'
        f'<path class="g" d="{SHAPES[node.gate]}"/>{inside}</g>'
    )


def _leaf(sketch: Sketch, leaf: Leaf, prefix: str) -> str:
    """Return a fault's circle or a transfer's triangle, its title beside it."""
    node = leaf.node
    part = sketch.subsystems[node.subsystem]
    share = "" if leaf.link.share is None else f" {100 * leaf.link.share:.0f} %"
    words = f"{node.title}{_times(node.instances)}{_count(leaf.link.count)}{share}"
    lines = _cut(words, (LEAF_WIDTH - 60) // 6, 2)
    first = leaf.y + (4 if len(lines) == 1 else -2)
    text = "".join(
        f'<text x="18" y="{first - leaf.y + 13 * row:.0f}">{escape(line)}</text>'
        for row, line in enumerate(lines)
    )
    shape = f'<path class="g" d="{_triangle(12)}"/>' if leaf.transfer else _disc(part, 12)
    place = f'<g transform="translate({leaf.x:.0f} {leaf.y:.0f})">{shape}{text}</g>'
    return _linked(node, place, prefix)


def _times(instances: int) -> str:
    return f" \N{MULTIPLICATION SIGN}{instances}" if instances > 1 else ""


def _count(count: int) -> str:
    return f" ({count} here)" if count > 1 else ""


def _cut(text: str, width: int, most: int) -> list[str]:
    """Return a text in at most `most` lines; what does not fit ends in three dots."""
    return textwrap.wrap(text, width, max_lines=most, placeholder=" ...") or [""]


def _linked(node: Node, drawn: str, prefix: str) -> str:
    """Return a drawn node with its id as a tooltip, and as a link within a page."""
    named = f"<g><title>{escape(node.id)}</title>{drawn}</g>"
    return f'<a href="{escape(prefix + node.id)}">{named}</a>' if prefix else named
