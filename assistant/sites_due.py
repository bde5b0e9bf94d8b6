"""Where the service of every machine of the address book stands on a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from functools import cache
from typing import TYPE_CHECKING

from assistant.conversation import Setup
from assistant.history import about, past_sessions
from assistant.live import Live
from assistant.place import of_machine
from assistant.upkeep import booked, upkeep
from graph.service import standings

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date, datetime

    from assistant.history import Heading
    from assistant.sites import Book
    from graph.machine import Service
    from graph.service import Standing


@dataclass(frozen=True, slots=True)
class MachineDue:
    """A machine of a site, its dated service in order, and what has no date; `today` is the day of it."""

    site: str
    machine: str
    today: date
    known: tuple[Standing, ...]
    undated: tuple[Service, ...]

    @property
    def overdue(self) -> tuple[Standing, ...]:
        """Return what is overdue, the longest first."""
        return tuple(each for each in self.known if each.over > 0)

    def falls_due(self, standing: Standing) -> date:
        """Return the day on which a piece of service fell or falls due, for an overdue one its last day."""
        return self.today - timedelta(days=standing.over if standing.over > 0 else -standing.left)


def due(book: Book, known: Iterable[Heading], pack: str, now: datetime) -> tuple[MachineDue, ...]:
    """Return the service of every machine in book order; raise whatever loading a pack's profile raises."""
    headings = tuple(known)
    live = cache(lambda profile: Live.of(Setup(pack, profile)))
    found = []
    for key, site in book.sites.items():
        for unit, booked_machine in site.machines.items():
            place = of_machine(key, site, unit)
            past = past_sessions(about(headings, place.sites, place.units), now)
            machine = live(booked_machine.profile).machine
            ages = dict(upkeep(machine, booked(booked_machine, now.date()), past).serviced)
            undated = tuple(item for item in machine.services if item.id not in ages)
            standing = standings(machine.services, ages)
            found.append(MachineDue(site.name, place.unit, now.date(), standing, undated))
    return tuple(found)
