"""Read YAML text into plain values, and remember on which line each of them stands.

Rules of the file. Only `null`, `true`, `false` and plainly spelled numbers mean something else than
themselves; every other scalar, and every key, is the text that the author wrote. So `no`, `off`,
`012`, `12:30` and `2024-01-01` stay text (YAML 1.1 would make them False, False, 10, 750 and a date).
A key written twice, an anchor, an alias and a tag are refused, never guessed at. Sequences become
tuples. Nothing in the text can build an object or run code: only parser events are read.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import yaml

from graph.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

Value = str | int | float | bool | None | tuple["Value", ...] | dict[str, "Value"]
Trail = tuple[str | int, ...]  # keys and positions, from the top of a file inwards
Loader = type[yaml.SafeLoader] | type[yaml.CSafeLoader]

# The C parser is some five times faster; an installation without it reads the same packs, slower.
LOADER: Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
DEEPEST = 24  # levels; a pack needs 8, and a bomb of brackets would exhaust Python's stack
WHOLE = "whole file"

_WORDS: dict[str, Value] = {"": None, "~": None, "null": None, "true": True, "false": False}
_INTEGER = re.compile(r"[-+]?(0|[1-9][0-9]{0,14})", re.ASCII)  # 15 digits are exact in a double as well
_DECIMAL = re.compile(r"(?=.*[.eE])[-+]?((0|[1-9][0-9]*)(\.[0-9]*)?|\.[0-9]+)([eE][-+]?[0-9]+)?", re.ASCII)
_UNREADABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True, slots=True)
class Document:
    """One file, read: its value, the line of every key and entry, and what is wrong with it as YAML."""

    file: str
    value: Value
    lines: Mapping[Trail, int]
    problems: tuple[Problem, ...]
    complete: bool  # whether the text could be read to its end

    def line(self, trail: Trail) -> int:
        """Return the line of `trail`, or of the nearest thing around it that the file has."""
        while trail and trail not in self.lines:
            trail = trail[:-1]
        return self.lines.get(trail, 1)


def read(file: str, text: str, loader: Loader = LOADER) -> Document:
    """Return the document in `text`; what is wrong with it stands in the result, nothing is raised.

    `file` names it in messages. Lines count from 1.
    """
    text = normalise(text)
    odd = _UNREADABLE.search(text)
    if odd is not None:
        return Document(file, None, {}, (_unreadable(file, text, odd.start()),), complete=False)
    reader = _Reader(file)
    try:
        value = reader.document(loader(text))
    except (yaml.YAMLError, ValueError, OverflowError) as error:  # the last two: odd escapes, Python parser
        problem = _syntax_problem(file, error)
        return Document(file, None, reader.lines, (*reader.problems, problem), complete=False)
    return Document(file, value, reader.lines, tuple(reader.problems), complete=True)


def normalise(text: str) -> str:
    r"""Return `text` without a byte order mark and with every line ended by "\n"."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def dotted(trail: Trail) -> str:
    """Return `trail` as people read it: `checks.supply_reading.steps[2].do`."""
    words = "".join(f"[{part}]" if isinstance(part, int) else f".{visible(part)}" for part in trail)
    return words.removeprefix(".") or WHOLE


def visible(text: str) -> str:
    """Return `text` with control characters and other unprintable ones written as escapes."""
    if text.isprintable():
        return text
    return "".join(char if char.isprintable() else ascii(char)[1:-1] for char in text)


