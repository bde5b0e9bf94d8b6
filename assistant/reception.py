"""Who takes a call that was begun without its site: the address book beside the conversation.

The rule: what the book says of a machine is written into the record, never looked up again. So a session
that turns out to be about another machine than it was begun with is told again about that one: in its own
record while only who and where was asked, else in a new record that names the old one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from assistant import sites_wording as words
from assistant.call import call_at
from assistant.engine.events import Began, Said
from assistant.errors import WrongUse
from assistant.library import DEFAULT_PROFILE
from assistant.live import UNKNOWN
from assistant.place import Place, anywhere, place_of
from assistant.reply import said
from assistant.retelling import retold
from graph.errors import GraphError

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.call import Call
    from assistant.conversation import Conversation, Setup
    from assistant.engine.effects import Ask
    from assistant.engine.events import Event
    from assistant.engine.placing import Wanted
    from assistant.facts import Fact
    from assistant.session import Desk, Session
    from assistant.sites import Book
    from assistant.start import Started
    from assistant.world import World

AT = (("intake", "site"), ("intake", "place"))  # the questions at which a place is named
MOST_STRANGE = 3  # words beside a site's name that may be what a machine there is called


@dataclass(frozen=True)
class Reception:
    """What it takes to look a place up: the book, the records, and what was given by hand."""

    world: World
    setup: Setup  # by hand
    sites: Path | None
    records: Path | None
    place: Place | None = None  # of the machine that the session is about by now
    profile: str = ""  # the machine of the pack that it is by its number of barrels

    @cached_property
    def path(self) -> Path | None:
        """Return the address book's file, None where there is none that can be used; say why."""
        from assistant.sites import book_path, read_book  # noqa: PLC0415 -- brings in pydantic and YAML

        try:
            path = book_path(self.sites, self.world.environ)
            return path if path is not None and read_book(path) else None
        except WrongUse as error:
            self.world.remark(f"barrelside: {words.book_left_out(str(error))}")
            return None

    @cached_property
    def book(self) -> Book | None:
        """Return the address book, None where there is none that can be used."""
        from assistant.sites import read_book  # noqa: PLC0415 -- as above

        return read_book(self.path) if self.path is not None else None

    def heard(self, event: Event, ask: Ask | None, conversation: Conversation[object]) -> Event:
        """Return a line with the places of the book that it names, where the site or machine is asked for.

        The rest of the line is then heard without those words, which are no part of a story.
        """
        from assistant.spotting import spotted, without  # noqa: PLC0415 -- brings in rapidfuzz

        if not isinstance(event, Said) or ask is None or (ask.about, ask.id) not in AT or self.book is None:
            return event
        offered = [option.id for option in ask.options]
        places = spotted(self.book, event.text, offered)
        if not places:
            return event
        left = without(event.text, places)
        rest = said(left, ask, conversation) if left else Said("")
        if not rest.facts and 0 < len(left.split()) <= MOST_STRANGE and ask.id == "site":
            places = tuple(_doubted(place) for place in places)
        return Said(event.text, (*places, *rest.facts), rest.rest if rest.facts else "")

    def settled(self, desk: Desk[object], session: Session[object]) -> tuple[Desk[object], Session[object]]:
        """Return the session told again about the machine that it is said to be about, else as it is."""
        wanted = desk.conversation.wanted(session.state)
        if wanted is None:
            return desk, session
        try:
            return self._moved(desk, session, wanted)
        except (WrongUse, GraphError) as error:
            self.world.remark(f"barrelside: {words.machine_left_out(str(error))}")
            return replace(desk, front=None), session

    def _moved(
        self, desk: Desk[object], session: Session[object], wanted: Wanted
    ) -> tuple[Desk[object], Session[object]]:
        place = self._place(wanted) or self.place
        booked = (
            wanted.place and place is not None and place.machine is not None
        )  # the book goes before a number
        profile = "" if booked else wanted.profile or self.profile
        setup = self.setup
        if profile:
            setup = replace(setup, profile=profile, flavours=setup.flavours or UNKNOWN)
        call = call_at(self.world, setup, place or anywhere("", ""), self.path, self.records)
        front = replace(self, place=place, profile=profile)
        found = _found(call) if wanted.place else None
        again = retold(
            self.world, replace(desk, front=front), session, call.conversation, found, sized=bool(profile)
        )
        return again.desk, again.session

    def _place(self, wanted: Wanted) -> Place | None:
        return place_of(self.book, wanted.place) if wanted.place and self.book is not None else None


def attended(
    world: World,
    started: Started,
    setup: Setup,
    place: Place | None = None,
    sites: Path | None = None,
    records: Path | None = None,
) -> Started:
    """Return a session with somebody at its desk who looks places up; `setup` is what was given by hand."""
    folder = records if records is not None else started.path.parent
    front = Reception(world, setup, sites, folder, place)
    return replace(started, desk=replace(started.desk, front=front))


def attended_again(world: World, started: Started, setup: Setup) -> Started:
    """Return a resumed session with somebody at its desk; `setup` is the machine of its record.

    Of a machine that nobody has named, no more is known than its number of barrels, where that was told.
    A session that was cut off before it was told again about its machine is told again now.
    """
    if setup.flavours != UNKNOWN:
        return attended(world, started, setup)
    told = setup.profile if setup.profile != DEFAULT_PROFILE else ""
    front = Reception(world, replace(setup, profile="", flavours=()), None, started.path.parent, profile=told)
    desk, session = front.settled(replace(started.desk, front=front), started.session)
    return replace(started, desk=desk, session=session)


def _found(call: Call) -> Began:
    """Return what is known of a machine once it has been named."""
    again, place = call.repetition, call.place
    return Began(place.site, place.unit, repeats=again.said, known=again.known, serviced=call.serviced)


def _doubted(place: Fact) -> Fact:
    """Return a place that may be another machine than the one in the book."""
    return replace(place, certain=False)
