"""Calculations as people ask for them: `name=value unit` in, lines of reasoning out.

The mathematics stands in `graph.physics`; here are only names, units and what is still to be asked.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from difflib import get_close_matches
from typing import TYPE_CHECKING

from assistant.errors import WrongUse
from graph.errors import OutOfRange, UnitUnknown
from graph.physics import WORKOUTS
from graph.physics.workout import shown
from graph.units import convert, find_unit

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from graph.physics import Quantity, Result, WorkOut

_NUMBER = re.compile(r"\s*([-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?)\s*(.*?)\s*", re.DOTALL)
_FIGURE = re.compile(r"(?<![\w.])[-+]?\d+(?:[.,]\d+)?")
_SMALL = frozenset(
    {"a", "at", "between", "if", "in", "is", "it", "its", "not", "of", "on", "one", "the", "to"}
)
_THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}(?!\d))")


def find_work_out(name: str) -> WorkOut:
    """Return the calculation of that name; raise WrongUse naming the nearest, or all there are."""
    wanted = name.replace("-", "_").casefold()
    if wanted in WORKOUTS:
        return WORKOUTS[wanted]
    near = get_close_matches(wanted, WORKOUTS, n=1)
    hint = f"Did you mean {near[0]}?" if near else f"There are {', '.join(WORKOUTS)}."
    raise WrongUse(f'There is no calculation "{name}". {hint}')


def value_of(ask: Quantity, text: str) -> float:
    """Return what was typed for a quantity, in its own unit; a bare number is taken in that unit.

    Raises WrongUse in one sentence for what is no number or has a unit that does not fit.
    """
    matched = _NUMBER.fullmatch(_THOUSANDS.sub("", text))
    if matched is None:
        raise WrongUse(f'"{text}" is no number for the {ask.label}; write for example "{_example(ask)}".')
    value = _converted(ask, float(matched[1]), matched[2])
    if not ask.low <= value <= ask.high:
        span = f"{shown(ask.low)} to {shown(ask.high)} {ask.unit}".rstrip()
        raise WrongUse(f"The {ask.label} of {shown(value)} {ask.unit} cannot be used: give {span}.")
    return value


def _converted(ask: Quantity, number: float, unit: str) -> float:
    """Return a number in the quantity's own unit; where that is an absolute pressure, so is the number."""
    if not unit:
        return number
    try:
        absolute = find_unit(ask.unit).quantity == find_unit(f"{unit} abs").quantity == "absolute pressure"
    except UnitUnknown:
        absolute = False
    try:
        return convert(number, f"{unit} abs" if absolute else unit, ask.unit)
    except (UnitUnknown, OutOfRange) as error:
        raise WrongUse(f"The {ask.label} cannot be read: {error}") from error


def _example(ask: Quantity) -> str:
    middle = (ask.low + ask.high) / 2 if ask.default is None else ask.default
    return f"{shown(middle, 2)} {ask.unit}".rstrip()


def given(work: WorkOut, pairs: Iterable[str]) -> dict[str, float]:
    """Return the values in `name=value` pairs; raise WrongUse for a pair that cannot be used."""
    asks = {ask.name: ask for ask in work.asks}
    values: dict[str, float] = {}
    for pair in pairs:
        name, sign, text = pair.partition("=")
        name = name.strip().replace("-", "_").casefold()
        if not sign:
            raise WrongUse(f'"{pair}" is not NAME=VALUE; {work.name} takes {", ".join(asks)}.')
        if name not in asks:
            near = get_close_matches(name, asks, n=1)
            hint = f"did you mean {near[0]}?" if near else f"it takes {', '.join(asks)}."
            raise WrongUse(f'{work.name} knows no "{name}"; {hint}')
        if name in values:
            raise WrongUse(f"{name} is given twice; keep one of the two.")
        values[name] = value_of(asks[name], text)
    return values


def told(work: WorkOut, text: str) -> dict[str, float] | None:
    """Return the values that a line of words gives: "22 kg, tare 12, full 10"; None unless all fit.

    A number belongs to the quantity that the words before it name, else to the only one that its unit
    fits, else, where all that must be given are of one unit, to the next of them.
    """
    values: dict[str, float] = {}
    for before, number, after in _numbers(text):
        unit = _unit_of(after)
        ask = _named(work, before) or _next(work, values, unit)
        if ask is None or ask.name in values:
            return None
        fits = unit if _fits(unit, ask) else ""
        try:
            values[ask.name] = value_of(ask, f"{number} {fits}")
        except WrongUse:
            return None
    return values if values and not missing(work, values) else None