class _Reader:
    """Turns the events of one text into a value; collects lines and problems on the way."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.lines: dict[Trail, int] = {}
        self.problems: list[Problem] = []
        self._events: Iterator[yaml.Event] = iter(())

    def document(self, loader: yaml.SafeLoader | yaml.CSafeLoader) -> Value:
        self._events = iter(loader.get_event, None)
        next(self._events)  # the start of the stream
        if isinstance(next(self._events), yaml.StreamEndEvent):
            return None
        value = self._value(next(self._events), ())
        next(self._events)  # the end of the document
        after = next(self._events)
        if not isinstance(after, yaml.StreamEndEvent):
            what = "a second document starts here; a pack's file holds one."
            self._refuse(after, (), what, 'Delete the "---" line or make two files.')
        return value

    def _value(self, event: yaml.Event, trail: Trail) -> Value:
        if getattr(event, "anchor", None) is not None or getattr(event, "tag", None) is not None:
            self._refuse_properties(event, trail)
            return None
        if type(event) is yaml.ScalarEvent:
            return _scalar(event.value) if event.implicit[0] else str(event.value)
        if len(trail) >= DEEPEST:
            self._skip(event)
            what = f"lies more than {DEEPEST} levels deep."
            self._refuse(event, trail, what, "Check the brackets and the indentation.")
            return None
        return self._sequence(trail) if type(event) is yaml.SequenceStartEvent else self._mapping(trail)

    def _sequence(self, trail: Trail) -> tuple[Value, ...]:
        found: list[Value] = []
        for event in self._events:
            if type(event) is yaml.SequenceEndEvent:
                break
            here = (*trail, len(found))
            self.lines[here] = _line(event)
            found.append(self._value(event, here))
        return tuple(found)

    def _mapping(self, trail: Trail) -> dict[str, Value]:
        found: dict[str, Value] = {}
        for event in self._events:
            if type(event) is yaml.MappingEndEvent:
                break
            name = self._key(event, trail)
            content = next(self._events)
            if name is None:
                self._skip(content)
                continue
            here = (*trail, name)
            self.lines[here] = _line(event)
            found[name] = self._value(content, here)
        return found

    def _key(self, event: yaml.Event, trail: Trail) -> str | None:
        """Return the key that `event` spells, or None if it is refused."""
        if type(event) is not yaml.ScalarEvent or event.anchor is not None or event.tag is not None:
            self._skip(event)
            remedy = 'Put it in quotes if it starts with one of "[ { & * !".'
            self._refuse(event, trail, "a key must be plain text.", remedy)
            return None
        name = str(event.value)
        here = (*trail, name)
        if here in self.lines:
            what = f"is written twice, first on line {self.lines[here]}."
            self._refuse(event, here, what, "Keep one of the two.")
            return None
        return name

    def _refuse_properties(self, event: yaml.Event, trail: Trail) -> None:
        self._skip(event)
        what = "anchors (&), aliases (*) and tags (!) are not read here."
        remedy = "Write the value out; put text that starts with one of these in quotes."
        self._refuse(event, trail, what, remedy)

    def _skip(self, event: yaml.Event) -> None:
        """Pass over the rest of the node that `event` starts."""
        depth = 0
        while True:
            depth += isinstance(event, yaml.CollectionStartEvent)
            depth -= isinstance(event, yaml.CollectionEndEvent)
            if depth == 0:
                return
            event = next(self._events)

    def _refuse(self, event: yaml.Event, trail: Trail, what: str, remedy: str) -> None:
        line = _line(event)
        self.problems.append(Problem(self.file, line, dotted(trail), what, remedy))


def _line(event: yaml.Event) -> int:
    mark = event.start_mark
    return 1 if mark is None else mark.line + 1


def _scalar(text: str) -> Value:
    """Return what an unquoted scalar means."""
    if text in _WORDS:
        return _WORDS[text]
    if _INTEGER.fullmatch(text):
        return int(text)
    if _DECIMAL.fullmatch(text):
        number = float(text)
        return number if math.isfinite(number) else text
    return text


def _unreadable(file: str, text: str, at: int) -> Problem:
    line = text.count("\n", 0, at) + 1
    column = at - text.rfind("\n", 0, at)
    code = ord(text[at])
    raw = code - 0xDC00  # `surrogateescape` hands on byte 0x80 as U+DC80, and so up to 0xFF
    if raw in range(0x80, 0x100):
        what, remedy = f"byte 0x{raw:02X} in column {column} is not UTF-8.", "Save the file as UTF-8."
    else:
        what, remedy = f"the character U+{code:04X} in column {column} may not stand in YAML.", "Delete it."
    return Problem(file, line, WHOLE, what, remedy)


_NO_SYNTAX = (  # a part of the parser's own words, what it means, what to do about it
    (
        "mapping values are not allowed",
        'a ": " stands where no key can be.',
        "Put text that holds a colon in quotes, or mend the indentation.",
    ),
    (
        "could not find expected ':'",
        "a line that is neither `key: value` nor part of the text above it.",
        "Add the colon, or mend the indentation.",
    ),
    (
        "cannot start any token",
        "text cannot start with this character, and tabs cannot indent.",
        "Put the text in quotes; indent with spaces.",
    ),
    (
        "alphabetic or numeric character",
        "text cannot start with * or &.",
        "Put the text in quotes.",
    ),
    (
        "found a tab character",
        "tabs cannot indent.",
        "Indent with spaces.",
    ),
    (
        "found unexpected end of stream",
        "a quotation mark is opened here and never closed.",
        "Close it.",
    ),
    (
        "expected ',' or",
        "a bracket is opened here and never closed, or a comma is missing inside.",
        "Close it or add the comma.",
    ),
    (
        "did not find expected '-' indicator",
        "this line is indented like a list above it but is no entry of that list.",
        'Start it with "- ", or mend the indentation.',
    ),
    (
        "expected <block end>",
        "this line does not fit the lines above it.",
        "Mend the indentation; quotes and brackets close at the end of a value.",
    ),
    (
        "did not find expected key",
        "this line does not fit the lines above it.",
        "Mend the indentation; quotes and brackets close at the end of a value.",
    ),
)
_STARTS_EARLIER = (
    "found unexpected end of stream",
    "expected ',' or",
)  # the cause stands at the opening mark


def _syntax_problem(file: str, error: Exception) -> Problem:
    said = str(getattr(error, "problem", None) or error)
    mark = getattr(error, "problem_mark", None)
    if any(part in said for part in _STARTS_EARLIER):
        mark = getattr(error, "context_mark", None) or mark
    line = mark.line + 1 if mark is not None else 1
    for part, what, remedy in _NO_SYNTAX:
        if part in said:
            return Problem(file, line, WHOLE, what, remedy)
    return Problem(file, line, WHOLE, f"this is not YAML ({visible(said)}).", "See the line above it, too.")
