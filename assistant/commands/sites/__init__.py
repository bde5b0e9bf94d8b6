"""`barrelside sites`: the address book, listed or checked."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options
from assistant.lazy_group import LazyGroup

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.history import Heading
    from assistant.sites import Site
    from assistant.world import World

LAST = 3  # sessions listed for each machine


@click.group("sites", cls=LazyGroup, home=__name__, invoke_without_command=True)
@options.sites
@options.records
@options.pass_world
@click.pass_context
def command(ctx: click.Context, world: World, *, sites: Path | None, records: Path | None) -> None:
    """List the sites of the address book, with their machines and how the last sessions there ended."""
    if ctx.invoked_subcommand is not None:
        return
    from assistant import sites_wording as words  # noqa: PLC0415 -- --help needs none of this
    from assistant.history import headings  # noqa: PLC0415 -- likewise
    from assistant.sessions import records_folder  # noqa: PLC0415 -- likewise
    from assistant.sites import book_path, own_path, read_book  # noqa: PLC0415 -- likewise

    path = book_path(sites, world.environ)
    if path is None:
        world.print(words.no_book(str(own_path())))
        return
    known = headings(records_folder(records))
    for key, site in read_book(path).sites.items():
        world.print(words.site_head(key, site))
        for line in _machines(world, key, site, known):
            world.print(line)


def _machines(world: World, key: str, site: Site, known: tuple[Heading, ...]) -> list[str]:
    """Return the lines about the machines of a site."""
    from assistant import sites_wording as words  # noqa: PLC0415 -- as above
    from assistant.history import about, past_sessions  # noqa: PLC0415 -- likewise
    from assistant.place import of_machine  # noqa: PLC0415 -- likewise

    lines: list[str] = []
    for unit, machine in site.machines.items():
        place = of_machine(key, site, unit)
        earlier = about(known, place.sites, place.units)[:LAST]
        past = [words.past_line(each) for each in past_sessions(earlier, world.clock())]
        lines += [words.machine_line(unit, machine), *(past or [words.no_past()])]
    return lines
