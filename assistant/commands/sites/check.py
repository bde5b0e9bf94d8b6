"""`barrelside sites check`: what is wrong with the address book."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


@click.command("check")
@options.sites
@options.pack
@options.pass_world
@click.pass_context
def command(ctx: click.Context, world: World, *, sites: Path | None, pack: str) -> int:
    """Say what is wrong with the address book and where, also against the pack; exit 1 if anything is."""
    from assistant import sites_wording as words  # noqa: PLC0415 -- --help needs none of this
    from assistant.pack_files import pack_knowledge  # noqa: PLC0415 -- likewise
    from assistant.sites import (  # noqa: PLC0415 -- likewise
        BookInvalid,
        book_path,
        disagreements,
        own_path,
        read_book,
    )

    around = ctx.parent.params if ctx.parent is not None else {}
    path = book_path(sites or around.get("sites"), world.environ)
    if path is None:
        world.print(words.no_book(str(own_path())))
        return 1
    try:
        book = read_book(path)
        problems = disagreements(path, pack_knowledge(pack))
    except BookInvalid as error:
        problems = error.problems
    if problems:
        world.print(words.problems_text(problems))
        return 1
    machines = sum(len(site.machines) for site in book.sites.values())
    world.print(words.book_is_sound(str(path), len(book.sites), machines))
    return 0
