"""Laws and refusals of units; published factors stand in tests/outside/test_physics_nist_units.py."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from graph.errors import OutOfRange, UnitUnknown
from graph.units import (
    STANDARD_ATMOSPHERE_PSI,
    UNITS,
    absolute_to_gauge,
    canonical,
    canonical_unit,
    convert,
    find_unit,
    gauge_to_absolute,
)

SAME_QUANTITY = [(a.name, b.name) for a in UNITS for b in UNITS if a.quantity == b.quantity]
OTHER_QUANTITY = [
    (a.name, b.name)
    for a in UNITS
    for b in UNITS
    if a.quantity != b.quantity
    and not {s.casefold() for s in a.spellings} & {s.casefold() for s in b.spellings}
]


@settings(deadline=None)
@given(st.sampled_from(SAME_QUANTITY), st.floats(0, 1e6))
def test_there_and_back_is_the_same_number(pair, value):
    unit, other = pair
    start = value if find_unit(unit).quantity != "temperature" else value / 1e3 + 300.0
    back = convert(convert(start, unit, other), other, unit)

    assert back == pytest.approx(start, rel=1e-12, abs=1e-9)


@settings(deadline=None)
@given(st.sampled_from([unit.name for unit in UNITS]), st.floats(0, 1e9))
def test_a_unit_into_itself_changes_no_bit(unit, value):
    assert convert(value, unit, unit) == value


@settings(deadline=None)
@given(st.sampled_from(OTHER_QUANTITY), st.floats(1, 500))
def test_two_quantities_are_never_mixed(pair, value):
    with pytest.raises(UnitUnknown, match="measures"):
        convert(value, *pair)


@pytest.mark.parametrize(("gauge", "absolute"), [("psi", "psia"), ("bar", "bara"), ("kPa", "kPa abs")])
def test_gauge_and_absolute_are_never_mixed(gauge, absolute):
    with pytest.raises(UnitUnknown, match="needs the pressure of the atmosphere"):
        convert(50, gauge, absolute)
    with pytest.raises(UnitUnknown, match="needs the pressure of the atmosphere"):
        convert(50, absolute, gauge)


@settings(deadline=None)
@given(st.floats(-14, 1e4), st.floats(8, 16))
def test_gauge_is_absolute_less_the_atmosphere(gauge, atmosphere):
    absolute = gauge_to_absolute(gauge, atmosphere) if gauge + atmosphere >= 0 else None

    if absolute is not None:
        assert absolute == pytest.approx(gauge + atmosphere)
        assert absolute_to_gauge(absolute, atmosphere) == pytest.approx(gauge, abs=1e-9)


def test_the_atmosphere_is_the_standard_one_unless_told():
    assert gauge_to_absolute(0.0) == STANDARD_ATMOSPHERE_PSI
    assert absolute_to_gauge(0.0) == -STANDARD_ATMOSPHERE_PSI


@pytest.mark.parametrize(
    ("spelled", "name"),
    [
        ("psi", "psi"),
        ("PSI", "psi"),
        ("p.s.i.", "psi"),
        ("pounds", "psi"),
        (" Bar ", "bar"),
        ("barg", "bar"),
        ("kPa", "kPa"),
        ("KPA", "kPa"),
        ("kilopascal", "kPa"),
        ("inHg", "inHg"),
        ("ft H2O", "ftH2O"),
        ("bar abs", "bara"),
        ("°C", "C"),
        ("degrees Fahrenheit", "F"),
        ("Kilos", "kg"),
        ("lbs", "lb"),
        ("volts", "V"),
        ("mV", "mV"),
        ("milliamps", "mA"),
        ("Ω", "ohm"),
        ("kΩ", "kohm"),
        ("MΩ", "megohm"),
        ("Mohm", "megohm"),
        ("feet", "ft"),
        ("m³", "m3"),
        ("litres", "L"),
        ("°Bx", "Brix"),
        ("per cent", "%"),
        ("mins", "min"),
        ("", ""),
    ],
)
def test_a_unit_is_found_however_it_is_spelled(spelled, name):
    assert find_unit(spelled).name == name


def test_pounds_are_a_weight_where_a_weight_is_wanted():
    assert convert(20, "pounds", "kg") == pytest.approx(9.07184740)
    assert convert(20, "pounds", "psi") == 20


@pytest.mark.parametrize("spelled", ["mohm", "furlong", "psii", "-", "°"])
def test_an_unknown_unit_is_refused_in_one_sentence(spelled):
    with pytest.raises(UnitUnknown) as caught:
        find_unit(spelled)

    assert str(caught.value).startswith(f'"{spelled}" is no unit that we know; ')
    assert "\n" not in str(caught.value)


def test_a_near_miss_is_answered_with_what_was_meant():
    with pytest.raises(UnitUnknown, match='did you mean "kPa"'):
        find_unit("kpaz")


@pytest.mark.parametrize(
    ("unit", "home"),
    [
        ("bar", "psi"),
        ("bara", "psia"),
        ("F", "C"),
        ("lb", "kg"),
        ("mV", "V"),
        ("A", "mA"),
        ("kohm", "ohm"),
        ("ft", "m"),
        ("m3", "L"),
        ("Bx", "Brix"),
        ("ppm", "%"),
        ("h", "min"),
        ("g/L", "g/L"),
        ("times", ""),
    ],
)
def test_every_quantity_is_kept_in_one_unit(unit, home):
    assert canonical_unit(unit) == home
    assert canonical(1.0, unit) == (convert(1.0, unit, home), home)


def test_every_spelling_leads_to_its_own_unit():
    for unit in UNITS:
        for spelling in (unit.name, *unit.spellings):
            assert find_unit(spelling, unit.quantity) is unit


@pytest.mark.parametrize(
    ("value", "unit", "to"), [(-300, "C", "F"), (-1, "K", "C"), (-500, "F", "C"), (-0.1, "psia", "bara")]
)
def test_nothing_is_below_absolute_zero(value, unit, to):
    with pytest.raises(OutOfRange, match="below absolute zero"):
        convert(value, unit, to)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_reading_is_a_finite_number(value):
    with pytest.raises(OutOfRange, match="finite number"):
        convert(value, "psi", "bar")


def test_a_gauge_never_reads_below_a_full_vacuum():
    with pytest.raises(OutOfRange, match="full vacuum"):
        gauge_to_absolute(-15.0)
    with pytest.raises(OutOfRange, match="full vacuum"):
        absolute_to_gauge(-1.0)


@pytest.mark.parametrize("atmosphere", [0.0, -14.7, math.nan, math.inf])
def test_an_atmosphere_is_above_zero(atmosphere):
    with pytest.raises(OutOfRange, match="impossible"):
        gauge_to_absolute(10.0, atmosphere)
    with pytest.raises(OutOfRange, match="impossible"):
        absolute_to_gauge(10.0, atmosphere)
