"""A barrel named in an answer that is not about barrels: "the red lever stands across the tube".

The rule: it counts as the barrel in trouble only when that is confirmed.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.state import Question, State, Turn

if TYPE_CHECKING:
    from graph import Case


def question(case: Case, state: State, barrels: tuple[int, ...]) -> Question | None:
    """Return the question whether the trouble is at some barrels; None where that is known already."""
    here = set(range(1, case.machine.barrels + 1))
    if not barrels or not set(barrels) <= here or set(barrels) <= set(state.barrels):
        return None
    names = case.machine.flavours
    called = [wording.barrel_named(n, names[n - 1] if n <= len(names) else "") for n in barrels]
    name = ",".join(map(str, barrels))
    return Question("aimed", name, wording.YES_NO, text=wording.ask_aimed(called))


def take(case: Case, state: State, choice: str) -> Turn:
    """Take the barrels as those in trouble, or leave it as it was."""
    del case
    asked = state.open
    if asked is None:
        return state, ()
    state = replace(state, open=None, doubts=tuple(each for each in state.doubts if each != asked))
    if choice != "yes":
        return state, (wording.nothing_changed(),)
    barrels = tuple(int(barrel) for barrel in asked.id.split(","))
    return replace(state, barrels=barrels), (wording.barrels_noted(barrels),)
