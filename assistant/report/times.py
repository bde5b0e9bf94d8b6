"""Times of a record: how they are written for people, and how many minutes were spent.

The rule: time between two events counts, unless it is longer than `GAP` minutes or the session stood
still because it was stopped. Clocks that were set back count for nothing.
"""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from assistant.engine.effects import Ask, Closed
from assistant.report.model import Pause, RoleMinutes, TimeSpent

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.record import Record

GAP = 15.0  # minutes without an event after which nobody is at it


def moment(at: str) -> datetime | None:
    """Return a recorded time, None where it is none or has no zone."""
    try:
        found = datetime.fromisoformat(at)
    except ValueError:
        return None
    return found if found.tzinfo is not None else None


def stamp(at: str) -> str:
    """Return a time in full, with its zone; what is no time stays as it is."""
    found = moment(at)
    return at if found is None else f"{found:%Y-%m-%d %H:%M} {_zone(found)}"


def short(at: str, since: str) -> str:
    """Return a time without its date where that is the day on which `since` lies."""
    found, start = moment(at), moment(since)
    same_day = found is not None and start is not None and found.date() == start.date()
    return stamp(at) if found is None or not same_day else f"{found:%H:%M} {_zone(found)}"


def _zone(at: datetime) -> str:
    return f"{at:%z}"[:3] + ":" + f"{at:%z}"[3:5]


def minutes_between(earlier: str, later: str) -> float:
    """Return the minutes from one time to another, 0 where one of them is unknown or the clock ran back."""
    one, other = moment(earlier), moment(later)
    return 0.0 if one is None or other is None else max(0.0, (other - one).total_seconds() / 60.0)


def spent(record: Record, roles: tuple[str, ...], titles: Mapping[str, str]) -> TimeSpent:
    """Return the minutes of a record; `roles` says who was there at each event that counts."""
    entries = record.folded
    pauses, by_role = list[Pause](), dict[str, float]()
    over = False
    for index, entry in enumerate(entries):
        if index:
            before = entries[index - 1].at
            gap = minutes_between(before, entry.at)
            if (over or gap > GAP) and gap > 0.0:
                pauses.append(Pause(before, entry.at, gap, "stopped" if over else "gap"))
            else:
                by_role[roles[index]] = by_role.get(roles[index], 0.0) + gap
        over = _over(entry.shown, over=over)
    elapsed = minutes_between(entries[0].at, entries[-1].at) if entries else 0.0
    known = tuple(RoleMinutes(role, titles.get(role, role), each) for role, each in by_role.items() if each)
    return TimeSpent(sum(by_role.values()), elapsed, known, tuple(pauses))


def _over(shown: tuple[object, ...], *, over: bool) -> bool:
    marks = [effect for effect in shown if isinstance(effect, Ask | Closed)]
    return isinstance(marks[-1], Closed) if marks else over
