"""Handing over: another person, perhaps in another role, goes on with the same session."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import explaining, putting_back, roles
from assistant.engine.evidence import last_outcome
from assistant.engine.state import Question, Stage, State, Turn

if TYPE_CHECKING:
    from graph import Case


def hand_over(case: Case, state: State, argument: str) -> Turn:
    """Hand over to the role that the argument names; the rest of it is the person's name."""
    role = roles.named(case.machine.roles, argument)
    if not role:
        return state, (wording.hand_to_whom(case.machine.roles),)
    person = roles.person_named(case.machine.roles, argument, role)
    summary = explaining.so_far(case, state)
    state, back = (state, ()) if state.halts else putting_back.put_back(case, state, leaving=True)
    state = _taken_over(state, role, person)
    return state, (
        *back,
        wording.handed_over(wording.role_title(case.machine.roles, role), person),
        summary,
    )


def change_role(case: Case, state: State, argument: str) -> Turn:
    """Ask whether the person here really is what the word says; without one, say what is known."""
    role = roles.named(case.machine.roles, argument)
    if not role:
        return state, (wording.your_role(wording.role_title(case.machine.roles, state.role)),)
    return replace(state, open=Question("become", role)), ()


def take_role(case: Case, state: State, choice: str) -> Turn:
    """Change the role once it is confirmed."""
    question = state.open
    if question is None or choice != "yes":
        return replace(state, open=None), (wording.role_kept(),)
    person = state.person
    state = _taken_over(state, question.id, person)
    return state, (wording.handed_over(wording.role_title(case.machine.roles, question.id), person),)


def _taken_over(state: State, role: str, person: str) -> State:
    """Return the state as a new person finds it.

    What one could not do another may, so checks without an answer and repairs not possible are open
    again. Work under way is left. Whoever comes with tools meets the safety screen first: time has
    passed since it was last gone through. There is no way back across a handover.
    """
    halted = bool(state.halts)  # a danger that nobody has called over, even if the session was stopped
    stage = Stage.INTAKE if state.stage is Stage.INTAKE else Stage.SAFETY
    return replace(
        state,
        stage=Stage.HALTED if halted else stage,
        after=stage if halted else state.after,
        open=None,
        role=role,
        person=person,
        trained="",
        settled=tuple(name for name in state.settled if name in state.known or last_outcome(state, name)),
        screened=state.screened if role in roles.BY_PHONE and not halted else (),
        uncleared=(),
        lacking=(),
        declined=(),
        unbegun=(),
        aside=(),
        refused=(),
        questioned=(),
        doubts=(),
        due=(),
        guarding="",
        passed=(),
        warned=(),
        sworn=(),
        fresh=(),
        remedy="",
        relieved=False,
        left=(),
        at=0,
        misses=0,
        outcome="",
        cause="",
        seen=False,
        previous=None,
    )
