"""Slips of the hand: "no sorry, 38" about the number just given, and a digit typed for the first answer."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking
from assistant.engine.effects import Option
from assistant.engine.state import Question
from assistant.facts import Fact

if TYPE_CHECKING:
    from assistant.engine.events import Measured
    from assistant.engine.state import State, Turn
    from graph import Case
    from graph.machine import Check

ONLY_NUMBER = "number"  # value of a `correct` that stands beside a number and nothing else
FAR_BELOW = 4.0  # a reading that many times lower than what is usual is more likely the number of an answer


def put_right(state: State, facts: tuple[Fact, ...]) -> tuple[State, tuple[Fact, ...]]:
    """Aim a number that corrects without a name at the reading just given, not at the open question.

    Where a number is open to be confirmed, the new one takes its place. A number that names nothing and
    corrects nothing is left out.
    """
    if not any(fact.kind == "correct" and fact.value == ONLY_NUMBER for fact in facts):
        return state, facts
    question = state.open
    doubted = question.facts[:1] if question is not None and question.kind == "fact" else ()
    if doubted and doubted[0].kind == "reading":
        doubts = tuple(each for each in state.doubts if each != question)
        return replace(state, open=None, doubts=doubts), _aimed(facts, doubted[0].id)
    before = state.previous.readings if state.previous is not None else ()
    given = [reading.quantity for reading in state.readings if reading not in before]
    if given:
        return state, _aimed(facts, given[-1])
    return state, tuple(fact for fact in facts if fact.kind != "reading" or fact.id)


def _aimed(facts: tuple[Fact, ...], quantity: str) -> tuple[Fact, ...]:
    return tuple(replace(f, id=quantity, which=()) if f.kind == "reading" else f for f in facts)


def mistyped(case: Case, state: State, event: Measured) -> Turn | None:
    """Ask what a bare digit means where it can hardly be the reading but numbers an answer; None if it can.

    Where a reading is welcome the answers have letters, but people type digits by habit.
    """
    question = state.open
    if question is None or question.kind not in {"check", "proof"} or not case.has_check(question.id):
        return None
    check = case.check(question.id)
    if event.unit or event.quantity or not event.value.is_integer():  # neither is what is no finite number
        return None
    order = int(event.value)
    if not 1 <= order <= len(check.outcomes) or not _far_below(check, event.value):
        return None
    outcome, unit = check.outcomes[order - 1], asking.ask(case, state, question).unit
    reading = Fact("reading", check.reading, value=f"{order}", unit=unit, words=event.text)
    answer = Fact("answer", check.id, ref=check.ref, value=outcome.id, words=event.text)
    options = (
        Option("reading", wording.number(order, unit)),
        Option("answer", wording.sentence(outcome.label)),
        wording.NONE_OF_THESE,
    )
    asked = Question("fact", check.id, options, (reading, answer), text=wording.number_or_answer(order, unit))
    return replace(state, open=None, doubts=(asked, *state.doubts)), ()


def _far_below(check: Check, value: float) -> bool:
    """Return whether a number is far below what the check usually finds."""
    if not check.reading or check.usual < 0:
        return False
    low, _ = check.outcomes[check.usual].band or (None, None)
    return low is not None and low > 0 and value * FAR_BELOW < low
