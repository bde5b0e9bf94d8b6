"""`barrelside schema`: JSON Schemas of what others read and write."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from assistant.world import World


@click.command("schema")
@click.argument("what", type=click.Choice(["lines", "pack", "report"]))
@options.pass_world
def command(world: World, *, what: str) -> None:
    """Print the JSON Schema of the line protocol, of the files of a pack, or of a report."""
    world.print(json.dumps(_schema(what), indent=2, ensure_ascii=False))


def _schema(what: str) -> object:
    if what == "pack":
        from graph.schema import pack_schema  # noqa: PLC0415 -- brings in pydantic and YAML

        return pack_schema()
    if what == "report":
        from assistant.report.schema import report_schema  # noqa: PLC0415 -- likewise

        return report_schema()
    from assistant.lines_schema import LINES_SCHEMA  # noqa: PLC0415 -- --help needs none of this

    return dict(LINES_SCHEMA)
