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
    from assistant.sessions import all_records, records_folder  # noqa: PLC0415 -- likewise
    from assistant.start import continued, outcome_of, readable  # noqa: PLC0415 -- likewise

    folder = records_folder(records)
    paths = all_records(folder)
    sound = readable(paths)
    carried = continued(sound)
    if not paths:
        world.print(words.no_sessions(str(folder)))
    for record in sound:
        end = words.CARRIED if record.path.name in carried else outcome_of(record)
        world.print(words.session_line(record.path.stem, len(record.entries), end))
    for path in sorted(set(paths) - {record.path for record in sound}):
        world.remark(words.no_record(path.name))
