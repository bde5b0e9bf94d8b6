"""`barrelside sheet`: the work sheet of a repair, to print."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options
from assistant.commands import _option

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World

FORMATS = ("text", "markdown", "html")


@click.command("sheet")
@click.argument("what", metavar="SESSION|REMEDY")
@click.option("--profile", default="", metavar="NAME", help="Which machine of the pack, for a remedy.")
@click.option(
    "--role",
    default="",
    metavar="ROLE",
    help="Who is to do the work; else whoever the session says, or a technician.",
)
@click.option("--trained", is_flag=True, help="Whoever does it is trained to change cylinders and the like.")
@click.option(
    "--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="In what form."
)
@_option.out
@options.pack
@options.records
@options.pass_world
def command(
    world: World,
    *,
    what: str,
    profile: str,
    role: str,
    trained: bool,
    form: str,
    out: Path | None,
    pack: str,
    records: Path | None,
) -> None:
    """Print the work sheet of what SESSION decided, or of a REMEDY by its id, ref or title.

    Cautions, gates and steps to tick, limits of readings, parts, tools, verification. Nothing is printed
    for a role that may not do the work.
    """
    from assistant.report.asked_sheet import asked_sheet  # noqa: PLC0415 -- --help needs none of this
    from assistant.report.output import put  # noqa: PLC0415 -- likewise
    from assistant.report.render import rendered  # noqa: PLC0415 -- likewise

    document, remarks = asked_sheet(what, role, trained=trained, pack=pack, profile=profile, records=records)
    for remark in remarks:
        world.remark(remark)
    put(world, rendered(document, form), out)
