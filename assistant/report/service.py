"""The regular service of the machine as it stands at the end of a session, in days of the calendar.

Dates come from the address book through the record; what this session did itself counts from its end.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from assistant.report.model import ServiceRow
from assistant.report.times import minutes_between, moment
from graph.service import done_by, standings

if TYPE_CHECKING:
    from datetime import date

    from assistant.report.model import Work
    from assistant.report.told import Told
    from graph.service import Standing

_DONE = ("helped", "for_now", "did_not_help")  # results of work that was gone through to its end
_MINUTES_A_DAY = 1440.0


def service_of(told: Told, done: tuple[Work, ...]) -> tuple[ServiceRow, ...]:
    """Return the dated service, the longest overdue first, then what falls due next."""
    entries = told.record.folded
    today = moment(entries[-1].at) if entries else None
    if today is None:
        return ()
    machine = told.case.machine
    bases = {remedy.id: remedy.base for remedy in machine.remedies}
    here = done_by(machine.services, (bases.get(work.remedy, "") for work in done if work.result in _DONE))
    since = minutes_between(entries[0].at, entries[-1].at) // _MINUTES_A_DAY
    ages = {name: days + since for name, days in told.end.serviced} | dict.fromkeys(here, 0.0)
    known = standings(machine.services, ages)
    return tuple(_row(each, today.date(), here=each.item.id in here) for each in known)


def _row(standing: Standing, today: date, *, here: bool) -> ServiceRow:
    item = standing.item
    last = today - timedelta(days=standing.age)
    over = standing.over > 0
    return ServiceRow(
        id=item.id,
        title=item.title,
        last=last.isoformat(),
        due=(last + timedelta(days=item.days if over else item.from_days)).isoformat(),
        state="overdue" if over else "due" if standing.left <= 0 else "ahead",
        here=here,
    )
