"""The reply to a check: an outcome is evidence, "not sure" and "can't" are none."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import learning, safety
from assistant.engine.state import Stage, State, Turn, answered, once

if TYPE_CHECKING:
    from graph import Case
    from graph.machine import Check

_OF_SYMPTOM = {"yes": "present", "no": "absent"}


def outcome(check: Check, choice: str) -> str:
    """Return the id of the outcome that a choice is; empty if it is none."""
    if check.kind == "symptom":
        choice = _OF_SYMPTOM.get(choice, choice)
    index = check.outcome_index(choice)
    return check.outcomes[index].id if index >= 0 else ""


def take(case: Case, state: State, choice: str) -> Turn:
    """Take the reply to the open check."""
    if state.open is None:
        return state, ()
    check = case.check(state.open.id)
    found = outcome(check, choice)
    if found:
        state, shown = learning.learn(case, answered(state), check.id, found)
        said = (wording.taken((wording.said_of(check, found),)),) if check.kind == "symptom" else ()
        return state, (*said, *shown)
    if choice not in {"unsure", "cannot", "skip"}:
        return state, (wording.which_of_these(),)
    if state.stage is Stage.SAFETY:
        return safety.not_cleared(case, state, check.id)
    due = tuple(name for name in state.due if name != check.id)
    begun = (wording.put_back(check),) if check.undo and choice == "unsure" else ()
    state = replace(answered(state), settled=once(state.settled, check.id), guarding="", due=due)
    return state, (wording.never_mind(choice), *begun)
