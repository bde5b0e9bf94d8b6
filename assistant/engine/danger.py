"""Danger stops everything: the caution is shown, and nothing goes on until somebody says it is safe."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import procedure
from assistant.engine.state import Question, Stage, State, Turn, answered, once

if TYPE_CHECKING:
    from graph import Case


def halted(case: Case, state: State, caution: str) -> Turn:
    """Stop the conversation with a caution, once; the hazard is noted for whoever comes next."""
    if state.stage is Stage.HALTED and caution in state.halts:
        return state, ()
    state = replace(
        state,
        stage=Stage.HALTED,
        after=state.after if state.stage is Stage.HALTED else state.stage,
        open=None,
        halts=once(state.halts, caution),
        hazards=once(state.hazards, caution),
    )
    return state, (wording.warn(case.caution(caution), stop=True),)


def ask_next(case: Case, state: State) -> Turn:
    """Ask whether it is safe now."""
    del case
    return replace(state, open=Question("safe", "safe")), ()


def take_safe(case: Case, state: State, choice: str) -> Turn:
    """Go on where we were once it is said to be safe; anything but a yes keeps us here."""
    if choice != "yes":
        return state, (wording.still_halted(),)
    state = replace(answered(state), stage=state.after, halts=())
    return rewound(case, state), (wording.safe_again(),)


def told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Answer any other words while all is stopped: what must not be done now."""
    del text, understood
    return state, (wording.while_halted(case.caution(state.halts[-1])),) if state.halts else ()


def rewound(case: Case, state: State) -> State:
    """Return the state with every gate of the work under way to be passed again.

    Somebody may have opened or switched on what was made safe, so a repair goes back to its first gate.
    """
    state = replace(state, guard_at=0, passed=(), warned=())
    if state.stage is not Stage.DOING:
        return state
    items = procedure.of_remedy(case, case.remedy(state.remedy))
    first = next((n for n, item in enumerate(items) if item.kind == "title"), len(items))
    return replace(state, at=min(state.at, first))
