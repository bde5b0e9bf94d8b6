"""Taking back and asking again: nobody is held to a slip."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import naming
from assistant.engine.state import Stage, State, Turn, once

if TYPE_CHECKING:
    from graph import Case
    from graph.machine import Check

MOST_LISTED = 9


def back(case: Case, state: State, argument: str = "") -> Turn:
    """Take the last answer back; notes stay."""
    del case, argument
    if state.previous is None:
        return state, (wording.nothing_to_take_back(),)
    return replace(state.previous, notes=state.notes), (wording.taken_back(),)


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
