"""The JSON Schema (draft 2020-12) of the line protocol: `$defs/input` and `$defs/output`."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

Schema = dict[str, object]

_TEXT: Schema = {"type": "string"}
_TEXTS: Schema = {"type": "array", "items": _TEXT}
_PROBABILITY: Schema = {"type": "number", "minimum": 0, "maximum": 1}
_AMOUNT: Schema = {"type": ["number", "null"], "minimum": 0}


def _object(properties: Schema, optional: tuple[str, ...] = (), about: str = "") -> Schema:
    """Return a closed object whose properties are required, save the optional ones."""
    required = [name for name in properties if name not in optional]
    described: Schema = {"description": about} if about else {}
    return described | {
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _kind(name: str, properties: Schema, about: str) -> Schema:
    return _object({"kind": {"const": name}} | properties, about=about)


_CAUSES: Schema = {
    "type": "array",
    "items": _object({"id": _TEXT, "ref": _TEXT, "title": _TEXT, "probability": _PROBABILITY}),
}
_OUTCOMES: Schema = {"type": "array", "items": _object({"id": _TEXT, "ref": _TEXT, "label": _TEXT})}

_REQUESTS: tuple[Schema, ...] = (
    {"type": "string", "description": "Free text, as if typed."},
    _object({"text": _TEXT}, about="Free text, as if typed."),
    _object(
        {"outcome": {"type": ["string", "integer"]}},
        about="An outcome of the open question: its id, its ref, or its number from 1.",
    ),
    _object(
        {"reading": {"type": "number"}, "unit": _TEXT, "quantity": _TEXT},
        ("unit", "quantity"),
        "A number; without a quantity, the one that is asked for, without a unit, in the unit asked for.",
    ),
    _object({"word": _TEXT, "argument": _TEXT}, ("argument",), "A slash word without its slash."),
)

_EFFECTS: tuple[Schema, ...] = (
    _kind(
        "ask",
        {
            "about": _TEXT,
            "id": _TEXT,
            "ref": _TEXT,
            "text": _TEXT,
            "outcomes": _OUTCOMES,
            "unit": _TEXT,
            "gain_bits": _AMOUNT,
            "minutes": _AMOUNT,
            "why": _TEXT,
            "place": _TEXT,
            "causes": _CAUSES,
            "bits_left": _AMOUNT,
            "stage": _TEXT,
        },
        "The open question. `unit` is set where a number is welcome; `gain_bits` is the expected "
        "information gain about what to do.",
    ),
    _kind("tell", {"topic": _TEXT, "text": _TEXT, "id": _TEXT, "ref": _TEXT}, "A sentence."),
    _kind(
        "warn",
        {
            "id": _TEXT,
            "ref": _TEXT,
            "title": _TEXT,
            "do": _TEXT,
            "do_not": _TEXT,
            "who": _TEXT,
            "stop": {"type": "boolean"},
            "text": _TEXT,
        },
        "A caution, before the step that needs it; `stop` stops everything else.",
    ),
    _kind(
        "decide",
        {
            "decision": _TEXT,
            "remedy": _TEXT,
            "ref": _TEXT,
            "title": _TEXT,
            "probability": _PROBABILITY,
            "send": _TEXT,
            "parts": _TEXTS,
            "tools": _TEXTS,
            "reasons": _TEXTS,
            "causes": _CAUSES,
            "urgency": _TEXT,
            "meanwhile": _TEXTS,
            "text": _TEXT,
        },
        "What is to be done, by whom, with what.",
    ),
    _kind(
        "closed",
        {"outcome": _TEXT, "cause": _TEXT, "ref": _TEXT, "text": _TEXT, "parts": _TEXTS},
        "The session is over; `parts` were used.",
    ),
    _kind("error", {"text": _TEXT}, "The last line was not understood and changed nothing."),
)

LINES_SCHEMA: Mapping[str, object] = MappingProxyType(
    {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "barrelside line protocol: one JSON value a line in, one JSON object a line out",
        "$defs": {"input": {"oneOf": list(_REQUESTS)}, "output": {"oneOf": list(_EFFECTS)}},
        "anyOf": [{"$ref": "#/$defs/input"}, {"$ref": "#/$defs/output"}],
    }
)
