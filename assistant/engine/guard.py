"""The way to a check: its cautions and gates first, then the check itself.

A gate that was passed still holds for the very next check that needs it too; after any other check it
must be passed again, because power or gas may be on by then.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import procedure, putting_back
from assistant.engine.candidates import check_barred
from assistant.engine.state import Question, Stage, State, Turn, answered, once
from graph.candidates import may_do

if TYPE_CHECKING:
    from assistant.engine.procedure import Item
    from graph import Case, Ranked


def start(state: State, check: str, ranked: Ranked | None = None) -> State:
    """Return the state on its way to a check."""
    return replace(state, guarding=check, guard_at=0, ranked=ranked, fresh=())


def ask_next(case: Case, state: State) -> Turn:
    """Ask the next thing on the way to the check, or the check itself."""
    check = case.check(state.guarding)
    if check_barred(case, state, check):  # danger was met on the way
        return _given_up(state), ()
    state, before = putting_back.put_back(case, state, check.gates)
    items = _items(case, state)
    state, at, shown = procedure.walk(case, state, items, state.guard_at)
    named = (wording.next_check(check),) if shown and not state.guard_at else ()
    state = replace(state, guard_at=at)
    if at < len(items) and not may_do(state.role, items[at].roles):  # the role changed on the way
        return _given_up(state), (*before, *shown)
    shown = (*before, *named, *shown)
    if at < len(items):
        found = procedure.verdict(case, state, items[at])
        if found == "ask":
            return procedure.asked(state, items[at], "guard"), shown
        state, more = take(case, state, "yes" if found == "pass" else "no")
        return state, (*shown, *more)
    kind = "proof" if state.stage is Stage.PROVING else "check"
    question = Question(kind, check.id, ranked=state.ranked)
    counted = state.stage is Stage.NARROWING
    asked = once(state.questioned, check.id) if counted else state.questioned
    return replace(state, open=question, passed=check.gates, here=check.place, questioned=asked), shown


def item(case: Case, state: State) -> Item:
    """Return the item that stands in the way; only while a `guard` question is open."""
    return _items(case, state)[state.guard_at]


def _items(case: Case, state: State) -> tuple[Item, ...]:
    return procedure.of_check(case, case.check(state.guarding), state.passed)


def take(case: Case, state: State, choice: str) -> Turn:
    """Go on with a yes; anything else means that the check cannot be done here."""
    found = item(case, state)
    if choice == "yes" and procedure.number_missing(state, found):
        return state, (wording.number_needed(),)
    if choice == "yes" and procedure.too_soon(state, found):
        return replace(state, open=Question("early", found.id)), ()
    if choice == "yes":
        if found.kind == "caution":
            state = procedure.understood(state, found.id)
        return replace(answered(state), guard_at=state.guard_at + 1, fresh=(), step=""), ()
    cannot = found.step.cannot if found.step is not None else ""
    refused = procedure.barrier(case, _items(case, state), state.guard_at)
    aside = once(state.aside, state.guarding) if state.stage is Stage.NARROWING else state.aside
    state = replace(state, refused=once(state.refused, *refused), aside=aside)
    check = case.check(state.guarding)
    state, back = putting_back.put_back(case, state)
    return _given_up(state), (wording.not_past_gate(check, cannot), *back)


def _given_up(state: State) -> State:
    """Return the state without this check: no evidence, and not asked again."""
    state = replace(state, settled=once(state.settled, state.guarding), passed=())
    if state.stage is Stage.PROVING:
        state = replace(state, at=state.at + 1)
    if state.stage is Stage.SAFETY:
        state = replace(state, screened=once(state.screened, state.guarding))
    due = tuple(name for name in state.due if name != state.guarding)
    return replace(answered(state), guarding="", ranked=None, due=due, step="")
