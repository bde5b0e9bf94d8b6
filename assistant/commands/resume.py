"""`barrelside resume`: go on with a session."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("resume")
@click.argument("session", default="")
@click.option("--role", default="", metavar="ROLE", help="Take over as somebody else.")
@options.pack
@options.records
@options.answers
@options.lines
@options.pass_world
def command(
    world: World,
    *,
    session: str,
    role: str,
    pack: str,
    records: Path | None,
    answers: Path | None,
    lines: bool,
) -> None:
    """Go on with SESSION, a file or the beginning of a record's name; without one, the newest that can.

    A session that was stopped is taken up again. One that ended otherwise can be handed over with --role.
    """
    from assistant.hold import check_ways, hold  # noqa: PLC0415 -- --help needs none of this
    from assistant.reception import attended_again  # noqa: PLC0415 -- likewise
    from assistant.start import go_on, open_record, setup_for, taken_up  # noqa: PLC0415 -- likewise

    check_ways(lines=lines, script=answers)
    record = open_record(session, records, role=role)
    setup = setup_for(record.header, pack)
    conversation = world.load(setup)
    role = options.known_role(conversation, role)
    started = attended_again(world, go_on(world, conversation, record), setup)
    hold(world, taken_up(started, role), lines=lines, script=answers)
