"""A document as plain text of 80 columns: to print from any terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from rich.cells import cell_len

from assistant.report.document import Alert, Bars, Bullets, Facts, Table, Text, Ticks
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.report.document import Block, Document, Section, Tick

WIDTH = 80
_BOXES = {True: "[x]", False: "[!]", None: "[ ]"}


def plain(document: Document) -> str:
    """Return a document as plain text, without a final line feed."""
    parts = [_headed(document.title, "="), "\n".join(wrapped(document.about))]
    parts += ["\n".join(_block(block)) for block in document.first]
    parts += [_section(each) for each in document.sections]
    parts += ["\n".join(wrapped(document.foot))] if document.foot else []
    return "\n\n".join(part for part in parts if part)


def wrapped(text: str, first: str = "", hang: str | None = None) -> list[str]:
    """Return a text in lines of at most WIDTH columns, unless a single word is wider."""
    return textwrap.wrap(
        visible(" ".join(text.split("\n"))),
        width=WIDTH,
        initial_indent=first,
        subsequent_indent=" " * cell_len(first) if hang is None else hang,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _headed(title: str, line: str) -> str:
    lines = wrapped(title)
    return "\n".join((*lines, line * min(WIDTH, max(map(cell_len, lines), default=0))))


def _section(section: Section) -> str:
    blocks = ("\n".join(_block(block)) for block in section.blocks)
    return "\n\n".join((_headed(section.title, "-"), *blocks))


def _block(block: Block) -> Iterator[str]:
    lines: Iterator[str]
    match block:
        case Table():
            lines = (line for row in block.rows for line in _row(block, row))
        case Ticks():
            lines = (line for each in (wrapped(block.title), *map(_tick, block.items)) for line in each)
        case Alert():
            lines = _alert(block)
        case Text():
            lines = iter(wrapped(f'"{block.text}"' if block.quote else block.text))
        case _:
            lines = (line for first, text in _labelled(block) for line in wrapped(text, first, "  "))
    yield from lines


def _labelled(block: Facts | Bars | Bullets) -> Iterator[tuple[str, str]]:
    """Yield what stands before each text of a block of one-line things, and the text."""
    match block:
        case Facts():
            yield from ((f"{visible(label)}: ", text) for label, text in block.rows)
        case Bars():
            yield from ((f"{text:>9}  ", label) for label, _, text in block.rows)
        case Bullets():
            yield from (("- ", item) for item in block.items)


def _row(table: Table, row: tuple[str, ...]) -> Iterator[str]:
    """Yield a row of a table as a line of its first cell with the others under it."""
    yield from wrapped(row[0], "- ")
    for name, cell in zip(table.head[1:], row[1:], strict=True):
        yield from wrapped(f"{name}: {cell}", "    ", "      ")


def _tick(tick: Tick) -> Iterator[str]:
    label = f"{tick.label} " if tick.label else ""
    note = f" ({tick.note})" if tick.note else ""
    yield from wrapped(f"{tick.text}{note}", f"{_BOXES[tick.done]} {label}")
    for line in tick.lines:
        yield from wrapped(line, "      ")


def _alert(alert: Alert) -> Iterator[str]:
    mark = {"stop": "STOP: ", "caution": "CAUTION: ", "good": "", "plain": ""}[alert.tone]
    yield from wrapped(f"{mark}{alert.title}", "! ")
    for label, text in alert.rows:
        yield from wrapped(text, f"!   {label}: " if label else "!   ", "!     ")