def _numbers(text: str) -> Iterable[tuple[str, str, str]]:
    """Return every number of a line with the words before it, back to the last number, and after it."""
    found = list(_FIGURE.finditer(text))
    ends = [0, *(each.end() for each in found)]
    starts = [*(each.start() for each in found[1:]), len(text)]
    for each, end, start in zip(found, ends, starts, strict=False):
        yield text[end : each.start()], each[0].replace(",", "."), text[each.end() : start]


def _unit_of(after: str) -> str:
    """Return the unit that follows a number; empty where what follows is none."""
    spelled = re.match(r"\s*([^\W\d]+|%|°\s*[CF])", after)
    if spelled is None:
        return ""
    try:
        return find_unit(spelled[1]).name
    except UnitUnknown:
        return ""


def _fits(unit: str, ask: Quantity) -> bool:
    try:
        return bool(unit) and math.isfinite(convert(max(ask.low, 1.0), unit, ask.unit))
    except (UnitUnknown, OutOfRange):
        return False


def _named(work: WorkOut, before: str) -> Quantity | None:
    """Return the quantity that the words before a number name, by its name first, then by its label."""
    words = set(re.findall(r"[a-z_]+", before.casefold()))
    by_name = [ask for ask in work.asks if ask.name in words]
    if by_name:
        return by_name[-1]
    labels = {ask.name: set(re.findall(r"[a-z]{2,}", ask.label.casefold())) for ask in work.asks}
    seen = Counter(word for label in labels.values() for word in label)
    own = [
        ask for ask in work.asks if words & {word for word in labels[ask.name] if seen[word] == 1} - _SMALL
    ]
    return own[0] if len(own) == 1 else None


def _next(work: WorkOut, values: Mapping[str, float], unit: str) -> Quantity | None:
    """Return the quantity that a number without a name is for."""
    left = missing(work, values)
    if unit:
        fitting = [ask for ask in left if _fits(unit, ask)]
        others = [ask for ask in work.asks if ask.name not in values and _fits(unit, ask)]
        return next(iter(fitting or others), None)
    return left[0] if len({ask.unit for ask in left}) == 1 else None


def missing(work: WorkOut, values: Mapping[str, float]) -> tuple[Quantity, ...]:
    """Return the quantities that must still be given."""
    return tuple(ask for ask in work.asks if ask.default is None and ask.name not in values)


def missing_sentence(work: WorkOut, asks: tuple[Quantity, ...]) -> str:
    """Return which values are still needed, and how to give them."""
    needed = ", ".join(f"{ask.name} ({ask.label}{f' in {ask.unit}' if ask.unit else ''})" for ask in asks)
    return f'{work.name} still needs {needed}; add for example {asks[0].name}="{_example(asks[0])}".'


def question(ask: Quantity) -> str:
    """Return the question for one quantity at a terminal."""
    unit = f" in {ask.unit}, or name another unit" if ask.unit else ""
    return f"{ask.label[:1].upper()}{ask.label[1:]}{unit}"


def listing(works: Iterable[WorkOut]) -> str:
    """Return all calculations with what each takes."""
    lines: list[str] = []
    for work in works:
        lines.append(f"{work.name}: {work.title}")
        lines += [f"    {_quantity(ask)}" for ask in work.asks]
    return "\n".join(lines)


def _quantity(ask: Quantity) -> str:
    span = f"{shown(ask.low)} to {shown(ask.high)} {ask.unit}".rstrip()
    usual = "" if ask.default is None else f", else {shown(ask.default)}"
    return f"{ask.name}: {ask.label}, {span}{usual}"


def result_lines(work: WorkOut, values: Mapping[str, float], result: Result) -> tuple[str, ...]:
    """Return a result as lines: what was taken, the reasoning, the verdict."""
    taken = ", ".join(f"{ask.name} {_taken(ask, values)}" for ask in work.asks)
    return f"{work.title}: {taken}", *result.lines, f"So: {result.verdict}"


def _taken(ask: Quantity, values: Mapping[str, float]) -> str:
    value = values.get(ask.name, ask.default)
    number = "" if value is None else shown(value)
    return f"{number} {ask.unit}".strip() + ("" if ask.name in values else " (default)")


def result_data(work: WorkOut, values: Mapping[str, float], result: Result) -> dict[str, object]:
    """Return a result as JSON data; `inputs` holds every quantity in its own unit, defaults included."""
    return {
        "work_out": work.name,
        "title": work.title,
        "inputs": {
            ask.name: {"value": values.get(ask.name, ask.default), "unit": ask.unit} for ask in work.asks
        },
        "lines": list(result.lines),
        "value": result.value,
        "unit": result.unit,
        "verdict": result.verdict,
    }
