"""A page of paper before it is markdown, HTML or plain text: sections of a few kinds of blocks.

Texts stand here as they are; whoever renders a document escapes them and makes control characters
visible.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Tone = Literal["plain", "good", "caution", "stop"]


@dataclass(frozen=True, slots=True)
class Facts:
    """Labels with their texts."""

    rows: tuple[tuple[str, str], ...]
    kind: str = "facts"


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a head; `right` are the columns that hold numbers."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...] = ()
    kind: str = "table"


@dataclass(frozen=True, slots=True)
class Tick:
    """Something to tick off: done, not done, or (None) for a pen to tick. `lines` stand under it."""

    text: str
    done: bool | None = None
    label: str = ""  # such as the number of a step
    note: str = ""
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ticks:
    """A list of things to tick off, under a title of its own or none."""

    items: tuple[Tick, ...]
    title: str = ""
    kind: str = "ticks"


@dataclass(frozen=True, slots=True)
class Alert:
    """A box that must be seen: a caution, a danger, or how it ended."""

    tone: Tone
    title: str
    rows: tuple[tuple[str, str], ...] = ()
    kind: str = "alert"


@dataclass(frozen=True, slots=True)
class Bars:
    """Shares of a whole, each with its label, a share from 0 to 1, and the share in words."""

    rows: tuple[tuple[str, float, str], ...]
    kind: str = "bars"


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph; `quote` where somebody said it in these words."""

    text: str
    quote: bool = False
    kind: str = "text"


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list of sentences."""

    items: tuple[str, ...]
    kind: str = "bullets"


Block = Facts | Table | Ticks | Alert | Bars | Text | Bullets


@dataclass(frozen=True, slots=True)
class Section:
    """Blocks under a title."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Document:
    """A whole paper: its title, what it is about, what must be seen first, and its sections."""

    title: str
    about: str
    first: tuple[Block, ...]
    sections: tuple[Section, ...]
    foot: str = ""


def section(title: str, *blocks: Block | None) -> Section:
    """Return a section of the blocks that there are and that hold something."""
    return Section(title, tuple(block for block in blocks if block is not None and _holds(block)))


def filled(*sections: Section) -> tuple[Section, ...]:
    """Return the sections that have anything in them."""
    return tuple(each for each in sections if each.blocks)


def facts(*rows: tuple[str, str]) -> Facts:
    """Return labels with texts, those without text left out."""
    return Facts(tuple(row for row in rows if row[1]))


def _holds(block: Block) -> bool:
    match block:
        case Facts() | Table() | Bars():
            return bool(block.rows)
        case Ticks() | Bullets():
            return bool(block.items)
        case Text():
            return bool(block.text)
    return True
