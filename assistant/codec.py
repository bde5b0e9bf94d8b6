"""Events and effects as plain JSON values, and back, exactly: `decode(encode(x)) == x`.

The rule this file keeps: the fields are read off the dataclasses, so a new event or effect needs no
code here. A field that stands at its default is left out; a field that nobody knows is refused.
"""

from __future__ import annotations

import math
from dataclasses import MISSING, fields, is_dataclass
from types import MappingProxyType, NoneType, UnionType
from typing import TYPE_CHECKING, Literal, TypeVar, get_args, get_origin, get_type_hints

from assistant.engine.effects import Ask, Closed, Decide, Effect, Tell, Warn
from assistant.engine.events import Asked, Began, Chose, Event, Measured, Said
from assistant.errors import CodecError
from assistant.facts import Fact

if TYPE_CHECKING:
    from collections.abc import Mapping

    from _typeshed import DataclassInstance

Plain = dict[str, object]
D = TypeVar("D", bound="DataclassInstance")

EVENTS: Mapping[str, type[Event]] = MappingProxyType(
    {kind.__name__: kind for kind in (Began, Said, Chose, Measured, Asked)}
)
EFFECTS: Mapping[str, type[Effect]] = MappingProxyType(
    {kind.__name__: kind for kind in (Ask, Tell, Warn, Decide, Closed)}
)
_HINTS: dict[type, Mapping[str, object]] = {}  # evaluating annotations is slow
_SPECIAL_FLOATS = ("nan", "inf", "-inf")  # JSON has no number for these


def encode(thing: Event | Effect) -> Plain:
    """Return an event or effect as a JSON object whose `type` names it."""
    return {"type": type(thing).__name__, **fields_of(thing)}


def decode_event(data: object) -> Event:
    """Return the event that `encode` wrote; raise CodecError naming the field that is wrong."""
    return _tagged(EVENTS, data, "event")


def decode_effect(data: object) -> Effect:
    """Return the effect that `encode` wrote; raise CodecError naming the field that is wrong."""
    return _tagged(EFFECTS, data, "shown")


def fields_of(thing: object) -> Plain:
    """Return the fields of a frozen dataclass that differ from their defaults, as JSON values."""
    if not is_dataclass(thing):
        raise TypeError(f"{thing!r} is no dataclass")
    known = [(each.name, getattr(thing, each.name), each.default) for each in fields(thing)]
    return {name: _encoded(value) for name, value, default in known if not _same(value, default)}


def decode_as(kind: type[D], data: object, where: str) -> D:
    """Return the dataclass `kind` that `fields_of` wrote; `where` names the place in messages."""
    if not isinstance(data, dict):
        raise CodecError(f"{where}: expected an object, found {_name(data)}.")
    hints = _hints(kind)
    unknown = sorted(set(data) - set(hints))
    if unknown:
        raise CodecError(f'{where}: "{unknown[0]}" is no field of {kind.__name__}.')
    for each in fields(kind):
        if each.name not in data and each.default is MISSING:
            raise CodecError(f'{where}: the field "{each.name}" of {kind.__name__} is missing.')
    return kind(**{name: _decoded(hints[name], value, f"{where}.{name}") for name, value in data.items()})


def _tagged(kinds: Mapping[str, type[D]], data: object, where: str) -> D:
    """Return the value that `type` names, out of `kinds`."""
    if not isinstance(data, dict):
        raise CodecError(f"{where}: expected an object, found {_name(data)}.")
    name = data.get("type")
    kind = kinds.get(name) if isinstance(name, str) else None
    if kind is None:
        raise CodecError(f'{where}.type: expected one of {", ".join(kinds)}, found "{name}".')
    return decode_as(kind, {key: value for key, value in data.items() if key != "type"}, where)


def _hints(kind: type) -> Mapping[str, object]:
    """Return the type of each field; events name `Fact` only while types are checked."""
    if kind not in _HINTS:
        _HINTS[kind] = MappingProxyType(get_type_hints(kind, localns={"Fact": Fact}))
    return _HINTS[kind]


def _same(value: object, default: object) -> bool:
    """Return whether a value may be left out: `0.0` and `-0.0` are equal but not the same."""
    return value == default and str(value) == str(default)


def _encoded(value: object) -> object:
    if isinstance(value, float) and not math.isfinite(value):
        return str(value)
    if isinstance(value, tuple):
        return [_encoded(each) for each in value]
    return fields_of(value) if is_dataclass(value) else value


def _decoded(hint: object, data: object, where: str) -> object:
    """Return a JSON value as the type that the field's annotation asks for."""
    origin = get_origin(hint)
    if origin is UnionType:
        return None if data is None else _decoded(_other_than_none(hint), data, where)
    if origin is Literal:
        return _one_of(get_args(hint), data, where)
    if origin is tuple:
        return _tuple(hint, data, where)
    if isinstance(hint, type) and is_dataclass(hint):
        return decode_as(hint, data, where)
    return _float(data, where) if hint is float else _exactly(hint, data, where)


def _other_than_none(hint: object) -> object:
    return next(each for each in get_args(hint) if each is not NoneType)


def _one_of(choices: tuple[object, ...], data: object, where: str) -> object:
    if data not in choices:
        raise CodecError(f'{where}: "{data}" is none of {", ".join(map(str, choices))}.')
    return data


def _tuple(hint: object, data: object, where: str) -> tuple[object, ...]:
    if not isinstance(data, list):
        raise CodecError(f"{where}: expected a list, found {_name(data)}.")
    inner = get_args(hint)
    kinds = [inner[0]] * len(data) if inner[-1] is Ellipsis else list(inner)
    if len(kinds) != len(data):
        raise CodecError(f"{where}: expected {len(kinds)} values, found {len(data)}.")
    pairs = enumerate(zip(kinds, data, strict=True))
    return tuple(_decoded(kind, each, f"{where}[{index}]") for index, (kind, each) in pairs)


def _float(data: object, where: str) -> float:
    if isinstance(data, str) and data in _SPECIAL_FLOATS:
        return float(data)
    if isinstance(data, bool) or not isinstance(data, int | float):
        raise CodecError(f"{where}: expected a number, found {_name(data)}.")
    try:
        return float(data)
    except OverflowError as error:
        raise CodecError(f"{where}: the number is too large.") from error


def _exactly(hint: object, data: object, where: str) -> object:
    if type(data) is not hint:
        raise CodecError(f"{where}: expected {getattr(hint, '__name__', hint)}, found {_name(data)}.")
    return data


def _name(data: object) -> str:
    """Return what a JSON value is, in the words of JSON."""
    names = {dict: "an object", list: "a list", str: "text", bool: "true or false", NoneType: "null"}
    return names.get(type(data), "a number")
