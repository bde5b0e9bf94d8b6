"""`barrelside replay`: fold a session again and compare what is shown with what was."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("replay")
@click.argument("session")
@options.pack
@options.records
@options.pass_world
def command(world: World, *, session: str, pack: str, records: Path | None) -> int:
    """Replay SESSION, a file or the beginning of a record's name; 1 where something differs."""
    from assistant import shell_wording as words  # noqa: PLC0415 -- --help needs none of this
    from assistant.record import read_record  # noqa: PLC0415 -- likewise
    from assistant.replay import replay  # noqa: PLC0415 -- likewise
    from assistant.sessions import find, records_folder  # noqa: PLC0415 -- likewise
    from assistant.start import setup_for, what_changed  # noqa: PLC0415 -- likewise
    from assistant.version import program_version  # noqa: PLC0415 -- likewise

    record = read_record(find(session, records_folder(records)))
    conversation = world.load(setup_for(record.header, pack))
    again = replay(conversation, record)
    now = conversation.header(program_version(), record.header.started)
    for remark in (
        *record.remarks,
        *(what_changed(record.header, now) if now.digest != record.header.digest else ()),
    ):
        world.remark(remark)
    if not again.differences:
        world.print(words.replayed(record.path.name, again.events))
        return 0
    for difference in again.differences:
        world.print("\n".join(difference.lines()))
    entries = [difference.entry.n for difference in again.differences]
    world.remark(words.replay_differs(record.path.name, entries, again.events))
    return 1
