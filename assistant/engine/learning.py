"""Taking an answer to a check: record it, remark on it, and stop if it means danger.

Where an answer orders something at once (a valve to be shut), nothing goes on before it is said whether
that was done.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import danger, evidence
from assistant.engine.state import Question, answered, once

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
    outcome = _outcome(case, check, evidence.last_outcome(state, check))
    shown = (wording.remark(element, outcome.then),) if outcome.then else ()
    if outcome.confirm:
        state = replace(state, securing=once(state.securing, check))
    if not outcome.danger:
        back = (wording.put_back(element),) if element.undo else ()
        return state, (*shown, *back, *_cautions(case, element, outcome))
    state, warned = danger.halted(case, state, outcome.danger)
    return state, (*shown, *warned)


def ask_secured(case: Case, state: State) -> Turn:
    """Ask whether what the last answer ordered is done; not where another answer has taken its place."""
    name = state.securing[0]
    if order(case, state, name):
        return replace(state, open=Question("secured", name)), ()
    return replace(state, securing=state.securing[1:]), ()


def order(case: Case, state: State, check: str) -> str:
    """Return the question whether what an answer ordered is done; empty if it orders nothing now."""
    given = evidence.last_outcome(state, check)
    return _outcome(case, check, given).confirm if given else ""


def take_secured(case: Case, state: State, choice: str) -> Turn:
    """Keep whether it is done; anything but a yes is told to whoever comes next."""
    name = state.securing[0]
    outcome = _outcome(case, name, evidence.last_outcome(state, name))
    ordered = outcome.then
    holds = tuple(case.caution(each).hold for each in _alarms(case, case.check(name), outcome))
    done = "yes" if choice == "yes" else "no"
    others = tuple(pair for pair in state.secured if pair[0] != ordered)
    state = replace(answered(state), securing=state.securing[1:], secured=(*others, (ordered, done)))
    return state, (wording.secured(ordered) if done == "yes" else wording.not_secured(ordered, holds),)


def _outcome(case: Case, check: str, outcome: str) -> Outcome:
    element = case.check(check)
    return element.outcomes[element.outcome_index(outcome)]


def _cautions(case: Case, check: Check, outcome: Outcome) -> tuple[Effect, ...]:
    return tuple(wording.warn(case.caution(name)) for name in _alarms(case, check, outcome))


def _alarms(case: Case, check: Check, outcome: Outcome) -> tuple[str, ...]:
    """Return the cautions of the safety questions that an answer gives another answer than the usual one.

    A symptom gives one where it says the same (`covers`).
    """
    covered = ((case.check(name), said) for name, said in outcome.covers if case.has_check(name))
    given = ((check, (outcome.id,)), *covered)
    names = (name for asked, said in given if _alarming(asked, said) for name in asked.cautions)
    return tuple(dict.fromkeys(names))


def _alarming(check: Check, outcomes: tuple[str, ...]) -> bool:
    return check.phase == "safety" and any(check.outcome_index(o) not in {check.usual, -1} for o in outcomes)
