"""What was told of the wrong barrel: moved to the right one, so that it does not stand at both.

The rule: nobody's words are moved without asking, since "number 2" may mean that one as well.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence, learning
from assistant.engine.effects import Option
from assistant.engine.state import Question, Stage, State, Turn

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from graph import Case
    from graph.machine import Check

MOVABLE = (Stage.SAFETY, Stage.LISTENING, Stage.NARROWING)


def question(case: Case, state: State, barrels: tuple[int, ...]) -> Question | None:
    """Return the question whether a barrel just named is meant instead of the one told of; None if not.

    It is asked where symptoms stand at one other barrel, and none at the one named.
    """
    told = _told(case, state)
    others = {check.barrel for check in told}
    if state.stage not in MOVABLE or len(barrels) != 1 or len(others) != 1 or set(barrels) == others:
        return None
    here, there = barrels[0], next(iter(others)) or 0
    titles = tuple(dict.fromkeys(check.title for check in told))
    options = (
        Option("moved", wording.instead_of(here, there)),
        Option("both", wording.both_barrels(here, there)),
        wording.NONE_OF_THESE,
    )
    return Question("moved", str(here), options, text=wording.which_barrel(titles))


def _told(case: Case, state: State) -> tuple[Check, ...]:
    """Return the symptoms that stand, of those that every barrel has one of."""
    last = evidence.last_outcomes(state)
    present = (case.check(name) for name, outcome in last.items() if outcome == "present")
    return tuple(check for check in present if check.kind == "symptom" and check.barrel is not None)


def take(case: Case, state: State, choice: str) -> Turn:
    """Move what was told, or tell it of both barrels; anything else leaves it."""
    asked = state.open
    if asked is None:
        return state, ()
    state = replace(state, open=None, doubts=tuple(each for each in state.doubts if each != asked))
    here, told = int(asked.id), _told(case, state)
    if choice not in {"moved", "both"}:
        return state, (wording.nothing_changed(),)
    there = tuple(check.barrel for check in told if check.barrel is not None)
    state = _without(state, tuple(check.id for check in told)) if choice == "moved" else state
    state = replace(state, barrels=(here,) if choice == "moved" else tuple(sorted({here, *there})))
    shown: tuple[Effect, ...] = ()
    labels: list[str] = []
    for check in _same_at(case, told, here):
        state, more = learning.learn(case, state, check.id, "present")
        shown, labels = (*shown, *more), [*labels, wording.said_of(check, "present")]
    return state, (wording.taken(labels), *shown)


def _same_at(case: Case, told: tuple[Check, ...], barrel: int) -> tuple[Check, ...]:
    bases = {check.base for check in told}
    return tuple(c for c in case.machine.checks if c.base in bases and c.barrel == barrel)


def _without(state: State, names: tuple[str, ...]) -> State:
    """Return the state as if these had not been told; the way to a check of theirs is left too."""
    return replace(
        state,
        answers=tuple(answer for answer in state.answers if answer.finding.check not in names),
        settled=tuple(name for name in state.settled if name not in names),
        due=tuple(name for name in state.due if name not in names),
        guarding="",
    )
