"""A number with a unit, before it counts: its unit must be known, and it must be plausible."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.effects import Option
from assistant.engine.state import Question
from graph.errors import GraphError
from graph.units import convert

if TYPE_CHECKING:
    from assistant.engine.state import State
    from assistant.facts import Fact
    from graph import Case
    from graph.machine import Quantity

# Units in which instruments at a machine show the same thing, the likeliest first.
_FAMILIES = (("psi", "bar", "kPa"), ("C", "F"), ("kg", "lb"))


@dataclass(frozen=True, slots=True)
class Judged:
    """A number that may be taken in `unit`; or a question about it; or why it cannot be."""

    unit: str = ""
    question: Question | None = None
    refusal: str = ""


def judged(case: Case, state: State, fact: Fact, *, confirmed: bool = False) -> Judged:
    """Return what to do with a reading whose `id` is a quantity of this machine."""
    quantity = case.quantity(fact.id)
    value = value_of(fact)
    if value is None or not math.isfinite(value):
        return Judged(refusal=wording.no_number(fact.value))
    unit = fact.unit or dict(state.units).get(quantity.base, "")
    if not unit and (quantity.ask_unit or not typical(quantity, value, quantity.unit)):
        return Judged(question=_which_unit(case, quantity, fact, value))
    unit = unit or quantity.unit
    try:
        convert(value, unit, quantity.unit)
    except GraphError as error:
        return Judged(refusal=wording.impossible_reading(quantity, str(error)))
    if confirmed or typical(quantity, value, unit):
        return Judged(unit)
    return Judged(question=_really(case, quantity, replace(fact, unit=unit), value))


def value_of(fact: Fact) -> float | None:
    """Return the number of a reading, the middle of its range; None where it is no number."""
    try:
        low = float(fact.value)
        return (low + float(fact.high)) / 2 if fact.high else low
    except ValueError:
        return None


def family(quantity: Quantity) -> tuple[str, ...]:
    """Return the units in which instruments may show a quantity, its own among them."""
    return next((names for names in _FAMILIES if quantity.unit in names), (quantity.unit,))


def typical(quantity: Quantity, value: float, unit: str) -> bool:
    """Return whether a number is what the quantity may well show; never for one that cannot be."""
    try:
        number = convert(value, unit, quantity.unit)
    except GraphError:
        return False
    return quantity.typical is None or quantity.typical[0] <= number <= quantity.typical[1]


def _which_unit(case: Case, quantity: Quantity, fact: Fact, value: float) -> Question:
    """Return the question in which unit a number is, the units that make it plausible first."""
    units = family(quantity)
    if len(units) == 1:
        return _really(case, quantity, replace(fact, unit=quantity.unit), value)
    likely = tuple(unit for unit in units if typical(quantity, value, unit)) or units
    return Question(
        "fact",
        quantity.id,
        (
            *(Option(unit, wording.number(value, unit)) for unit in likely),
            wording.NONE_OF_THESE,
        ),
        tuple(replace(fact, unit=unit, certain=True) for unit in likely),
        text=wording.which_unit(quantity, value),
    )


def _really(case: Case, quantity: Quantity, fact: Fact, value: float) -> Question:
    """Return the question whether an unusual number is right, or is what people read out in its place."""
    other = case.quantity(quantity.mistaken_for) if quantity.mistaken_for else None
    if other is not None and typical(other, value, fact.unit):
        return _this_or_that(quantity, other, fact, value)
    return Question(
        "fact",
        quantity.id,
        wording.YES_NO,
        (replace(fact, certain=True),),
        text=wording.really(quantity, value, fact.unit),
    )


def _this_or_that(quantity: Quantity, other: Quantity, fact: Fact, value: float) -> Question:
    """Return the question of which of two quantities an unusual number was read."""
    read = tuple(replace(fact, id=each.id, which=(), certain=True) for each in (quantity, other))
    options = tuple(
        Option(each.id, wording.sentence(wording.reading(each, value, fact.unit)))
        for each in (quantity, other)
    )
    text = wording.unusual_for(quantity, value, fact.unit)
    return Question("fact", quantity.id, (*options, wording.NONE_OF_THESE), read, text=text)
