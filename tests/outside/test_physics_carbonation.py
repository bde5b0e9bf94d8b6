"""CO2 in water, against IAPWS G7-04, Sander's compilation, handbooks and a carbonation chart."""

import math

import pytest

from graph.errors import OutOfRange
from graph.physics import WORKOUTS
from graph.physics.carbonation import HENRY_LOWEST_KELVIN, carbonation, co2_volumes, henry_constant
from graph.physics.water import water_density
from graph.units import STANDARD_ATMOSPHERE_PSI, convert

ATMOSPHERE = 101325.0


@pytest.mark.parametrize(("celsius", "megapascal"), [(10, 107.4), (20, 144.9), (25, 165.6)])
def test_henry_constant(celsius, megapascal):
    """IAPWS Guideline G7-04 (2004), evaluated by an independent implementation of the guideline."""
    assert henry_constant(celsius) / 1e6 == pytest.approx(megapascal, rel=5e-3)


@pytest.mark.parametrize(("kelvin", "logarithm"), [(300, -1.7508), (400, -0.5450)])
def test_henry_constant_at_the_check_points_of_the_guideline(kelvin, logarithm):
    """IAPWS G7-04 (2004), table of check values of ln(kH/GPa) for CO2 in water, from memory."""
    assert math.log(henry_constant(kelvin - 273.15) / 1e9) == pytest.approx(logarithm, abs=1e-4)


@pytest.mark.parametrize(
    ("celsius", "volumes"), [(5, 1.386), (10, 1.173), (15, 1.004), (20, 0.8685), (25, 0.7588), (30, 0.669)]
)
def test_volumes_under_one_atmosphere_of_co2(celsius, volumes):
    """IAPWS G7-04 with IAPWS-95 densities, by an independent implementation; 4 %."""
    assert co2_volumes(celsius, ATMOSPHERE) == pytest.approx(volumes, rel=2e-3)


def sander(celsius):
    """Return mol/(m3 Pa) by H 3.3e-4 at 298.15 K and 2400 K.

    Sander, R. (2023). Compilation of Henry's law constants (version 5.0.0) for water as solvent.
    Atmos. Chem. Phys. 23, 10901-12440.
    """
    return 3.3e-4 * math.exp(2400 * (1 / (celsius + 273.15) - 1 / 298.15))


def ours(celsius):
    """Return our mol/(m3 Pa)."""
    return water_density(celsius) / 0.01801528 / henry_constant(celsius)


def test_solubility_at_25_celsius():
    """Sander (2023): 3.3e-4 mol/(m3 Pa) at 298.15 K, entries from 3.3 to 3.4e-4; 3 %."""
    assert ours(25) == pytest.approx(3.3e-4, rel=0.03)


@pytest.mark.parametrize(("celsius", "volumes"), [(20, 0.860), (10, 1.148), (5, 1.337)])
def test_a_two_parameter_form_runs_low_in_the_cold(celsius, volumes):
    """Sander (2023) extrapolated from 25 C with one slope: our full equation must stand above it in the cold."""
    assert sander(celsius) * ATMOSPHERE * 22.414e-3 == pytest.approx(volumes, rel=2e-3)
    assert ours(celsius) == pytest.approx(sander(celsius), rel=0.06)
    assert ours(celsius) > sander(celsius)


@pytest.mark.parametrize(
    ("celsius", "volumes"),
    [
        (4, 1.5126), (6, 1.3901), (8, 1.2809), (10, 1.1847),
        (12, 1.1018), (14, 1.0321), (16, 0.9753), (18, 0.9318), (20, 0.9014),
    ],
)  # fmt: skip
def test_historic_absorption_table(celsius, volumes):
    """Bunsen's absorption coefficients of carbonic acid gas in water (19th century); 6 %, and 7 % at 2 C, for it runs high in the cold."""
    assert co2_volumes(celsius, ATMOSPHERE) == pytest.approx(volumes, rel=0.06)
    assert co2_volumes(2, ATMOSPHERE) == pytest.approx(1.6481, rel=0.07)


@pytest.mark.parametrize(("celsius", "grams"), [(10, 0.232), (20, 0.169), (30, 0.126), (40, 0.097)])
def test_grams_in_a_hundred_grams_of_water(celsius, grams):
    """Frey, College Chemistry, 2nd edition (1958): g CO2 per 100 g water at one atmosphere in all; 4 %."""
    volumes = carbonation(celsius, 0.0, STANDARD_ATMOSPHERE_PSI)
    told = volumes / 22.414 * 44.0095 / water_density(celsius) * 100

    assert told == pytest.approx(grams, rel=0.04)


@pytest.mark.parametrize(("celsius", "volumes"), [(10, 1.194), (20, 0.878), (25, 0.759), (30, 0.665)])
def test_modern_handbook_volumes(celsius, volumes):
    """Dean, Lange's Handbook of Chemistry, from memory; 3 %."""
    assert co2_volumes(celsius, ATMOSPHERE) == pytest.approx(volumes, rel=0.03)


@pytest.mark.parametrize("volumes", [1.7967, 1.713])
def test_just_below_its_range_the_equation_stays_within_the_stated_tenth(volumes):
    """0 C: Bunsen 1.7967 (19th century), Lange's Handbook 1.713 (from memory)."""
    assert co2_volumes(0, ATMOSPHERE) == pytest.approx(volumes, rel=0.10)


def chart_psi(fahrenheit, volumes):
    """Return the psi that a carbonation chart of the brewing trade asks for; its usual fit, from memory."""
    t, v = fahrenheit, volumes
    return -16.6999 - 0.0101059 * t + 0.00116512 * t * t + 0.173354 * t * v + 4.24267 * v - 0.0684226 * v * v


@pytest.mark.parametrize(("fahrenheit", "volumes"), [(t, v) for t in (34, 38, 40, 60) for v in (2.5, 4.0)])
def test_carbonation_chart(fahrenheit, volumes):
    """Brewing (ASBC-type) chart; ideal Henry's law in water agrees within 5 %."""
    told = carbonation(convert(fahrenheit, "F", "C"), chart_psi(fahrenheit, volumes), STANDARD_ATMOSPHERE_PSI)

    assert told == pytest.approx(volumes, rel=0.05)


def test_warming_from_ice_to_room_halves_what_the_drink_holds():
    """IAPWS G7-04: 1.66 (extrapolated) to 0.87 volumes."""
    assert co2_volumes(20, ATMOSPHERE) / co2_volumes(0, ATMOSPHERE) == pytest.approx(0.5, abs=0.05)


def test_the_answer_says_when_it_lies_below_the_stated_range():
    """IAPWS G7-04 is stated from 274.19 K (1.04 C)."""
    below = WORKOUTS["carbonation"].solve(temperature=-3, pressure=28)
    inside = WORKOUTS["carbonation"].solve(temperature=2, pressure=28)

    assert HENRY_LOWEST_KELVIN == 274.19
    assert "below the stated range" in below.verdict
    assert any("is below it, take 10 %" in line for line in below.lines)
    assert "below" not in inside.verdict
    assert inside.value < below.value


def test_what_is_too_cold_to_be_a_drink_is_refused():
    with pytest.raises(OutOfRange, match="-6 to 40 C"):
        WORKOUTS["carbonation"].solve(temperature=-20, pressure=28)
