"""Every conversion against pint, an independent library of units with its own definitions."""

import pint
import pytest

from graph.units import UNITS, convert, find_unit

PINT = pint.UnitRegistry()

# our name -> pint's; units that differ only in gauge or absolute share one
NAMES = {
    "psi": "psi", "bar": "bar", "mbar": "mbar", "Pa": "Pa", "kPa": "kPa", "MPa": "MPa", "inHg": "inHg",
    "mmHg": "mmHg", "inH2O": "inH2O", "ftH2O": "ftH2O", "mH2O": "meter_H2O", "kgf/cm2": "kgf/cm**2", "atm": "atm",
    "psia": "psi", "bara": "bar", "mbara": "mbar", "pa abs": "Pa", "kpaa": "kPa", "mpaa": "MPa",
    "inhg abs": "inHg", "mmhg abs": "mmHg", "atm abs": "atm",
    "C": "degC", "F": "degF", "K": "kelvin",
    "kg": "kg", "g": "g", "lb": "lb", "oz": "oz",
    "V": "V", "mV": "mV", "mA": "mA", "A": "A", "ohm": "ohm", "kohm": "kohm", "megohm": "megaohm",
    "m": "m", "cm": "cm", "mm": "mm", "ft": "ft", "in": "inch",
    "L": "L", "mL": "mL", "m3": "m**3", "ft3": "ft**3", "gal": "gallon", "imperial gal": "imperial_gallon",
    "%": "percent", "ppm": "ppm", "min": "min", "s": "s", "h": "hour", "d": "day", "g/L": "g/L",
    "mg/L": "mg/L",
}  # fmt: skip
OURS_ALONE = {"Brix", ""}  # pint knows no Brix, and a plain number has no unit
PAIRS = [(a, b) for a in NAMES for b in NAMES if find_unit(a).quantity == find_unit(b).quantity]


def test_pint_is_asked_about_every_unit_it_can_know():
    assert {unit.name for unit in UNITS} == NAMES.keys() | OURS_ALONE


@pytest.mark.parametrize(("source", "target"), PAIRS)
def test_each_conversion_is_what_pint_says(source, target):
    for value in (0.003, 1.0, 77.7, 54321.0):
        told = PINT.Quantity(value, NAMES[source]).to(NAMES[target]).magnitude
        assert convert(value, source, target) == pytest.approx(told, rel=1e-6, abs=1e-9)
