"""Units of everything that is read at a machine, and what one unit is in another.

The rule this file keeps: a pressure above the atmosphere (gauge) and a pressure above vacuum
(absolute) are two different quantities. `convert` never turns one into the other; only
`gauge_to_absolute` and `absolute_to_gauge` do, because they are told what the atmosphere was.

Factors are the exact definitions and conventional values of NIST Special Publication 811 (2008),
Appendix B.8.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType

from graph.errors import OutOfRange, UnitUnknown

PSI_IN_PASCAL = 0.45359237 * 9.80665 / 0.0254**2
STANDARD_ATMOSPHERE_PSI = 101325 / PSI_IN_PASCAL
_HEAD_IN_PASCAL = 9806.65  # one metre of water of 1000 kg/m3, the conventional one
_MERCURY_IN_PASCAL = 133322.387415  # one metre of mercury of 13595.1 kg/m3


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: `canonical value = value * factor + offset`; how people spell it."""

    name: str
    quantity: str
    factor: float
    spellings: tuple[str, ...]
    offset: float = 0.0


# name, pascals, spellings of the gauge unit, spellings of the absolute one
_PRESSURES: tuple[tuple[str, float, tuple[str, ...], tuple[str, ...]], ...] = (
    (
        "psi",
        PSI_IN_PASCAL,
        ("psig", "pounds", "pound", "pounds per square inch", "lb/in2", "lbs/in2", "psi gauge"),
        ("psia", "psi abs", "psi absolute"),
    ),
    ("bar", 1e5, ("bars", "barg", "bar g", "bar gauge"), ("bara", "bar a", "bar abs", "bar absolute")),
    ("mbar", 100.0, ("millibar", "millibars", "hpa"), ("mbara", "mbar abs", "mbar absolute")),
    ("Pa", 1.0, ("pascal", "pascals"), ("pa abs", "pa absolute")),
    (
        "kPa",
        1e3,
        ("kilopascal", "kilopascals", "kpag", "kpa gauge"),
        ("kpaa", "kpa abs", "kpa absolute"),
    ),
    ("MPa", 1e6, ("megapascal", "megapascals", "mpag"), ("mpaa", "mpa abs", "mpa absolute")),
    ("inHg", 0.0254 * _MERCURY_IN_PASCAL, ("in hg", "inches of mercury"), ("inhg abs", "inhga")),
    ("mmHg", 0.001 * _MERCURY_IN_PASCAL, ("mm hg", "millimetres of mercury"), ("mmhg abs",)),
    ("inH2O", 0.0254 * _HEAD_IN_PASCAL, ("in h2o", "inches of water", "inwc"), ()),
    ("ftH2O", 0.3048 * _HEAD_IN_PASCAL, ("ft h2o", "feet of water", "feet of head"), ()),
    ("mH2O", _HEAD_IN_PASCAL, ("m h2o", "metres of water", "meters of water", "metres of head"), ()),
    ("kgf/cm2", 98066.5, ("kg/cm2", "kilograms per square centimetre"), ()),
    ("atm", 101325.0, ("atmosphere", "atmospheres"), ("atm abs", "atma")),
)


def _pressures() -> tuple[Unit, ...]:
    """Return the gauge units and, under names of their own, the absolute ones."""
    gauge = tuple(
        Unit(name, "gauge pressure", pascal / PSI_IN_PASCAL, spelled)
        for name, pascal, spelled, _ in _PRESSURES
    )
    absolute = tuple(
        Unit(spelled[0], "absolute pressure", pascal / PSI_IN_PASCAL, spelled[1:])
        for _, pascal, _, spelled in _PRESSURES
        if spelled
    )
    return gauge + absolute


