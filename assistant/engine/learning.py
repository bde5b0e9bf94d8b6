"""Taking an answer to a check: record it, remark on it, and stop if it means danger."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import danger, evidence

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.engine.state import State, Turn
    from graph import Case
    from graph.machine import Check, Outcome


def learn(case: Case, state: State, check: str, outcome: str) -> Turn:
    """Take a plain answer."""
    return _seen(case, evidence.answer(case, state, check, outcome), check)


def learn_reading(case: Case, state: State, check: str, value: float, unit: str) -> Turn:
    """Take a number as the answer; raises GraphError for one that cannot be."""
    return _seen(case, evidence.read(case, state, check, value, unit), check)


def _seen(case: Case, state: State, check: str) -> Turn:
    element = case.check(check)
    outcome = element.outcomes[element.outcome_index(evidence.last_outcome(state, check))]
    shown = (wording.remark(element, outcome.then),) if outcome.then else ()
    if not outcome.danger:
        return state, (*shown, *_cautions(case, element, outcome))
    state, warned = danger.halted(case, state, outcome.danger)
    return state, (*shown, *warned)


def _cautions(case: Case, check: Check, outcome: Outcome) -> tuple[Effect, ...]:
    """Return the cautions of a safety question whose answer is not the usual one."""
    if check.phase != "safety" or check.outcome_index(outcome.id) in {check.usual, -1}:
        return ()
    return tuple(wording.warn(case.caution(name)) for name in check.cautions)
