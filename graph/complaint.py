"""What pydantic found wrong with a file, in plain words and with the line where it stands.

Rule of the file: what was expected is worded from the schema at that place, never from the wording of
pydantic, so that one fault reads the same whichever of its rules noticed it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from graph import schema
from graph.errors import Problem
from graph.yaml_text import Document, Trail, Value, dotted, visible

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pydantic_core import ErrorDetails

SHOWN = 60  # characters of a wrong value that a message repeats
_ABSENT = object()


class _Spot(NamedTuple):
    """Where one of pydantic's errors lies in the file, and what kind it is."""

    kind: Literal["missing", "extra", "key", "value"]
    trail: Trail


def complaints(document: Document, root: schema.Schema, errors: Iterable[ErrorDetails]) -> Iterator[Problem]:
    """Yield one problem a place, leaving out what follows from another problem.

    A field counts as missing only if no unknown one is meant to be it. What is wrong with a whole follows
    from what is wrong inside: a list loses its bad entries and then is too short; a value that had to be
    one of two forms and fits neither is complained of where it went wrong in the form that it has.
    """
    spots = tuple(dict.fromkeys(_spot(document.value, error) for error in errors))
    meant = {_meant(root, spot.trail) for spot in spots if spot.kind == "extra"}
    around = {spot.trail[:length] for spot in spots for length in range(len(spot.trail))}
    follows = {"missing": meant, "value": around}
    told: set[Trail] = set()
    for spot in spots:
        if spot.trail not in told and spot.trail not in follows.get(spot.kind, ()):
            told.add(spot.trail)
            yield _complaint(document, root, spot)


def _spot(value: Value, error: ErrorDetails) -> _Spot:
    """Return where an error lies: its `loc` without the names that pydantic gives to alternatives."""
    trail: list[str | int] = []
    for part in error["loc"]:
        inner = _child(value, part)
        if inner is not _ABSENT:
            trail.append(part)
            value = inner  # type: ignore[assignment]  # only `_ABSENT` is no Value
    last = error["loc"][-1] if error["loc"] else None
    if error["type"] == "missing" and isinstance(last, str):
        return _Spot("missing", (*trail, last))
    if error["type"] == "extra_forbidden":
        return _Spot("extra", tuple(trail))
    return _Spot("key" if last == "[key]" else "value", tuple(trail))


def _child(value: Value, part: str | int) -> object:
    if isinstance(value, dict) and isinstance(part, str):
        return value.get(part, _ABSENT)
    if isinstance(value, tuple) and isinstance(part, int) and part < len(value):
        return value[part]
    return _ABSENT


def _complaint(document: Document, root: schema.Schema, spot: _Spot) -> Problem:
    part = schema.inside(root, spot.trail)
    remedy = ""
    if spot.kind == "missing":
        what = f"is missing; expected {schema.expected(root, part)}."
    elif spot.kind == "extra":
        what = "there is no such field here."
        remedy = _unknown_field(root, spot.trail)
    elif spot.kind == "key":
        wanted = schema.names(root, schema.inside(root, spot.trail[:-1]))
        what = f"this name must be {schema.expected(root, wanted)}."
        remedy = did_you_mean(str(spot.trail[-1]), schema.choices(root, wanted))
    else:
        value = _at(document.value, spot.trail)
        what = f"expected {schema.expected(root, part)}; found {_found(value)}."
        remedy = _other_value(value, root, part)
    return Problem(document.file, document.line(spot.trail), dotted(spot.trail), what, remedy)


def _at(value: Value, trail: Trail) -> Value:
    for step in trail:
        value = value[step]  # type: ignore[index]  # `trail` was found in this value
    return value


def _meant(root: schema.Schema, trail: Trail) -> Trail:
    """Return the trail of the field that an unknown one at `trail` most likely means."""
    names = schema.field_names(root, schema.inside(root, trail[:-1]))
    return (*trail[:-1], nearest(str(trail[-1]), names) or "")


def _unknown_field(root: schema.Schema, trail: Trail) -> str:
    names = schema.field_names(root, schema.inside(root, trail[:-1]))
    return did_you_mean(str(trail[-1]), names) or f"Fields here: {', '.join(names)}."


def _other_value(value: Value, root: schema.Schema, part: schema.Schema) -> str:
    if isinstance(value, str):
        return did_you_mean(value, schema.choices(root, part))
    wants_text = schema.expected(root, part).startswith("text")
    return "Put it in quotes." if wants_text and isinstance(value, int | float) else ""


def _found(value: Value) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        short = value if len(value) <= SHOWN else value[:SHOWN] + "..."
        return f'the text "{visible(short)}"' if value else "empty text"
    if isinstance(value, tuple):
        return f"a list of {len(value)}"
    return f"a mapping of {len(value)}" if isinstance(value, dict) else f"the number {value}"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the one of `known` that `word` most likely means, None if none is near."""
    from rapidfuzz import fuzz, process  # noqa: PLC0415 -- a sound pack never needs it

    best = process.extractOne(word, tuple(known), scorer=fuzz.ratio, score_cutoff=70)
    return best[0] if best else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return 'Did you mean "...?"' for the nearest of `known`, or nothing."""
    best = nearest(word, known)
    return f'Did you mean "{best}"?' if best else ""
