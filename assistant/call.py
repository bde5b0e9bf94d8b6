"""A new call: the machine it is about, from the address book, and what happened there before.

Without `--site` no address book is read and no record looked at, so that a bare start stays quick.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.history import Repetition, about, headings, past_sessions
from assistant.place import Place, anywhere, find_place, setup_at
from assistant.sessions import records_folder
from graph.errors import PackMissing

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.conversation import Conversation, Setup
    from assistant.world import World


@dataclass(frozen=True, slots=True)
class Call:
    """What a session begins with."""

    conversation: Conversation[object]
    place: Place
    repetition: Repetition


def call_from(
    world: World, setup: Setup, site: str, unit: str, sites: Path | None, records: Path | None
) -> Call:
    """Return the call from a site; what the address book does not know is remarked upon.

    Raises WrongUse for a wrong address book, and whatever loading the conversation raises.
    """
    book = _book(world, sites) if site.strip() else None
    place = _place(book, site, unit, setup.profile)
    for remark in place.remarks:
        world.remark(f"barrelside: {remark}")
    setup = setup_at(place, setup)
    conversation = _loaded(world, setup, book)
    again = _repetition(world, conversation, place, records)
    if again.factors:
        conversation = world.load(replace(setup, factors=again.factors))
    return Call(conversation, place, again)


def _book(world: World, sites: Path | None) -> Path | None:
    from assistant.sites import book_path  # noqa: PLC0415 -- brings in pydantic and YAML

    return book_path(sites, world.environ)


def _place(book: Path | None, site: str, unit: str, profile: str) -> Place:
    if book is None:
        return anywhere(site, unit)
    from assistant.sites import read_book  # noqa: PLC0415 -- as above

    return find_place(read_book(book), site, unit, profile=profile)


def _loaded(world: World, setup: Setup, book: Path | None) -> Conversation[object]:
    """Return the conversation; where the book names what the pack does not have, say where in the book."""
    try:
        return world.load(setup)
    except PackMissing:
        if book is not None:
            _blame(book, setup.pack)
        raise


def _blame(book: Path, pack: str) -> None:
    """Raise BookInvalid if the address book does not agree with the pack."""
    from assistant.pack_files import pack_knowledge  # noqa: PLC0415 -- only where something is wrong
    from assistant.sites import BookInvalid, disagreements  # noqa: PLC0415 -- likewise

    problems = disagreements(book, pack_knowledge(pack))
    if problems:
        raise BookInvalid(problems)


def _repetition(
    world: World, conversation: Conversation[object], place: Place, records: Path | None
) -> Repetition:
    if not place.site.strip():
        return Repetition()
    earlier = about(headings(records_folder(records)), place.sites, place.units)
    past = tuple(past_sessions(earlier, world.clock())) if earlier else ()
    return conversation.repetition(past) if past else Repetition()
