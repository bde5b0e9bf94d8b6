"""The cause of a session: as it was found, or the likeliest one, and how well it was predicted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine import evidence as engine
from assistant.engine.state import Stage
from assistant.report.model import Cause

if TYPE_CHECKING:
    from assistant.engine.effects import Closed
    from assistant.report.told import Told
    from graph import Case


def title_of(case: Case, fault: str) -> str:
    known = {each.id: each.title for each in case.machine.faults}
    return known.get(fault, fault)


def cause_of(told: Told, closed: Closed | None) -> Cause:
    """Return the cause that the session closed with, else the likeliest one."""
    case, end = told.case, told.end
    now = case.believe(engine.findings(end))
    known = {each.id for each in case.machine.faults}
    told_cause = closed.cause if closed is not None else ""
    cured = closed is not None and closed.outcome in {"cured", "cured_for_now"}
    name = told_cause if told_cause in known else ""
    if not name and not cured and end.answers:
        name = now.causes[0][0]
    if not name:
        return Cause("", "", title_of(case, told_cause), 0.0, confirmed=False, rank=0, predicted=0.0)
    place, predicted = _predicted(told, name)
    fault = case.fault(name)
    confirmed = closed is not None and closed.outcome == "cured" and name == told_cause
    return Cause(name, fault.ref, fault.title, now.cause(name), confirmed, place, predicted)


def _predicted(told: Told, cause: str) -> tuple[int, float]:
    """Return which place a cause had, and its probability, when something was first decided."""
    for moment in told.moments:
        state = moment.after
        offered = state.open is not None and state.open.kind in {"remedy", "trained"}
        if (
            offered
            or state.stage is Stage.CLOSING
            or (state.stage is Stage.CLOSED and state.outcome != "stopped")
        ):
            before = state if offered else moment.before
            order = told.case.believe(engine.findings(before)).causes
            place = next(n for n, (name, _) in enumerate(order, start=1) if name == cause)
            return place, dict(order)[cause]
    return 0, 0.0
