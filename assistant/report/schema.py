"""The JSON form of a report, and its JSON Schema (draft 2020-12), both read off the model."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from assistant.report.model import Report
from assistant.visible import STEERING

Schema = dict[str, Any]
FORMAT = 1
_DRAFT = "https://json-schema.org/draft/2020-12/schema"


def report_json(report: Report) -> str:
    """Return a report as JSON; what would steer a terminal is escaped."""
    plain = {"kind": "report", "format": FORMAT, **asdict(report)}
    text = json.dumps(plain, indent=2, ensure_ascii=False, allow_nan=False)
    return STEERING.sub(lambda found: found[0] if found[0] == "\n" else f"\\u{ord(found[0]):04x}", text)


def report_schema() -> Schema:
    """Return the JSON Schema of `report_json`."""
    from pydantic import TypeAdapter  # noqa: PLC0415 -- a report itself needs no models

    made: Schema = TypeAdapter(Report).json_schema(mode="serialization")
    head: Schema = {"kind": {"const": "report"}, "format": {"const": FORMAT}}
    made["properties"] = head | made["properties"]
    made["required"] = [*head, *made["required"]]
    for part in (made, *made["$defs"].values()):
        part["additionalProperties"] = False
    return {"$schema": _DRAFT, **made, "title": "barrelside report of one session"}
