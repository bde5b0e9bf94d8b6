"""A line, before anything else is made of it: whether it says how many barrels the machine has."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.engine import lasting, opening, sizing

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.events import Said
    from assistant.engine.state import State, Turn
    from graph import Case


def said(case: Case, state: State, event: Said) -> Turn:
    """Take a line told after the intake."""
    return _sized(case, state, event, lasting.said)


def at_intake(case: Case, state: State, event: Said) -> Turn:
    """Take a line told while it is asked who is there, where, and of what machine."""
    return _sized(case, state, event, opening.said)


def _sized(case: Case, state: State, event: Said, take: Callable[[Case, State, Said], Turn]) -> Turn:
    """Take the number of barrels that a line says, then whatever else it says."""
    state, shown, rest = sizing.told(case, state, event)
    if rest is None:
        return state, shown
    state, more = take(case, state, rest)
    asked = state.open is not None and state.open.kind == "barrels"
    if shown and asked and not sizing.wanted(case, state):
        state = replace(state, open=None)
    return state, (*shown, *more)
