"""`barrelside brief`: a session on one screen, for whoever goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("brief")
@click.argument("session")
@options.pack
@options.records
@options.pass_world
def command(world: World, *, session: str, pack: str, records: Path | None) -> None:
    """Print what whoever takes over SESSION must know, on one screen of 80 columns and 24 lines."""
    from assistant.report.brief import brief  # noqa: PLC0415 -- --help needs none of this
    from assistant.report.gather import gather  # noqa: PLC0415 -- likewise
    from assistant.report.told import tell  # noqa: PLC0415 -- likewise

    told = tell(session, records, pack)
    for remark in told.remarks:
        world.remark(remark)
    world.print(brief(told, gather(told)))
