"""`barrelside report`: what a session leaves behind."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options
from assistant.commands import _option

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.report.model import Report
    from assistant.world import World

FORMATS = ("markdown", "html", "json", "note")


@click.command("report")
@click.argument("session")
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMATS),
    default="markdown",
    show_default=True,
    help="In what form; a note has at most 600 characters, for a ticket.",
)
@_option.out
@options.pack
@options.records
@options.pass_world
def command(
    world: World, *, session: str, form: str, out: Path | None, pack: str, records: Path | None
) -> None:
    """Report on SESSION, a file or the beginning of a record's name: what was said, found and done."""
    from assistant.report.gather import gather  # noqa: PLC0415 -- --help needs none of this
    from assistant.report.output import put  # noqa: PLC0415 -- likewise
    from assistant.report.told import tell  # noqa: PLC0415 -- likewise

    report = gather(tell(session, records, pack))
    for remark in report.remarks:
        world.remark(remark)
    put(world, _formed(report, form), out)


def _formed(report: Report, form: str) -> str:
    from assistant.report.note import note  # noqa: PLC0415 -- as above
    from assistant.report.paper import paper  # noqa: PLC0415 -- likewise
    from assistant.report.render import rendered  # noqa: PLC0415 -- likewise
    from assistant.report.schema import report_json  # noqa: PLC0415 -- likewise

    if form == "json":
        return report_json(report)
    return note(report) if form == "note" else rendered(paper(report), form)
