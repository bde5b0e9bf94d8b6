"""Slips of the hand: "no sorry, 38" about the number just given, and a digit typed for the first answer."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking, readings
from assistant.engine.effects import Option
from assistant.engine.state import Question
from assistant.facts import Fact
from graph.errors import GraphError
from graph.units import convert

if TYPE_CHECKING:
    from assistant.engine.events import Measured
    from assistant.engine.state import State, Turn
    from graph import Case
    from graph.machine import Quantity

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
    """Ask what a bare number means that can hardly be the reading asked for; None if it can.

    Where a reading is welcome the answers have letters, but people type digits by habit. In a check only a
    digit that numbers an answer is doubted, since a low reading may be what is wrong; what is read during or
    after a repair decides about it, so there every number far off is.
    """
    question, wanted = state.open, asking.quantity_wanted(case, state)
    if question is None or not wanted or event.unit or event.quantity or not math.isfinite(event.value):
        return None
    quantity, unit = case.quantity(wanted), asking.ask(case, state, question).unit
    if quantity.ask_unit and quantity.base not in dict(state.units):
        return None  # its unit is asked for anyway
    low = (asking.expected(case, state) or (None, None))[0]
    if low is None or not _far_below(quantity, event.value, unit, low):
        return None
    reading = Fact("reading", wanted, value=repr(event.value), unit=unit, words=event.text)
    asked = _number_or_answer(case, question, event.value, reading)
    if asked is None and question.kind == "check":
        return None
    asked = asked or _really(case, state, event.value, reading)
    return replace(state, open=None, doubts=(asked, *state.doubts)), ()


def _far_below(quantity: Quantity, value: float, unit: str, low: float) -> bool:
    """Return whether a number is far below what is usual, `low` being the lowest of that."""
    try:
        return low > 0 and convert(value, unit, quantity.unit) * FAR_BELOW < low
    except GraphError:
        return False


def _number_or_answer(case: Case, question: Question, value: float, reading: Fact) -> Question | None:
    """Return the question whether a digit is the reading, or the number of an answer; None if it is none."""
    check = case.check(question.id) if case.has_check(question.id) else None
    if check is None or not value.is_integer() or not 1 <= value <= len(check.outcomes):
        return None
    order = int(value)
    outcome = check.outcomes[order - 1]
    answer = Fact("answer", check.id, ref=check.ref, value=outcome.id, words=reading.words)
    options = (
        Option("reading", wording.number(value, reading.unit)),
        Option("answer", wording.sentence(outcome.label)),
        wording.NONE_OF_THESE,
    )
    text = wording.number_or_answer(order, reading.unit)
    return Question("fact", check.id, options, (reading, answer), text=text)


def _really(case: Case, state: State, value: float, reading: Fact) -> Question:
    """Return the question whether a number read of work is right, or stands in a unit that makes it so."""
    quantity, limits = case.quantity(reading.id), asking.expected(case, state)
    low = (limits or (None, None))[0] or 0.0
    text = wording.really(quantity, value, reading.unit, limits)
    others = tuple(u for u in readings.family(quantity) if not _far_off(quantity, value, u, low))
    if not others:
        return Question("fact", quantity.id, wording.YES_NO, (reading,), text=text)
    facts = tuple(replace(reading, unit=unit) for unit in (reading.unit, *others))
    options = (
        *(Option(fact.unit, wording.number(value, fact.unit)) for fact in facts),
        wording.NONE_OF_THESE,
    )
    return Question("fact", quantity.id, options, facts, text=text)


def _far_off(quantity: Quantity, value: float, unit: str, low: float) -> bool:
    return _far_below(quantity, value, unit, low) or not readings.typical(quantity, value, unit)
