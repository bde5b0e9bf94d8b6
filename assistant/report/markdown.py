"""A document as Markdown: tables with bars, task lists, every text escaped."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.report.document import Alert, Bars, Bullets, Facts, Table, Text, Ticks
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.report.document import Block, Document, Section, Tick

_SPECIAL = re.compile(r"([\\`*\[\]<>|~&]|(?<![^\W_])_|_(?![^\W_]))")
_BEGINS = re.compile(r"^(\d{1,9})([.)])(?=\s|$)|^([-+=#])")  # would begin a list or a heading
_BOXES = {True: "[x]", False: "[ ]", None: "[ ]"}


def markdown(document: Document) -> str:
    """Return a document as Markdown, without a final line feed."""
    parts = [f"# {escaped(document.title)}", escaped(document.about)]
    parts += [_block(block) for block in document.first]
    parts += [_section(each) for each in document.sections]
    parts += [f"---\n\n{escaped(document.foot)}"] if document.foot else []
    return "\n\n".join(part for part in parts if part)


def escaped(text: str) -> str:
    """Return a text on one line, with nothing in it that Markdown or HTML would take as marks."""
    return _SPECIAL.sub(r"\\\1", visible(" ".join(text.split("\n"))))


def _begun(text: str) -> str:
    """Return an escaped text that stands first on its line."""
    return _BEGINS.sub(
        lambda found: f"{found[1]}\\{found[2]}" if found[1] else f"\\{found[3]}", escaped(text)
    )


def _section(section: Section) -> str:
    return "\n\n".join((f"## {escaped(section.title)}", *map(_block, section.blocks)))


def _block(block: Block) -> str:
    return "\n".join(_lines(block))


def _lines(block: Block) -> Iterator[str]:
    match block:
        case Facts():
            yield from (f"- **{escaped(label)}:** {escaped(text)}" for label, text in block.rows)
        case Table():
            yield from _table(block)
        case Ticks():
            yield from _ticks(block)
        case Alert():
            yield from _alert(block)
        case Bars():
            yield from (f"- {_begun(text)}: {escaped(label)}" for label, _, text in block.rows)
        case Text():
            yield f"> {_begun(block.text)}" if block.quote else _begun(block.text)
        case Bullets():
            yield from (f"- {_begun(item)}" for item in block.items)


def _ticks(ticks: Ticks) -> Iterator[str]:
    if ticks.title:
        yield from (f"**{escaped(ticks.title)}**", "")
    for tick in ticks.items:
        yield from _tick(tick)


def _table(table: Table) -> Iterator[str]:
    yield _row(table.head)
    yield _row(
        tuple("---:" if column in table.right else "---" for column in range(len(table.head))), raw=True
    )
    for row in table.rows:
        yield _row(row)


def _row(cells: tuple[str, ...], *, raw: bool = False) -> str:
    return f"| {' | '.join(cell if raw else escaped(cell) for cell in cells)} |"


def _tick(tick: Tick) -> Iterator[str]:
    label = f"{escaped(tick.label)} " if tick.label else ""
    note = f" ({escaped(tick.note)})" if tick.note else ""
    yield f"- {_BOXES[tick.done]} {label}{escaped(tick.text)}{note}"
    yield from (f"  - {_begun(line)}" for line in tick.lines)


def _alert(alert: Alert) -> Iterator[str]:
    mark = {"stop": "STOP: ", "caution": "", "good": "", "plain": ""}[alert.tone]
    yield f"> **{mark}{escaped(alert.title)}**"
    for label, text in alert.rows:
        yield f"> {f'**{escaped(label)}:** ' if label else ''}{escaped(text)}  "
