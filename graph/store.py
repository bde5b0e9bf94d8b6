"""A compiled machine as bytes and back: JSON for the words, numpy arrays for the numbers.

The rule: what comes out is equal to what went in, and nothing on the way back needs pydantic, YAML or
networkx. Never pickled: bytes from a cache folder must not be able to run anything.
"""

from __future__ import annotations

import dataclasses
import io
import json
import tokenize
import types
import typing
import zipfile
from typing import TYPE_CHECKING, Any

import numpy as np

from graph import machine as machine_module
from graph.machine import Machine
from graph.tables import Tables

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

FORMAT = 8
_SCALARS = ("nothing", "unknown", "remedies", "components", "tail_bound")
_PAIR = 2


def dump(machine: Machine, tables: Tables) -> bytes:
    """Return machine and tables as one numpy archive."""
    lists: dict[tuple[str, ...], int] = {}
    told = {"format": FORMAT, "machine": encode(machine, lists), "lists": list(lists)}
    words = json.dumps(told, ensure_ascii=False)
    arrays = {field.name: np.asarray(getattr(tables, field.name)) for field in dataclasses.fields(tables)}
    buffer = io.BytesIO()
    np.savez(buffer, words=np.frombuffer(words.encode(), dtype=np.uint8), **arrays)  # type: ignore[arg-type]
    return buffer.getvalue()


# What numpy and zipfile raise on bytes that are not theirs, or no longer whole.
_BROKEN = (zipfile.BadZipFile, EOFError, RuntimeError, tokenize.TokenError, TypeError, IndexError, OSError)


def load(data: bytes) -> tuple[Machine, Tables]:
    """Return what `dump` was given. Raises ValueError or KeyError where the bytes are not ours."""
    try:
        return _load(data)
    except _BROKEN as problem:
        raise ValueError("The archive is broken.") from problem


def _load(data: bytes) -> tuple[Machine, Tables]:
    with np.load(io.BytesIO(data), allow_pickle=False) as archive:
        words = json.loads(archive["words"].tobytes().decode())
        if words["format"] != FORMAT:
            raise ValueError("The archive has another format.")
        values: dict[str, Any] = {}
        for field in dataclasses.fields(Tables):
            array = archive[field.name]
            array.setflags(write=False)
            values[field.name] = array.item() if field.name in _SCALARS else array
    lists = [tuple(each) for each in words["lists"]]
    return decode(Machine, words["machine"], lists), Tables(**values)


def encode(value: Any, lists: dict[tuple[str, ...], int] | None = None) -> Any:  # noqa: ANN401 - our dataclasses
    """Return a dataclass as lists: field values in field order, so that names cost nothing.

    With `lists` every tuple of texts becomes its number there: instances of a repeated element have
    the same phrases, which are most of a machine.
    """
    if dataclasses.is_dataclass(value):
        return [encode(getattr(value, field.name), lists) for field in dataclasses.fields(value)]
    if isinstance(value, tuple):
        if lists is not None and value and all(isinstance(item, str) for item in value):
            return lists.setdefault(value, len(lists))
        return [encode(item, lists) for item in value]
    if isinstance(value, dict):
        return {key: encode(item, lists) for key, item in value.items()}
    return value


def decode(kind: Any, data: Any, lists: Sequence[tuple[str, ...]] = ()) -> Any:  # noqa: ANN401 - our dataclasses
    """Return the value of type `kind` that `encode` made `data` of."""
    return _Decoder(lists).of(kind)(data)


class _Decoder:
    """Functions from JSON data to values, built once per type."""

    def __init__(self, lists: Sequence[tuple[str, ...]]) -> None:
        self._lists = lists
        self._known: dict[Any, Callable[[Any], Any]] = {}

    def of(self, kind: Any) -> Callable[[Any], Any]:  # noqa: ANN401 - a type
        """Return a function from JSON data to a value of type `kind`."""
        if kind not in self._known:
            self._known[kind] = self._make(kind)
        return self._known[kind]

    def _make(self, kind: Any) -> Callable[[Any], Any]:  # noqa: ANN401 - a type
        if dataclasses.is_dataclass(kind):
            hints = typing.get_type_hints(kind, vars(machine_module))
            parts = [self.of(hints[field.name]) for field in dataclasses.fields(kind)]
            build = typing.cast("Callable[..., Any]", kind)
            return lambda data: build(*[part(item) for part, item in zip(parts, data, strict=True)])
        origin, arguments = typing.get_origin(kind), typing.get_args(kind)
        if origin in (typing.Union, types.UnionType):
            inner = self.of(next(a for a in arguments if a is not type(None)))
            return lambda data: None if data is None else inner(data)
        if origin is tuple:
            return self._tuple(arguments)
        if origin is dict:
            inside = self.of(arguments[1])
            return lambda data: {key: inside(item) for key, item in data.items()}
        return _same

    def _tuple(self, arguments: tuple[Any, ...]) -> Callable[[Any], Any]:
        if len(arguments) == _PAIR and arguments[1] is Ellipsis:
            if arguments[0] is str:
                return lambda data: self._lists[data] if isinstance(data, int) else tuple(data)
            each = self.of(arguments[0])
            return tuple if each is _same else lambda data: tuple(each(item) for item in data)
        parts = [self.of(argument) for argument in arguments]
        return lambda data: tuple(part(item) for part, item in zip(parts, data, strict=True))


def _same(data: Any) -> Any:  # noqa: ANN401 - JSON as it is
    return data
