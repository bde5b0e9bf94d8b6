"""Narrowing: ask the check that tells most for its time, until acting beats asking."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import deciding, evidence, guard, putting_back
from assistant.engine.candidates import askable, candidates, may_ask_again, out_of_question
from assistant.engine.state import State, Turn, once

if TYPE_CHECKING:
    from graph import Advice, Case, Ranked

TELLING_CONFLICT = 1.0  # bits: the answers are half as likely together as if they were unrelated


def ask_next(case: Case, state: State) -> Turn:
    """Ask what is due, else the best check, else decide what to do."""
    if state.guarding:
        return guard.ask_next(case, state)
    state, shown = _conflict(case, state)
    due = next((name for name in state.due if may_ask_again(case, state, case.check(name))), "")
    if due:
        state, more = guard.ask_next(case, guard.start(state, due))
        return state, (*shown, *more)
    state, more = _act_or_ask(case, state)
    return state, (*shown, *more)


def _act_or_ask(case: Case, state: State) -> Turn:
    """Decide, where it is time for that; else ask the best check."""
    left = deciding.left_here(case, state, case.machine.settings.stop["certain"], begun=False)
    if left is not None:
        return _decided(case, deciding.send(case, state, left, "not_begun"))
    if len(state.questioned) >= case.machine.settings.stop["questions"]:
        return _decided(case, deciding.decide_now(case, state))
    advice, ranked = advised(case, state)
    if advice.act or not ranked:
        return _decided(case, deciding.decide(case, state, advice))
    return guard.ask_next(case, guard.start(state, ranked[0].check, ranked[0]))


def _decided(case: Case, decided: Turn) -> Turn:
    """Return a decision, before it how to put back what the checks needed shut or off."""
    state, back = putting_back.after_checks(case, decided[0])
    return state, (*back, *decided[1])


def advised(case: Case, state: State) -> tuple[Advice, tuple[Ranked, ...]]:
    """Return whether to act or to ask, and the leading open checks, best first."""
    barred = {r.id: math.inf for r in case.machine.remedies if out_of_question(state, r.id)}
    return case.decide(
        evidence.findings(state),
        candidates(case, state),
        role=state.role,
        here=state.here,
        by="bits" if state.by == "bits" else "minutes",
        cured=state.cured,
        costs=barred,
    )


def _conflict(case: Case, state: State) -> Turn:
    """Name the answer that fits least, when the answers do not fit, and ask it once more."""
    found = case.conflict(evidence.findings(state))
    if found.suspect is None or found.bits < TELLING_CONFLICT:
        return state, ()
    suspect = state.answers[found.suspect]
    name = suspect.finding.check
    if not case.has_check(name) or name in state.rechecked or not askable(case, state, case.check(name)):
        return state, ()
    if name in state.story:
        return state, ()  # the complaint is why the call was made: nobody who tells it is doubted
    state = replace(state, rechecked=once(state.rechecked, name), due=once((name,), *state.due))
    return state, (wording.conflict(case.check(name), suspect.outcome),)
