"""`barrelside sessions`: which sessions there are."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("sessions")
@options.records
@options.pass_world
def command(world: World, *, records: Path | None) -> None:
    """List the session records, the newest first, with how each stands."""
    from assistant import shell_wording as words  # noqa: PLC0415 -- --help needs none of this
    from assistant.errors import RecordUnreadable  # noqa: PLC0415 -- likewise
    from assistant.record import read_record  # noqa: PLC0415 -- likewise
    from assistant.sessions import all_records, records_folder  # noqa: PLC0415 -- likewise
    from assistant.start import outcome_of  # noqa: PLC0415 -- likewise

    folder = records_folder(records)
    known = all_records(folder)
    if not known:
        world.print(words.no_sessions(str(folder)))
    for path in known:
        try:
            record = read_record(path)
        except RecordUnreadable as error:
            world.remark(f"barrelside: {error}")
            continue
        world.print(words.session_line(path.stem, len(record.entries), outcome_of(record)))
