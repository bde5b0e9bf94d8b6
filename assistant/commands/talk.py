"""`barrelside talk`: begin a session."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("talk")
@click.option(
    "--role", default="", metavar="ROLE", help="Who you are: operator, helpdesk, technician, refrigeration."
)
@click.option("--site", default="", metavar="NAME", help="Where the machine stands.")
@click.option("--unit", default="", metavar="NAME", help="Which machine there.")
@click.option("--person", default="", metavar="NAME", help="Your name, for the record.")
@click.option("--others", default="", metavar="WHO", help="Who else is there.")
@click.option("--trained", is_flag=True, help="You are trained to change cylinders and the like.")
@options.sites
@options.machine
@options.records
@options.answers
@options.lines
@options.pass_world
def command(  # noqa: PLR0913 -- one parameter an option
    world: World,
    *,
    role: str,
    site: str,
    unit: str,
    person: str,
    others: str,
    trained: bool,
    sites: Path | None,
    pack: str,
    profile: str,
    flavours: tuple[str, ...],
    switches: tuple[str, ...],
    by: str,
    records: Path | None,
    answers: Path | None,
    lines: bool,
) -> None:
    """Begin a session; what is not said here is asked.

    A site of the address book says which machine stands there, given here or told when it is asked for;
    whatever is given by hand goes before it.

    Answer by number, by word or in your own words; /help lists the slash words. Ctrl-D or Ctrl-C
    leaves: the session is kept.
    """
    from assistant.call import call_from  # noqa: PLC0415 -- --help needs none of this
    from assistant.engine.events import Began  # noqa: PLC0415 -- likewise
    from assistant.hold import check_ways, hold  # noqa: PLC0415 -- likewise
    from assistant.reception import attended  # noqa: PLC0415 -- likewise
    from assistant.start import begin  # noqa: PLC0415 -- likewise

    check_ways(lines=lines, script=answers)
    setup = options.setup_of(pack, profile, flavours, switches, by)
    call = call_from(world, setup, site, unit, sites, records)
    who = options.known_role(call.conversation, role)
    again, place = call.repetition, call.place
    began = Began(
        place.site, place.unit, person, who, others, trained, again.said, again.known, call.serviced
    )
    started = begin(world, call.conversation, records, began)
    at = place if place.site.strip() else None
    hold(world, attended(world, started, setup, at, sites, records), lines=lines, script=answers)
