"""One step of the conversation: `(case, state, event) -> (state, effects)`.

Rules:

* What may happen in which stage stands in `MOVES`. What does not is refused and changes nothing.
* After a move the stages ask on until a question is open or the session is closed.
* The last effect is the open question, if there is one; the same state always gives the same question.
* `previous` links to the state before the last answer, so that it can be taken back.
* Time is a fact like any other: it comes in with the event.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import (
    asking,
    closing,
    confirming,
    danger,
    doing,
    hearing,
    intake,
    learning,
    listening,
    narrowing,
    proving,
    safety,
    telling,
    words,
)
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.engine.state import OPENING, Stage, State, Turn

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.effects import Effect
    from assistant.engine.events import Event
    from graph import Case

TALKING = (
    Stage.INTAKE,
    Stage.SAFETY,
    Stage.LISTENING,
    Stage.NARROWING,
    Stage.DOING,
    Stage.PROVING,
    Stage.CLOSING,
    Stage.HALTED,
)

MOVES: dict[tuple[Stage, type], Callable[..., Turn]] = {
    (Stage.INTAKE, Began): intake.began,
    **{(stage, Said): telling.said for stage in TALKING},
    (Stage.INTAKE, Said): telling.at_intake,
    **{(stage, Chose): hearing.chose for stage in TALKING},
    **{(stage, Measured): hearing.measured for stage in TALKING},
    **{(stage, Asked): words.asked for stage in Stage},
}

ASK_NEXT: dict[Stage, Callable[[Case, State], Turn]] = {
    Stage.INTAKE: intake.ask_next,
    Stage.SAFETY: safety.ask_next,
    Stage.LISTENING: listening.ask_next,
    Stage.NARROWING: narrowing.ask_next,
    Stage.DOING: doing.ask_next,
    Stage.PROVING: proving.ask_next,
    Stage.CLOSING: closing.ask_next,
    Stage.HALTED: danger.ask_next,
}


def open_state(case: Case, *, by: str = "minutes") -> State:
    """Return the state before the first event; `by` says what checks are ranked by (minutes or bits)."""
    del case
    return replace(OPENING, by=by)


def step(case: Case, state: State, event: Event, at: str = "") -> Turn:
    """Return the next state and what is to be shown, ending with the open question.

    `at` is when the event happened, ISO 8601 with the zone; without it nothing is said of clock times.
    """
    state = state if state.now == at else replace(state, now=at, zone=state.zone or at)
    move = MOVES.get((state.stage, type(event)))
    if move is None:
        return state, (wording.refused(state.stage.value), *_open_question(case, state))
    after, shown = move(case, state, event)
    after = confirming.interrupted(case, confirming.dated(state, after))
    after, more = _asked_on(case, after)
    if after == state:
        return state, (*shown, *more, *_open_question(case, state))
    if _is_answer(state, event):
        after = replace(after, previous=state if after.role == state.role else None, turn=state.turn + 1)
    return after, (*shown, *more, *_open_question(case, after))


def _asked_on(case: Case, state: State) -> Turn:
    """Let the stages go on until something is asked or the session is over."""
    shown: tuple[Effect, ...] = ()
    while state.open is None and state.stage is not Stage.CLOSED:
        state = confirming.without_stale(case, state)
        state, more = _asker(case, state)(case, state)
        shown = (*shown, *more)
    return state, shown


def _asker(case: Case, state: State) -> Callable[[Case, State], Turn]:
    """Return what asks next: an order to be confirmed and doubts come first, but not in danger."""
    if state.stage is not Stage.HALTED and state.securing:
        return learning.ask_secured
    if state.stage is not Stage.HALTED and confirming.due(case, state) is not None:
        return confirming.ask_next
    return ASK_NEXT[state.stage]


def _is_answer(state: State, event: Event) -> bool:
    """Return whether an event is taken back by `back`: the opening is not, what is found out later is."""
    if isinstance(event, Began):
        return bool(state.role)
    return not isinstance(event, Asked) or words.takes_back(event)


def _open_question(case: Case, state: State) -> tuple[Effect, ...]:
    return () if state.open is None else (asking.ask(case, state, state.open),)
