"""How long it takes: a question back, answered about the step at hand and about what is left of the work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking, hearing, procedure
from assistant.engine.state import Stage

if TYPE_CHECKING:
    from assistant.engine.effects import Tell
    from assistant.engine.events import Said
    from assistant.engine.state import State, Turn
    from graph import Case


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of a repair behind the step at hand: steps, and about how many minutes."""

    steps: int
    minutes: float


def said(case: Case, state: State, event: Said) -> Turn:
    """Answer a line that asks how long it takes, where it says nothing else; take any other as it is."""
    halted = state.stage is Stage.HALTED  # then nobody knows how long
    if halted or state.open is None or event.facts or not wording.asks_how_long(event.text):
        return hearing.said(case, state, event)
    return state, (takes(case, state),)


def takes(case: Case, state: State) -> Tell:
    """Return how long the open question or step takes, and what comes behind it as far as that is known."""
    own = asking.ask(case, state, state.open).minutes if state.open is not None else None
    if state.stage is Stage.DOING and state.remedy:
        left = work_left(case, state)
        return wording.step_takes(own, left.steps, left.minutes)
    if state.open is not None and state.open.kind == "remedy":
        return wording.work_takes(own, len(case.remedy(state.open.id).steps))
    if state.stage is Stage.PROVING:
        more = len(case.remedy(state.remedy).verify) - state.at
        return wording.proof_takes(own, max(0, more))
    return wording.question_takes(own)


def work_left(case: Case, state: State) -> Left:
    """Return what comes after the step at hand.

    The minutes are the share of the repair's own that these steps are of all, and no less than they have
    to wait for.
    """
    remedy = case.remedy(state.remedy)
    items = procedure.of_remedy(case, remedy)
    steps = [item.step for item in items if item.kind in {"gate", "step"}]
    behind = [item.step for item in items[state.at + 1 :] if item.kind in {"gate", "step"}]
    waits = sum(step.wait for step in behind if step is not None)
    share = remedy.minutes * len(behind) / len(steps) if steps else 0.0
    return Left(len(behind), max(waits, share))
