"""A new call: the machine it is about, from the address book, and what happened there before.

Without `--site` no address book is read and no record looked at, so that a bare start stays quick; the
place is then found when the person names it (`reception`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import sites_wording as words
from assistant.history import Past, Repetition, about, headings, past_sessions
from assistant.place import Place, anywhere, find_place, setup_at
from assistant.sessions import records_folder
from assistant.upkeep import INSTALLED, booked
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
    serviced: tuple[tuple[str, float], ...] = ()  # piece of service -> days since it was done


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
    return call_at(world, setup, place, book, records)


def call_at(world: World, setup: Setup, place: Place, book: Path | None, records: Path | None) -> Call:
    """Return the call from a place; raises what loading the conversation raises."""
    setup = setup_at(place, setup)
    conversation = _loaded(world, setup, book)
    past = _past(world, place, records)
    again = conversation.repetition(past) if past else Repetition()
    ages = _ages(world, place)
    kept = conversation.upkeep(ages, past)
    strange = ages.keys() - {INSTALLED, *(name for name, _ in kept.serviced)}
    if strange:
        world.remark(f"barrelside: {words.no_service(sorted(strange))}")
    said = {pair[0] for pair in setup.switches}
    aged = tuple(pair for pair in kept.switches if pair[0] not in said)
    if again.factors or aged:
        changed = replace(setup, factors=again.factors, switches=(*aged, *setup.switches))
        conversation = world.load(changed)
    return Call(conversation, place, again, kept.serviced)


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


def _past(world: World, place: Place, records: Path | None) -> tuple[Past, ...]:
    """Return the earlier sessions about the machine; none where no site is named."""
    if not place.site.strip():
        return ()
    earlier = about(headings(records_folder(records)), place.sites, place.units)
    return tuple(past_sessions(earlier, world.clock())) if earlier else ()


def _ages(world: World, place: Place) -> dict[str, float]:
    """Return how many days ago each date that the book gives of the machine was."""
    return booked(place.machine, world.clock().date()) if place.machine is not None else {}
