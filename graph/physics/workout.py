"""The shape of a calculation that a person can ask for: what it needs, and what it answers.

The rule this file keeps: every `solve` built here has had its numbers checked against the ranges
where the formula holds, so a formula never answers outside them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from graph.errors import OutOfRange
from graph.units import convert

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True)
class Quantity:
    """One number that a calculation needs, in a canonical unit; without a default it must be given."""

    name: str
    label: str
    unit: str
    low: float
    high: float
    default: float | None = None


@dataclass(frozen=True, slots=True)
class Result:
    """The reasoning line by line, the value it ends in, and a short verdict on it."""

    lines: tuple[str, ...]
    value: float
    unit: str
    verdict: str


@dataclass(frozen=True, slots=True)
class WorkOut:
    """A calculation by name: `solve(**values)` takes the quantities of `asks` in their own units.

    `solve` fills in defaults and raises OutOfRange, in one sentence, for a number that is missing,
    unknown, not finite or outside its range.
    """

    name: str
    title: str
    asks: tuple[Quantity, ...]
    solve: Callable[..., Result]


def work_out(name: str, title: str, asks: tuple[Quantity, ...], solve: Callable[..., Result]) -> WorkOut:
    """Return a calculation whose `solve` sees only complete numbers within the ranges of `asks`."""

    def checked(**given: float) -> Result:
        unknown = sorted(given.keys() - {ask.name for ask in asks})
        if unknown:
            wanted = ", ".join(ask.name for ask in asks)
            raise OutOfRange(f'"{title}" knows no "{unknown[0]}"; it takes {wanted}.')
        return solve(**{ask.name: _checked(title, ask, given.get(ask.name, ask.default)) for ask in asks})

    return WorkOut(name, title, asks, checked)


def _checked(title: str, ask: Quantity, value: float | None) -> float:
    """Return the value when it can be used, or raise OutOfRange saying what to give instead."""
    span = f"{shown(ask.low)} to {shown(ask.high)} {ask.unit}".rstrip()
    if value is None:
        raise OutOfRange(f'"{title}" needs the {ask.label}: give a number from {span}.')
    if not (math.isfinite(value) and ask.low <= value <= ask.high):
        raise OutOfRange(f"The {ask.label} of {shown(value)} {ask.unit} cannot be used: give {span}.")
    return float(value)


def shown(value: float, digits: int = 4) -> str:
    """Return a number in plain digits, rounded to so many significant ones, without trailing zeros."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def shown_pressure(psi: float) -> str:
    """Return a gauge pressure in psi with its bar beside it, as both are read at machines."""
    return f"{psi:.1f} psi ({convert(psi, 'psi', 'bar'):.2f} bar)"
