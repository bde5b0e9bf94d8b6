"""A step that cannot be done as it stands: what to try instead, and then the step again.

The rule: another way never passes a step. It is shown, and after it the step is asked again, so that a
gate opens only when the step itself is confirmed.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking, doing, guard
from assistant.engine.state import Question, State, Turn, answered

if TYPE_CHECKING:
    from assistant.engine.procedure import Item
    from graph import Case


def take_step(case: Case, state: State, choice: str) -> Turn:
    """Take the reply to a step of a repair, or what keeps it from being done."""
    return _branched(case, state, asking.step_item(case, state), choice) or doing.take(case, state, choice)


def take_guard(case: Case, state: State, choice: str) -> Turn:
    """Take the reply to a step on the way to a check, or what keeps it from being done."""
    return _branched(case, state, guard.item(case, state), choice) or guard.take(case, state, choice)


def _branched(case: Case, state: State, item: Item, choice: str) -> Turn | None:
    """Show the other way that a choice asks for, its cautions first; None for any other choice."""
    ways = item.step.instead if item.step is not None else ()
    way = next((each for each in ways if each.id == choice), None)
    if way is None:
        return None
    shown = tuple(wording.warn(case.caution(name)) for name in way.cautions)
    return replace(state, open=Question("instead", item.id, text=way.id)), shown


def take(case: Case, state: State, choice: str) -> Turn:
    """Ask the step again after the other way; where that did not help either, it cannot be done."""
    if choice == "yes":
        return replace(answered(state), fresh=()), ()
    return (guard.take if state.guarding else doing.take)(case, state, "no")
