"""Taking back and asking again: nobody is held to a slip."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import danger, evidence, naming
from assistant.engine.candidates import may_ask_again
from assistant.engine.effects import Option
from assistant.engine.state import Question, Stage, State, Turn, once

if TYPE_CHECKING:
    from graph import Case
    from graph.machine import Check

MOST_LISTED = 9


def back(case: Case, state: State, argument: str = "") -> Turn:
    """Take the last answer back; notes stay."""
    del argument
    before = state.previous
    if before is None:
        return state, (wording.nothing_to_take_back(),)
    if before.previous is not None and _left_work(before.previous, before):
        before = replace(before, previous=_gates_again(case, before.previous))
    return replace(before, notes=state.notes), (wording.taken_back(),)


def _left_work(working: State, after: State) -> bool:
    """Return whether the answer between two states left a repair, or the way to a check."""
    repair = working.stage is Stage.DOING and after.stage is not Stage.DOING
    return repair or (bool(working.guarding) and working.guarding != after.guarding)


def _gates_again(case: Case, working: State) -> State:
    """Return work that is come back to after other questions, with its gates to be passed again.

    A slip may be taken back at once and nothing has changed. After other checks somebody may have opened
    or switched on what was made safe.
    """
    state = danger.rewound(case, replace(working, open=None))
    return replace(state, previous=None)


def change(case: Case, state: State, argument: str = "") -> Turn:
    """Ask an earlier check again: the one named, else the last one answered."""
    names = dict.fromkeys(answer.finding.check for answer in reversed(state.answers))
    given = tuple(case.check(name) for name in names if case.has_check(name))
    if not given:
        return state, (wording.nothing_to_change(),)
    found = naming.named(given, argument) if argument.strip() else given[:1]
    if len(found) == 1:
        return _again(case, state, found[0])
    last = evidence.last_outcomes(state)
    options = (
        Option(check.id, wording.sentence(wording.said_of(check, last[check.id])))
        for check in (found or given)[:MOST_LISTED]
    )
    return replace(state, open=Question("change", "change", (*options, wording.NONE_OF_THESE))), ()


def take(case: Case, state: State, choice: str) -> Turn:
    """Ask the answer that was picked again; what was open before is asked anew."""
    picked = state.open is not None and choice in {option.id for option in state.open.options}
    state = replace(state, open=None)
    if not picked or not case.has_check(choice):
        return state, (wording.nothing_changed(),)
    return _again(case, state, case.check(choice))


def _again(case: Case, state: State, check: Check) -> Turn:
    if state.stage is Stage.SAFETY and check.id in case.machine.safety:
        screened = tuple(name for name in state.screened if name != check.id)
        return replace(state, open=None, screened=screened, guarding=""), (wording.asking_again(check),)
    if not may_ask_again(case, state, check):
        return state, (wording.not_yours_to_change(check),)
    state = replace(state, due=once((check.id,), *state.due))
    if state.stage in {Stage.DOING, Stage.PROVING}:
        return state, (wording.asked_afterwards(check),)
    if state.stage is Stage.CLOSING:
        state = replace(state, stage=Stage.NARROWING, outcome="", cause="", remedy="", seen=False)
    return replace(state, open=None, guarding=""), (wording.asking_again(check),)
