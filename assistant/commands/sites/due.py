"""`barrelside sites due`: which service is overdue or due on which machine of the address book."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.sites_due import MachineDue
    from assistant.world import World


@click.command("due")
@options.sites
@options.pack
@options.records
@click.option(
    "--within",
    type=click.FloatRange(min=0),
    default=30,
    show_default=True,
    metavar="DAYS",
    help="How far ahead to look.",
)
@click.option("--all", "everything", is_flag=True, help="However far ahead, and what has no date by name.")
@options.pass_world
@click.pass_context
def command(
    ctx: click.Context,
    world: World,
    *,
    sites: Path | None,
    pack: str,
    records: Path | None,
    within: float,
    everything: bool,
) -> None:
    """List the service that is overdue or falls due on each machine, by the dates in the address book.

    Repairs of recorded sessions count where the pack says that they are service.
    """
    from assistant import sites_wording as words  # noqa: PLC0415 -- --help needs none of this
    from assistant.history import headings  # noqa: PLC0415 -- likewise
    from assistant.pack_files import pack_knowledge  # noqa: PLC0415 -- likewise
    from assistant.sessions import records_folder  # noqa: PLC0415 -- likewise
    from assistant.sites import (  # noqa: PLC0415 -- likewise
        BookInvalid,
        book_path,
        disagreements,
        own_path,
        read_book,
    )
    from assistant.sites_due import due  # noqa: PLC0415 -- likewise

    around = ctx.parent.params if ctx.parent is not None else {}
    path = book_path(sites or around.get("sites"), world.environ)
    if path is None:
        world.print(words.no_book(str(own_path())))
        return
    problems = disagreements(path, pack_knowledge(pack))
    if problems:
        raise BookInvalid(problems)
    known = headings(records_folder(records or around.get("records")))
    found: tuple[MachineDue, ...] = due(read_book(path), known, pack, world.clock())
    for each in found:
        world.print(words.due_text(each, within, everything=everything))
    world.print(words.due_counted(found))