UNITS: tuple[Unit, ...] = (
    *_pressures(),
    Unit("C", "temperature", 1.0, ("degC", "deg c", "celsius", "degrees c", "degrees celsius", "centigrade")),
    Unit(
        "F",
        "temperature",
        5 / 9,
        ("degF", "deg f", "fahrenheit", "degrees f", "degrees fahrenheit"),
        -160 / 9,
    ),
    Unit("K", "temperature", 1.0, ("kelvin", "kelvins"), -273.15),
    Unit("kg", "mass", 1.0, ("kilo", "kilos", "kilogram", "kilograms", "kgs")),
    Unit("g", "mass", 1e-3, ("gram", "grams", "gramme", "grammes")),
    Unit("lb", "mass", 0.45359237, ("lbs", "pounds", "pound", "pounds weight", "pound weight")),
    Unit("oz", "mass", 0.45359237 / 16, ("ounce", "ounces")),
    Unit("V", "voltage", 1.0, ("volt", "volts", "vdc", "v dc", "vac", "v ac")),
    Unit("mV", "voltage", 1e-3, ("millivolt", "millivolts")),
    Unit("mA", "current", 1.0, ("milliamp", "milliamps", "milliampere", "milliamperes")),
    Unit("A", "current", 1e3, ("amp", "amps", "ampere", "amperes")),
    Unit("ohm", "resistance", 1.0, ("ohms", "Ω")),
    Unit("kohm", "resistance", 1e3, ("kiloohm", "kilohm", "kilohms", "kohms", "kΩ")),
    Unit("megohm", "resistance", 1e6, ("megohms", "megaohm", "megaohms")),
    Unit("m", "length", 1.0, ("metre", "metres", "meter", "meters")),
    Unit("cm", "length", 0.01, ("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("mm", "length", 0.001, ("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("ft", "length", 0.3048, ("foot", "feet")),
    Unit("in", "length", 0.0254, ("inch", "inches")),
    Unit("L", "volume", 1.0, ("litre", "litres", "liter", "liters")),
    Unit("mL", "volume", 1e-3, ("millilitre", "millilitres", "milliliter", "milliliters", "cc", "cm3")),
    Unit("m3", "volume", 1e3, ("m³", "cubic metre", "cubic metres", "cubic meter", "cubic meters")),
    Unit("ft3", "volume", 28.316846592, ("ft³", "cubic foot", "cubic feet", "cu ft")),
    Unit("gal", "volume", 3.785411784, ("gallon", "gallons", "us gallon", "us gallons", "us gal")),
    Unit(
        "imperial gal", "volume", 4.54609, ("imperial gallon", "imperial gallons", "uk gallon", "uk gallons")
    ),
    Unit("Brix", "sugar content", 1.0, ("bx", "degBx", "degBrix", "degrees brix", "deg brix")),
    Unit("%", "share", 1.0, ("percent", "per cent", "pct")),
    Unit("ppm", "share", 1e-4, ("parts per million",)),
    # Of something in water, where a strip's "ppm" are milligrams a litre.
    Unit("mg/L", "concentration", 1.0, ("ppm", "parts per million", "milligrams per litre", "mg per litre")),
    Unit("min", "time", 1.0, ("mins", "minute", "minutes")),
    Unit("s", "time", 1 / 60, ("sec", "secs", "second", "seconds")),
    Unit("h", "time", 60.0, ("hr", "hrs", "hour", "hours")),
    Unit("d", "time", 1440.0, ("day", "days")),
    Unit(
        "g/L", "use per volume", 1.0, ("g per litre", "grams per litre", "grams per liter", "grams a litre")
    ),
    Unit("", "plain number", 1.0, ("times", "to one", "to 1", "strokes", "count")),
)

# Capital and small M differ by nine powers of ten here, so these two are read letter by letter.
_CASE_MATTERS = MappingProxyType({"MΩ": "megohm", "Mohm": "megohm"})


def _plain(text: str) -> str:
    """Return a spelling without case, degree sign, full stops and doubled spaces."""
    words = text.replace("°", "deg").replace("º", "deg").replace(".", "").casefold().split()
    return " ".join(words)


def _by_spelling() -> MappingProxyType[str, tuple[Unit, ...]]:
    """Return the units that each spelling may mean, the likeliest first."""
    found: dict[str, tuple[Unit, ...]] = {}
    for unit in UNITS:
        for spelling in (unit.name, *unit.spellings):
            found[_plain(spelling)] = (*found.get(_plain(spelling), ()), unit)
    return MappingProxyType(found)


_BY_SPELLING = _by_spelling()
_CANONICAL = MappingProxyType(
    {unit.quantity: unit for unit in reversed(UNITS) if unit.factor == 1.0 and not unit.offset}
)


def find_unit(text: str, quantity: str = "") -> Unit:
    """Return the unit that a spelling means ("PSI", "kilopascal", "°C"), or raise UnitUnknown.

    A bare pressure unit means gauge, as on every dial at a machine; "psia", "bar abs" and the like
    mean absolute. "gal" is the US gallon. "pounds" are psi, unless `quantity` says "mass".
    """
    spelled = _CASE_MATTERS.get(text.strip()) or _plain(text)
    units = _BY_SPELLING.get(spelled)
    if units is not None:
        return next((unit for unit in units if unit.quantity == quantity), units[0])
    near = get_close_matches(spelled, _BY_SPELLING, n=1, cutoff=0.75)
    hint = (
        f'did you mean "{_BY_SPELLING[near[0]][0].name}"?'
        if near
        else "give psi, bar, C, F, kg, lb, V or the like."
    )
    raise UnitUnknown(f'"{text}" is no unit that we know; {hint}')


def canonical_unit(unit: str) -> str:
    """Return the unit in which we keep whatever `unit` measures: psi (gauge), C, kg, V and so on."""
    return _CANONICAL[find_unit(unit).quantity].name


def canonical(value: float, unit: str) -> tuple[float, str]:
    """Return a value in the unit in which we keep its quantity, and that unit."""
    home = canonical_unit(unit)
    return convert(value, unit, home), home


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Return a value in another unit of the same quantity.

    Raises UnitUnknown when either unit is unknown or the two measure different things (gauge and
    absolute pressure do), OutOfRange when the value is no finite number or lies below absolute zero.
    """
    target = find_unit(to_unit)
    source = find_unit(from_unit, target.quantity)
    if source.quantity != target.quantity:
        raise UnitUnknown(_mismatch(source, target))
    kept = value * source.factor + source.offset
    _possible(value, kept, source)
    if source is target:
        return value  # to the last bit, whatever the factor
    return (kept - target.offset) / target.factor


def _mismatch(source: Unit, target: Unit) -> str:
    """Return why one unit cannot be turned into another, with what to do."""
    said = (
        f'"{source.name or "no unit"}" measures {source.quantity}, '
        f'"{target.name or "no unit"}" measures {target.quantity}'
    )
    if {source.quantity, target.quantity} == {"gauge pressure", "absolute pressure"}:
        return f"{said}: turning one into the other needs the pressure of the atmosphere."
    return f"{said}: give the value in a unit of {target.quantity}."


def _possible(value: float, kept: float, unit: Unit) -> None:
    """Raise OutOfRange for a number that no instrument can mean."""
    if not math.isfinite(value):
        raise OutOfRange(f'{value} is no reading in "{unit.name}": give a finite number.')
    lowest = {"temperature": -273.15, "absolute pressure": 0.0}.get(unit.quantity)
    if lowest is not None and kept < lowest - 1e-9:
        raise OutOfRange(f"{value:g} {unit.name} lies below absolute zero: check the sign and the unit.")


def gauge_to_absolute(gauge_psi: float, atmospheric_psi: float = STANDARD_ATMOSPHERE_PSI) -> float:
    """Return the absolute pressure in psia of a gauge pressure in psi under a given atmosphere.

    Raises OutOfRange below a full vacuum, or for an atmosphere that is not above zero.
    """
    absolute = gauge_psi + _atmosphere(atmospheric_psi)
    if not absolute >= 0:
        raise OutOfRange(f"{gauge_psi:g} psi gauge lies below a full vacuum: check the sign and the unit.")
    return absolute


def absolute_to_gauge(absolute_psi: float, atmospheric_psi: float = STANDARD_ATMOSPHERE_PSI) -> float:
    """Return the gauge pressure in psi of an absolute pressure in psia under a given atmosphere."""
    if not absolute_psi >= 0:
        raise OutOfRange(
            f"{absolute_psi:g} psi absolute lies below a full vacuum: it may be a gauge pressure."
        )
    return absolute_psi - _atmosphere(atmospheric_psi)


def _atmosphere(psi: float) -> float:
    """Return an atmospheric pressure that can be one, or raise OutOfRange."""
    if not (psi > 0 and math.isfinite(psi)):
        raise OutOfRange(f"An atmosphere of {psi:g} psi is impossible: it is about 14.7 psi at sea level.")
    return psi
