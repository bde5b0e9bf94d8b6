"""Intake: only what the session was not opened with is asked for."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import roles, sizing
from assistant.engine.state import Question, Stage, State, Turn, answered, once
from graph.service import standings

if TYPE_CHECKING:
    from assistant.engine.effects import Tell
    from assistant.engine.events import Began
    from graph import Case


def began(case: Case, state: State, event: Began) -> Turn:
    """Take what the session opens with, or what is found out later; what is empty keeps what it was."""
    before, role = state, roles.named(case.machine.roles, event.role)
    known = tuple(name for name in event.known if case.has_check(name))
    state = replace(
        answered(state),
        site=event.site or state.site,
        unit=event.unit or state.unit,
        person=event.person or state.person,
        role=role or state.role,
        others=event.others or state.others,
        trained="yes" if event.trained else state.trained,
        settled=once(state.settled, *known),
        known=once(state.known, *known),
        serviced=event.serviced or state.serviced,
        sized=event.sized or state.sized,
    )
    told = (*(wording.repeated(sentence) for sentence in event.repeats), *_overdue(case, event))
    if before.role:  # where it is has come to light since
        place = wording.place_named(state.site, state.unit)
        return state, (wording.machine_found(place, case.machine.profile_title), *told)
    if event.role and not role:
        return state, (wording.no_such_role(event.role), *told)
    unknown = sizing.wanted(case, state)
    return state, (wording.welcome("" if unknown else case.machine.profile_title), *told)


def _overdue(case: Case, event: Began) -> tuple[Tell, ...]:
    """Return the service that is overdue on this machine, in one sentence; none where nothing is."""
    known = standings(case.machine.services, dict(event.serviced))
    late = tuple(each for each in known if each.over > 0)
    return (wording.overdue_service(late),) if late else ()


def ask_next(case: Case, state: State) -> Turn:
    """Ask who is there, then where, and of an unknown machine how many barrels; then go on to safety."""
    if not state.role:
        return replace(state, open=Question("role", "role")), ()
    if not state.site:
        return replace(state, open=Question("site", "site")), ()
    if sizing.wanted(case, state):
        return replace(state, open=Question("barrels", "barrels")), ()
    return replace(state, stage=Stage.SAFETY), ()


def take_role(case: Case, state: State, choice: str) -> Turn:
    """Take the role of the person here; nothing goes on without one."""
    role = roles.named(case.machine.roles, choice)
    if not role:
        return state, (wording.need_role(),)
    return replace(answered(state), role=role), ()


def take_site(case: Case, state: State, choice: str) -> Turn:
    """Go on without a site; only words can name one."""
    del case, choice
    return replace(answered(state), site=wording.NOT_NAMED), ()


def site_told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Take words as the site, unless they told something about the machine."""
    del case
    if understood or not text.strip():
        return state, ()
    site = " ".join(text.split())
    return replace(answered(state), site=site), (wording.site_taken(site),)
