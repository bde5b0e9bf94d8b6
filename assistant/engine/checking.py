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
    left_out = _alike(case, check) if choice == "cannot" else (check.id,)
    settled = once(state.settled, *left_out)
    due = tuple(name for name in due if name not in left_out)
    state = replace(answered(state), settled=settled, guarding="", due=due)
    return state, (wording.never_mind(choice), *begun)


def _alike(case: Case, check: Check) -> tuple[str, ...]:
    """Return the check and those that are the same at other barrels: who can't do one can't do those."""
    if check.barrel is None or check.kind == "symptom":
        return (check.id,)
    return tuple(c.id for c in case.machine.checks if c.base == check.base and c.barrel is not None)
