"""Proving: after the work the readings and checks decide, not the feeling that it is done."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.clock import clock_after
from assistant.engine import (
    asking,
    checking,
    closing,
    evidence,
    guard,
    leading,
    learning,
    left_over,
    procedure,
    putting_back,
)
from assistant.engine.candidates import askable
from assistant.engine.state import Question, Stage, State, Turn, answered, once

if TYPE_CHECKING:
    from assistant.engine.effects import Tell
    from graph import Case
    from graph.machine import Verification

CALL_BACK = 45.0  # minutes: a barrel that was restarted has frozen by then (common practice)


def ask_next(case: Case, state: State) -> Turn:
    """Judge what has been seen, or ask for it; when all is in order, ask about the complaint."""
    items = case.remedy(state.remedy).verify
    if state.at >= len(items):
        return _after_proof(case, state)
    item = items[state.at]
    judged = _judged(case, state, item)
    if judged is None:
        return _ask(case, state, item)
    return (_next(state), ()) if judged else _failed(case, state, wording.not_in_order())


def _after_proof(case: Case, state: State) -> Turn:
    """Ask about the complaint; once it is gone, about whatever the repair does not explain."""
    if not state.relieved:
        state, back = putting_back.put_back(case, state)
        return replace(state, open=Question("gone", "gone")), back
    if state.guarding:
        return guard.ask_next(case, state)
    name = left_over.to_look_at(case, state)
    if name:
        state, shown = guard.ask_next(case, guard.start(state, name))
        return state, (wording.look_once_more(case.check(name)), *shown)
    left = left_over.left_over(case, state)
    if left:
        return replace(state, open=Question("left", "left"), left=left), ()
    return _closing(case, state, "cured"), ()


def _ask(case: Case, state: State, item: Verification) -> Turn:
    if not item.check:
        return replace(state, open=Question("proof", f"{state.remedy}#{state.at + 1}")), ()
    if not (case.has_check(item.check) and askable(case, state, case.check(item.check))):
        return _next(state), (wording.not_proved(),)
    if state.guarding != item.check:
        state = guard.start(state, item.check)
    return guard.ask_next(case, state)


def _judged(case: Case, state: State, item: Verification) -> bool | None:
    """Return whether a verification passed; None before anything was seen for it."""
    if item.check:
        seen = item.check in state.proved
        return evidence.last_outcome(state, item.check) in item.outcomes if seen else None
    reading = evidence.fresh_reading(state, item.read) if item.read else None
    if reading is None:
        return None
    return procedure.within(case, reading.quantity, item.limits, reading.value, reading.unit)


def _next(state: State) -> State:
    return replace(answered(state), at=state.at + 1, fresh=(), guarding="")


def take(case: Case, state: State, choice: str) -> Turn:
    """Take the reply to a verification, or to what is looked at once more."""
    if state.relieved and state.open is not None:
        return _looked_at(case, state, state.open.id, choice)
    item = asking.verification(case, state)
    outcome = checking.outcome(case.check(item.check), choice) if item.check else ""
    if outcome:
        return learning.learn(case, answered(state), item.check, outcome)
    if choice in {"unsure", "cannot", "skip"}:
        return _next(state), (wording.not_proved(),)
    if item.check or item.read or choice not in {"yes", "no"}:
        return state, (wording.number_needed() if item.read else wording.which_of_these(),)
    return (_next(state), ()) if choice == "yes" else _failed(case, state, wording.not_in_order())


def _looked_at(case: Case, state: State, name: str, choice: str) -> Turn:
    """Take how something is now that the repair does not explain; not knowing leaves it as it was."""
    outcome = checking.outcome(case.check(name), choice)
    if outcome:
        return learning.learn(case, answered(state), name, outcome)
    if choice not in {"unsure", "cannot", "skip"}:
        return state, (wording.which_of_these(),)
    return replace(answered(state), proved=once(state.proved, name), guarding=""), (
        wording.never_mind(choice),
    )


def take_gone(case: Case, state: State, choice: str) -> Turn:
    """Take whether the complaint is gone, which says whether this was the cause."""
    if choice == "no":
        return _failed(case, state, wording.did_not_help())
    if choice != "yes":
        return _looked_at_later(case, answered(state))
    state = evidence.worked(case, answered(state), state.remedy, helped=True)
    return replace(state, relieved=True), ()


def take_left(case: Case, state: State, choice: str) -> Turn:
    """Go on looking for what is left; anything but a yes closes with it named."""
    if choice == "yes":
        return _narrowing(case, replace(answered(state), left=())), (wording.go_on_with_rest(),)
    return _closing(case, answered(state), "cured"), ()


def _looked_at_later(case: Case, state: State) -> Turn:
    """Pause until it can be said whether the complaint is gone, with the time to look again."""
    waits = (item.step.wait for item in procedure.of_remedy(case, case.remedy(state.remedy)) if item.step)
    wait = max(CALL_BACK, *waits)
    fault, _ = leading.leading_fault(case, case.believe(evidence.findings(state)), state.remedy)
    left = left_over.left_over(case, state)
    state, end = closing.closed(case, replace(state, outcome="cured_for_now", cause=fault, left=left))
    return state, (wording.too_early(wait, clock_after(state.now, wait, state.zone)), *end)


def _closing(case: Case, state: State, outcome: str) -> State:
    fault, _ = leading.leading_fault(case, case.believe(evidence.findings(state)), state.remedy)
    return replace(state, stage=Stage.CLOSING, outcome=outcome, cause=fault)


def _failed(case: Case, state: State, said: Tell) -> Turn:
    """Go on narrowing with what was learnt, and say it: this remedy is done, and it did not help."""
    state = evidence.worked(case, answered(state), state.remedy, helped=False)
    return _narrowing(case, state), (said,)


def _narrowing(case: Case, state: State) -> State:
    """Return the state with the repair behind it, and the search going on."""
    state = evidence.reopened(case, state, state.remedy)
    return replace(
        state,
        stage=Stage.NARROWING,
        cured=once(state.cured, state.remedy),
        relieved=False,
        remedy="",
        at=0,
        fresh=(),
        guarding="",
        passed=(),
    )
