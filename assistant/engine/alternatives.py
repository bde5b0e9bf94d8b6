"""A step at which one of several things may be read: which of them a line names, with its number.

The rule: such a line is the reading and nothing else. What is to be read may be called like a complaint
(the chlorine of a sanitiser, the taste of chlorine), and a step is no place to complain.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.engine import asking, replies, taking
from assistant.facts import Fact
from graph.errors import GraphError
from graph.units import convert

if TYPE_CHECKING:
    from assistant.engine.state import State, Turn
    from graph import Case
    from graph.machine import Quantity

_NUMBER = re.compile(r"(?<![\w.,])(\d{1,6}(?:[.,]\d{1,4})?)\s*(ppm|mg/l|%|percent\b)?", re.IGNORECASE)

_UNITS = {"ppm": "mg/L", "mg/l": "mg/L", "percent": "%"}  # as they are meant of something in water


def told(case: Case, state: State, text: str) -> Turn | None:
    """Take a line with one number for one of the things that the open step asks for; None for others."""
    wanted = asking.one_wanted(case, state)
    numbers = _NUMBER.findall(text)
    if len(wanted) < 2 or len(numbers) != 1:  # noqa: PLR2004 - one thing is no choice
        return None
    value, spelled = numbers[0][0].replace(",", "."), numbers[0][1].casefold()
    unit = _UNITS.get(spelled, spelled)
    named = [name for name in wanted if _names(case.quantity(name), text)]
    fits = [name for name in named or wanted if _fits(case.quantity(name), float(value), unit)]
    if len(fits) != 1:
        fact = Fact("reading", "", value=value, unit=unit, words=text)
        return taking.one_of(case, state, fact, tuple(fits or wanted)), ()
    fact = Fact("reading", fits[0], value=value, unit=unit, words=text)
    after, shown = taking.take_facts(case, state, (fact,))
    return replies.asked_anew(state, after), shown


def _names(quantity: Quantity, text: str) -> bool:
    """Return whether a line calls a quantity by one of its names."""
    return any(re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE) for name in quantity.say)


def _fits(quantity: Quantity, value: float, unit: str) -> bool:
    """Return whether a number with a unit, or without one, may be read of a quantity."""
    try:
        convert(value, unit or quantity.unit, quantity.unit)
    except GraphError:
        return False
    return True
