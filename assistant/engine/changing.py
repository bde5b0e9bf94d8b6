"""Taking back and asking again: nobody is held to a slip."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import danger, naming
from assistant.engine.state import Stage, State, Turn, once

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
    given = tuple(
        case.check(answer.finding.check)
        for answer in reversed(state.answers)
        if case.has_check(answer.finding.check)
    )
    found = naming.named(given, argument) if argument.strip() else given[:1]
    if len(found) != 1:
        return state, (wording.change_which(given[:MOST_LISTED]),)
    return _again(case, state, found[0])


def _again(case: Case, state: State, check: Check) -> Turn:
    if state.stage is Stage.SAFETY and check.id in case.machine.safety:
        screened = tuple(name for name in state.screened if name != check.id)
        return replace(state, open=None, screened=screened, guarding=""), (wording.asking_again(check),)
    state = replace(state, due=once((check.id,), *state.due))
    if state.stage in {Stage.DOING, Stage.PROVING}:
        return state, (wording.asked_afterwards(check),)
    if state.stage is Stage.CLOSING:
        state = replace(state, stage=Stage.NARROWING, outcome="", cause="", remedy="", seen=False)
    return replace(state, open=None, guarding=""), (wording.asking_again(check),)
