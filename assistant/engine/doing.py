"""Doing: a repair step by step, each one confirmed, with cautions and gates before what needs them.

A step that this role may not do is never shown: the work stops there, with whom to send.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking, deciding, procedure
from assistant.engine.candidates import barred_by_danger
from assistant.engine.state import Question, Stage, State, Turn, answered, once
from graph.candidates import may_do

if TYPE_CHECKING:
    from assistant.engine.procedure import Item
    from graph import Case


def ask_next(case: Case, state: State) -> Turn:
    """Show what comes next and ask for it to be confirmed; after the last step go on to proving."""
    remedy = case.remedy(state.remedy)
    if barred_by_danger(case, state, remedy):  # danger was met on the way
        state, more = deciding.send(case, state, remedy, "not_yours")
        return state, (wording.not_your_step(), *more)
    items = procedure.of_remedy(case, remedy)
    state, at, shown = procedure.walk(case, state, items, state.at)
    state = replace(state, at=at)
    if at >= len(items):
        state = replace(state, stage=Stage.PROVING, at=0, fresh=(), proved=(), passed=())
        return state, (*shown, wording.now_prove(remedy))
    if not may_do(state.role, items[at].roles):
        state, more = deciding.send(case, state, remedy, "not_yours")
        return state, (*shown, wording.not_your_step(), *more)
    state, more = _judged(case, state, items[at])
    return state, (*shown, *more)


def _judged(case: Case, state: State, item: Item) -> Turn:
    """Judge the number that an item asks for, if it has been read; else ask."""
    found = procedure.verdict(case, state, item)
    if found == "pass":
        return _done(state, item)
    read = procedure.taken(state, item)
    if found == "ask" or item.step is None or read is None:
        return procedure.asked(state, item, "step"), ()
    out = wording.out_of_limits(case.quantity(read[0].quantity), read[1])
    if item.step.redo:
        state = replace(procedure.asked(state, item, "step"), fresh=())
        return state, (out, wording.do_again(item.step.redo))
    if item.kind == "gate":
        state, more = _stuck(case, state, item)
        return state, (out, *more)
    if state.misses:
        state, more = _stopped(state, item)
        return state, (out, *more)
    state = replace(procedure.asked(state, item, "step"), misses=1, fresh=())
    return state, (out, wording.read_again(item.step.wait))


def take(case: Case, state: State, choice: str) -> Turn:
    """Go on with a yes; anything else stops the work."""
    item = asking.step_item(case, state)
    if choice != "yes":
        return _stuck(case, state, item)
    if procedure.number_missing(state, item):
        return state, (wording.number_needed(),)
    return _done(state, item)


def _done(state: State, item: Item) -> Turn:
    """Go on, unless it was done much sooner than it can be."""
    if procedure.too_soon(state, item):
        return replace(state, open=Question("early", item.id)), ()
    return _passed(state, item), ()


def _passed(state: State, item: Item) -> State:
    state = procedure.understood(state, item.id) if item.kind == "caution" else state
    return replace(answered(state), at=state.at + 1, fresh=(), step="")


def _stuck(case: Case, state: State, item: Item) -> Turn:
    """Say that the work is not begun, or stops, and ask how to go on."""
    begun = procedure.begun(procedure.of_remedy(case, case.remedy(state.remedy)), state.at)
    state = replace(answered(state), open=Question("stuck", item.id), fresh=(), step="")
    return state, (wording.work_stopped(_cannot(item)) if begun else wording.not_begun(_cannot(item)),)


def _stopped(state: State, item: Item) -> Turn:
    """Leave the work that its own readings speak against: narrowing goes on."""
    return left(state), (wording.work_stopped(_cannot(item)),)


def _cannot(item: Item) -> str:
    return item.step.cannot if item.step is not None else ""


def left(state: State) -> State:
    """Return the state with the work left: it is not possible here, and narrowing goes on."""
    return replace(
        answered(state),
        stage=Stage.NARROWING,
        declined=once(state.declined, state.remedy),
        remedy="",
        at=0,
        fresh=(),
        step="",
    )
