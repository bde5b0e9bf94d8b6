"""What service is due on a machine, reckoned from how many days ago each piece of it was done.

The rule: only what has a date is reckoned with; a piece of service that nobody dated is neither due nor
overdue, it is not known.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from graph.machine import Ageing, Service

VISIT = "visit"  # what a switch may age from besides pieces of service: the last one done by a trade
OPERATOR = "operator"


@dataclass(frozen=True, slots=True)
class Standing:
    """A piece of service and how many days ago it was done."""

    item: Service
    age: float

    @property
    def over(self) -> float:
        """Return for how many days it has been overdue; negative while there is time left."""
        return self.age - self.item.days

    @property
    def left(self) -> float:
        """Return in how many days it falls due; negative once it is due."""
        return self.item.from_days - self.age


def standings(services: Iterable[Service], ages: Mapping[str, float]) -> tuple[Standing, ...]:
    """Return where the dated service stands: the longest overdue first, then what falls due next.

    `ages` are days since a piece of service was done, by its id; a negative age, from a clock that was
    wrong, counts as today.
    """
    known = [Standing(item, max(0.0, ages[item.id])) for item in services if item.id in ages]
    return tuple(sorted(known, key=lambda each: (each.over <= 0, -each.over if each.over > 0 else each.left)))


def visited(services: Iterable[Service], ages: Mapping[str, float]) -> dict[str, float]:
    """Return how many days ago somebody of a trade was last here for service, as `VISIT`; empty if not known.

    What an operator may do as well tells of no visit.
    """
    trade = (item for item in services if OPERATOR not in item.by)
    known = [max(0.0, ages[item.id]) for item in trade if item.id in ages]
    return {VISIT: min(known)} if known else {}


def done_by(services: Iterable[Service], remedies: Iterable[str]) -> tuple[str, ...]:
    """Return the pieces of service that some repairs, by their base ids, have done."""
    done = set(remedies)
    return tuple(item.id for item in services if not done.isdisjoint(item.remedies))


def aged_switches(ageing: Iterable[Ageing], ages: Mapping[str, float]) -> tuple[tuple[str, str], ...]:
    """Return the switches that follow from ages in days, by what they count from, with their values.

    Of the values whose days are over, the one with the most days holds.
    """
    found = []
    for each in ageing:
        age = ages.get(each.since, -1.0)
        reached = [(days, value) for value, days in each.after if age >= days]
        if reached:
            found.append((each.switch, max(reached)[1]))
    return tuple(found)
