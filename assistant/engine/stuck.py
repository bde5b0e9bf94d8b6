"""A step that could not be done: another try, somebody else, or on with the search.

The rule: the same work is not offered again to the same person unless that person asks for it, and that it
could not be begun is no evidence against it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking, deciding, doing, procedure
from assistant.engine.state import State, Turn, answered, once

if TYPE_CHECKING:
    from graph import Case

_SEND = ("send", "cannot")  # a second "can't" to the question how to go on means somebody else


def take(case: Case, state: State, choice: str) -> Turn:
    """Go on as it was picked."""
    if choice == "again":
        return replace(answered(state), fresh=()), (wording.begin_again(case.remedy(state.remedy)),)
    if choice not in {"on", "skip", *_SEND}:
        return state, (wording.which_of_these(),)
    remedy, item = case.remedy(state.remedy), asking.step_item(case, state)
    after = _left(case, state)
    if choice in {"on", "skip"}:
        return after, (wording.left_for_now(remedy),)
    cannot = item.step.cannot if item.step is not None else ""
    return deciding.send(case, after, remedy, "not_begun", cannot)


def _left(case: Case, state: State) -> State:
    """Return the state with the work left, and with what stood in its way."""
    items = procedure.of_remedy(case, case.remedy(state.remedy))
    barred = procedure.barrier(case, items, state.at)
    after = replace(doing.left(state), refused=once(state.refused, *barred))
    untouched = bool(barred) or not procedure.begun(items, state.at)
    return deciding.put_off(after, state.remedy) if untouched else after
