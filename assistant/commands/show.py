"""`barrelside show`: a session as readable text."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("show")
@click.argument("session")
@options.records
@options.pass_world
def command(world: World, *, session: str, records: Path | None) -> None:
    """Print SESSION, a file or the beginning of a record's name, as it was held."""
    from assistant.record import read_record  # noqa: PLC0415 -- --help needs none of this
    from assistant.sessions import find, records_folder  # noqa: PLC0415 -- likewise
    from assistant.transcript import transcript  # noqa: PLC0415 -- likewise

    record = read_record(find(session, records_folder(records)))
    for remark in record.remarks:
        world.remark(remark)
    world.print(transcript(record))
