"""Time that a step takes: done much too early is asked about once, and kept."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.engine import doing, guard
from assistant.engine.state import State, Turn, answered, once

if TYPE_CHECKING:
    from graph import Case


def take(case: Case, state: State, choice: str) -> Turn:
    """Go on where it was really done; else wait on, and read anew what was read too early."""
    if choice != "yes" or state.open is None:
        return replace(answered(state), fresh=()), ()
    state = replace(state, hurried=once(state.hurried, state.open.id))
    return (guard.take if state.guarding else doing.take)(case, state, "yes")
