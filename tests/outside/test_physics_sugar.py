"""Sugar in water, against the CRC Handbook, ice-cream science and freezing theory."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from graph.errors import OutOfRange
from graph.physics import WORKOUTS
from graph.physics.brix_ratio import mixed_brix, water_by_mass, water_by_volume
from graph.physics.freezing_point import freezing_point
from graph.physics.sucrose import freezing_depression, syrup_density


@pytest.mark.parametrize(
    ("brix", "kelvin"),
    [
        (5, 0.29), (8, 0.49), (10, 0.63), (11, 0.70), (12, 0.77), (13, 0.85), (14, 0.93), (15, 1.01), (16, 1.10),
        (18, 1.27), (20, 1.47), (30, 2.64), (40, 4.45),
    ],
)  # fmt: skip
def test_freezing_table(brix, kelvin):
    """CRC Handbook, 102nd ed., concentrative properties of aqueous solutions, sucrose."""
    assert freezing_depression(brix) == pytest.approx(kelvin, abs=0.01)
    assert WORKOUTS["freezing_point"].solve(brix=brix).value == pytest.approx(-kelvin, abs=0.01)


@pytest.mark.parametrize(
    ("brix", "density"),
    [
        (10, 1.0381), (12, 1.0465), (13, 1.0507), (15, 1.0592), (20, 1.0810), (50, 1.2295), (60, 1.2864), (70, 1.3472),
    ],
)  # fmt: skip
def test_density_table(brix, density):
    """CRC Handbook, 102nd ed., the same table, 20 C."""
    assert syrup_density(brix) == pytest.approx(density, abs=2e-4)


@pytest.mark.parametrize(("brix", "density"), [(30, 1.1270), (40, 1.1765), (65, 1.3163)])
def test_density_between_rows(brix, density):
    """Sucrose tables at 20 C, from memory; 0.001."""
    assert syrup_density(brix) == pytest.approx(density, abs=1e-3)


def test_twelve_percent_freezes_at_three_quarters_of_a_degree():
    """Clarke, The Science of Ice Cream, figure 2.8: -0.77 C."""
    assert freezing_point(12) == pytest.approx(-0.77, abs=0.02)


@pytest.mark.parametrize(
    ("grams", "kelvin"), [(12, 0.72), (15, 0.90), (18, 1.10), (21, 1.29), (30, 1.86), (60, 3.85)]
)
def test_ice_cream_table(grams, kelvin):
    """Goff and Hartel, Ice Cream, 7th ed. (2013), table 6.1: g sucrose per 100 g water; it runs 6 % off the CRC."""
    brix = 100 * grams / (100 + grams)

    assert freezing_depression(brix) == pytest.approx(kelvin, rel=0.07)


def water_activity(brix):
    """Return the activity of water over sucrose: Norrish (1966), ln a = ln x_w - 6.47 x_s^2."""
    sucrose, water = brix / 342.2965, (100 - brix) / 18.01528
    share = sucrose / (sucrose + water)
    return math.log(1 - share) - 6.47 * share * share


@pytest.mark.parametrize(("brix", "published"), [(10, 0.624), (12, 0.772), (15, 1.011)])
def test_freezing_theory(brix, published):
    """Norrish activity and the heat of fusion of ice (Robinson and Stokes: 6008 J/mol, 38.1 J/(mol K)), solved by scipy."""

    def off(kelvin):
        ratio = 273.15 / kelvin
        return (
            -6008 / 8.314462618 * (1 / kelvin - 1 / 273.15)
            + 38.1 / 8.314462618 * (ratio - 1 - math.log(ratio))
            - water_activity(brix)
        )

    theory = 273.15 - brentq(off, 250, 273.1499)

    assert theory == pytest.approx(published, abs=2e-3)
    assert freezing_depression(brix) == pytest.approx(theory, abs=0.012)


@pytest.mark.parametrize(("brix", "kelvin"), [(10, 0.603), (12, 0.740), (15, 0.958)])
def test_the_ideal_law_runs_a_little_low(brix, kelvin):
    """Raoult's law with Kf 1.858 K kg/mol: 4 to 5 % below the table."""
    ideal = 1.858 * (brix / 342.2965) / ((100 - brix) / 1000)

    assert ideal == pytest.approx(kelvin, abs=1e-3)
    assert 0.93 < ideal / freezing_depression(brix) < 0.98


@settings(deadline=None)
@given(st.floats(0, 40), st.floats(0, 40))
def test_sweeter_never_freezes_warmer(one, other):
    low, high = sorted((one, other))

    assert freezing_point(high) <= freezing_point(low)


@pytest.mark.parametrize(("syrup", "brix"), [(60, 12.30), (65, 13.57)])
def test_five_to_one_by_volume(syrup, brix):
    """Conservation of sugar with CRC densities (65 Brix: 1.3163 kg/L, from memory); 0.05 Brix."""
    assert mixed_brix(5, syrup) == pytest.approx(brix, abs=0.05)
    assert WORKOUTS["brix_ratio"].solve(ratio=5, syrup=syrup).value == pytest.approx(brix, abs=0.05)


def test_a_ratio_by_volume_is_not_the_one_by_mass():
    """Conservation of mass: 65 to 13 Brix takes 4.0 kg of water a kilogram, 5.27 volumes a volume."""
    assert water_by_mass(13, 65) == pytest.approx(4.0)
    assert water_by_volume(13, 65) == pytest.approx(5.27, abs=0.01)


@settings(deadline=None)
@given(st.floats(1, 39), st.floats(40, 70))
def test_the_ratio_for_a_drink_makes_that_drink(drink, syrup):
    assert mixed_brix(water_by_volume(drink, syrup), syrup) == pytest.approx(drink, rel=1e-9)


@pytest.mark.parametrize(
    ("ratio", "verdict"),
    [(5.0, "as wanted"), (4.0, "2.1 Brix too sweet: rich"), (7.0, "3.2 Brix too thin: lean")],
)
def test_brix_verdicts(ratio, verdict):
    """Within 1 Brix in service: common practice, no source.

    Conservation of sugar, 60 Brix at 1.2864 kg/L (CRC): 77.184/5.2792 = 14.62 at 4:1, 77.184/8.2738 = 9.33 at 7:1.
    """
    assert WORKOUTS["brix_ratio"].solve(ratio=ratio, syrup=60).verdict.startswith(verdict)


def test_diet_drinks_are_told_apart():
    """Reasoned: without sugar neither Brix nor the sucrose table says anything."""
    for result in (WORKOUTS["brix_ratio"].solve(syrup=60), WORKOUTS["freezing_point"].solve(brix=12)):
        assert any("diet" in line for line in result.lines)


def test_no_syrup_makes_a_sweeter_drink():
    with pytest.raises(OutOfRange, match="cannot make"):
        WORKOUTS["brix_ratio"].solve(syrup=10, target=12)


@pytest.mark.parametrize("brix", [-1, 41])
def test_the_table_is_not_read_beyond_its_ends(brix):
    with pytest.raises(OutOfRange, match="outside the table"):
        freezing_depression(brix)
