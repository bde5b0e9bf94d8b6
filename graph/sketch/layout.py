"""Where everything of a drawing goes: an event over its gate, its inputs one level below.

What feeds several gates is drawn in full once; elsewhere a transfer triangle says so, as NUREG-0492,
chapter IV, has it. So every drawing is a tree and no line crosses another. Faults and transfers hang
under their gate in columns, sorted by subsystem: forty circles side by side could not be read.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.sketch.model import Link, Node, Sketch

BOX_WIDTH, BOX_HEIGHT = 200, 62
GATE_DROP = 34  # from the foot of the box to the middle of the gate
LEVEL = BOX_HEIGHT + 112  # from the top of one box to that of the next below
LEAF_WIDTH, LEAF_HEIGHT = 246, 40
GAP = 26
LONGEST = 9  # leaves in one column
DEEPEST = 60  # levels; deeper than any tree that people can read, and well inside Python's stack


@dataclass(frozen=True, slots=True)
class Leaf:
    """A fault, or a transfer to an event that is drawn elsewhere; x, y is the middle of its symbol."""

    node: Node
    link: Link
    transfer: bool
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Column:
    """Leaves under one another; x is where their line comes down."""

    x: float
    top: float
    leaves: tuple[Leaf, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """An event with its box at x (middle), y (top), and what hangs below it."""

    node: Node
    link: Link | None
    x: float
    y: float
    blocks: tuple[Block, ...]
    columns: tuple[Column, ...]

    @property
    def gate_y(self) -> float:
        """Return the height of the middle of the gate."""
        return self.y + BOX_HEIGHT + GATE_DROP

    @property
    def bus_y(self) -> float:
        """Return the height of the line that joins the inputs."""
        return self.y + LEVEL - 22

    def all_blocks(self) -> Iterator[Block]:
        """Yield this block and everything below it."""
        yield self
        for block in self.blocks:
            yield from block.all_blocks()


@dataclass(frozen=True, slots=True)
class Drawing:
    """One tree, laid out; sizes in pixels."""

    top: Block
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Branch:
    """A node before it has a place."""

    node: Node
    link: Link | None
    branches: tuple[_Branch, ...]
    columns: tuple[tuple[tuple[Link, bool], ...], ...]

    @property
    def width(self) -> float:
        inner = [branch.width for branch in self.branches] + [LEAF_WIDTH] * len(self.columns)
        return max(BOX_WIDTH + GAP, sum(inner))


def lay_out(sketch: Sketch, top: str) -> Drawing:
    """Return the drawing of everything that leads to the event `top`."""
    branch = _branch(sketch, top, None, set(), 0)
    block = _placed(sketch, branch, 0.0, 0.0)
    height = max(_foot(one) for one in block.all_blocks())
    return Drawing(block, branch.width, height)


def _branch(sketch: Sketch, name: str, link: Link | None, drawn: set[str], depth: int) -> _Branch:
    """Return the tree under a node; `drawn` collects the events that stand in it in full."""
    drawn.add(name)
    node = sketch.nodes[name]
    branches: list[_Branch] = []
    leaves: list[tuple[Link, bool]] = []
    for one in node.links:
        cause = sketch.nodes[one.cause]
        if not cause.gate:
            leaves.append((one, False))
        elif one.cause in drawn or depth >= DEEPEST:
            leaves.append((one, True))
        else:
            branches.append(_branch(sketch, one.cause, one, drawn, depth + 1))
    order = {part: place for place, part in enumerate(sketch.subsystems)}
    leaves.sort(key=lambda leaf: order[sketch.nodes[leaf[0].cause].subsystem])
    columns = tuple(tuple(leaves[at : at + LONGEST]) for at in range(0, len(leaves), LONGEST))
    return _Branch(node, link, tuple(branches), columns)


def _placed(sketch: Sketch, branch: _Branch, left: float, y: float) -> Block:
    blocks: list[Block] = []
    columns: list[Column] = []
    inner = sum(one.width for one in branch.branches) + LEAF_WIDTH * len(branch.columns)
    at = left + (branch.width - inner) / 2
    for one in branch.branches:
        blocks.append(_placed(sketch, one, at, y + LEVEL))
        at += one.width
    for column in branch.columns:
        columns.append(_column(sketch, column, at + 10, y + LEVEL))
        at += LEAF_WIDTH
    middles = [block.x for block in blocks] + [column.x for column in columns]
    # One input hangs straight under its gate; the box stands over the middle of its inputs.
    x = (middles[0] + middles[-1]) / 2 if middles else left + branch.width / 2
    x = min(max(x, left + BOX_WIDTH / 2 + 4), left + branch.width - BOX_WIDTH / 2 - 4)
    return Block(branch.node, branch.link, x, y, tuple(blocks), tuple(columns))


def _column(sketch: Sketch, column: tuple[tuple[Link, bool], ...], x: float, top: float) -> Column:
    leaves = tuple(
        Leaf(sketch.nodes[link.cause], link, transfer, x + 28, top + LEAF_HEIGHT * (row + 0.5))
        for row, (link, transfer) in enumerate(column)
    )
    return Column(x, top, leaves)


def _foot(block: Block) -> float:
    """Return how far down a block and its columns reach."""
    leaves = [column.leaves[-1].y + LEAF_HEIGHT / 2 for column in block.columns]
    return max([block.y + BOX_HEIGHT + 2 * GATE_DROP, *leaves])
