"""What a pack's files may say, as JSON Schema: for editors, and for wording what was expected.

Rule of the file: everything is read off the models in `graph.pack`; nothing about a field stands here.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from pydantic import TypeAdapter

from graph.pack import Chapter, Heard, Id, Pack, Profiles

if TYPE_CHECKING:
    from pydantic import BaseModel

    from graph.yaml_text import Trail

Schema = dict[str, Any]  # a JSON Schema (draft 2020-12)
FILES: dict[str, type[BaseModel]] = {
    "pack.yaml": Pack,
    "profiles.yaml": Profiles,
    "heard.yaml": Heard,
    "*.yaml": Chapter,
}
_ID_PATTERN = TypeAdapter(Id).json_schema()["pattern"]
_ID_WORDS = "an id (small letters, digits and _, starting with a letter; parts joined by dots)"


def pack_schema() -> dict[str, Schema]:
    """Return the JSON Schema of each kind of file; `*.yaml` stands for every chapter."""
    return {name: schema_of(model) for name, model in FILES.items()}


@cache
def schema_of(model: type[BaseModel]) -> Schema:
    """Return the JSON Schema of `model`, in which a name that fits no pattern is refused."""
    schema: Schema = _closed(model.model_json_schema())
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    return schema


def _closed(part: Any) -> Any:  # noqa: ANN401 -- a JSON value
    """Return `part` with every mapping of patterned names closed to other names, as the models are."""
    if isinstance(part, list):
        return [_closed(entry) for entry in part]
    if not isinstance(part, dict):
        return part
    closed = {key: _closed(value) for key, value in part.items()}
    if "patternProperties" in closed:
        closed.setdefault("additionalProperties", False)
    return closed


def inside(root: Schema, trail: Trail) -> Schema:
    """Return the part of `root` that says what may stand at `trail`, `{}` where it says nothing."""
    part = root
    for step in trail:
        part = next(filter(None, (_child(option, step) for option in _options(root, part))), {})
    return part


def field_names(root: Schema, part: Schema) -> tuple[str, ...]:
    """Return the names of the fields that a mapping at `part` may have."""
    return tuple(name for option in _options(root, part) for name in option.get("properties", {}))


def choices(root: Schema, part: Schema) -> tuple[str, ...]:
    """Return the words that may stand at `part`, none where it is not a choice."""
    return tuple(str(word) for option in _options(root, part) for word in option.get("enum", ()))


def names(root: Schema, part: Schema) -> Schema:
    """Return what the names in a mapping at `part` must be."""
    for option in _options(root, part):
        for pattern in option.get("patternProperties", ()):
            return {"type": "string", "pattern": pattern}
        if "propertyNames" in option:
            named: Schema = option["propertyNames"]
            return named
    return {"type": "string"}


def expected(root: Schema, part: Schema) -> str:
    """Return in plain words what `part` asks for: "a number from 0 to 1", "one of any, all"."""
    return " or ".join(_words(root, option) for option in _options(root, part)) or "something else"


def _options(root: Schema, part: Schema) -> tuple[Schema, ...]:
    """Return the alternatives at `part`, with references looked up."""
    if "$ref" in part:
        return (root["$defs"][part["$ref"].rpartition("/")[2]],)
    return tuple(found for option in part.get("anyOf", (part,)) for found in _resolved(root, option))


def _resolved(root: Schema, option: Schema) -> tuple[Schema, ...]:
    return _options(root, option) if "$ref" in option else (option,)


def _child(part: Schema, step: str | int) -> Schema:
    if isinstance(step, int):
        fixed = part.get("prefixItems", ())
        found: Schema = fixed[step] if step < len(fixed) else part.get("items", {})
        return found
    named: Schema = part.get("properties", {}).get(step) or _value_schema(part)
    return named


def _value_schema(part: Schema) -> Schema:
    """Return what stands behind each name of a mapping whose names the author chooses."""
    patterned: Schema = next(iter(part.get("patternProperties", {}).values()), {})
    return patterned or part.get("additionalProperties") or {}


def _words(root: Schema, part: Schema) -> str:
    if "enum" in part:
        return "one of " + ", ".join(str(word) for word in part["enum"])
    kind = part.get("type")
    if kind in {"number", "integer"}:
        return ("a number" if kind == "number" else "a whole number") + _range(part)
    if kind == "string" and "pattern" in part:
        return _ID_WORDS if part["pattern"] == _ID_PATTERN else f"text of the form {part['pattern']}"
    if kind == "array":
        return _list_words(root, part)
    if kind == "object":
        return _mapping_words(root, part)
    return {"string": "text", "boolean": "true or false", "null": "null"}.get(str(kind), "something else")


def _range(part: Schema) -> str:
    low, high, above = part.get("minimum"), part.get("maximum"), part.get("exclusiveMinimum")
    if low is not None and high is not None:
        return f" from {low:g} to {high:g}"
    if above is not None:
        return f" above {above:g}"
    return "" if low is None else f" of {low:g} or more"


def _list_words(root: Schema, part: Schema) -> str:
    fixed = part.get("prefixItems")
    if fixed is not None:
        kinds = ", ".join(expected(root, entry) for entry in fixed)
        return f"a list of exactly {len(fixed)} entries ({kinds})"
    least = f" of {part['minItems']} or more entries" if "minItems" in part else ""
    return f"a list{least}, each {expected(root, part.get('items', {}))}"


def _mapping_words(root: Schema, part: Schema) -> str:
    if "properties" in part:
        most_needed = dict.fromkeys((*part.get("required", ()), *part["properties"]))
        return "a mapping with fields such as " + ", ".join(tuple(most_needed)[:3])
    least = f" of {part['minProperties']} or more entries" if "minProperties" in part else ""
    return f"a mapping{least}, each name followed by {expected(root, _value_schema(part))}"
