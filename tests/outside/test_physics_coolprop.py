"""CO2 and water against CoolProp, an independent library of reference equations of state.

Its CO2 is the full equation of Span and Wagner (1996), its water IAPWS-95; ours are short auxiliary
equations, so agreement over the whole range is a check of both our coefficients and their fit.
"""

import warnings

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from graph.physics.carbon_dioxide import (
    gas_density,
    liquid_density,
    saturation_pressure,
    share_without_liquid,
    vapour_density,
)
from graph.physics.cylinder_pressure import cylinder_pressure
from graph.physics.water import water_density, water_vapour_pressure
from graph.physics.water_head import water_head
from graph.units import STANDARD_ATMOSPHERE_PSI, convert, gauge_to_absolute

with warnings.catch_warnings():
    # its generated wrapper trips over Python 3.12 and later, harmlessly
    warnings.filterwarnings("ignore", "builtin type .* has no __module__", DeprecationWarning)
    from CoolProp.CoolProp import PropsSI

SATURATED = st.floats(-40, 30.5)


@settings(deadline=None)
@given(SATURATED)
def test_saturation_pressure_is_the_full_equation(celsius):
    told = PropsSI("P", "T", celsius + 273.15, "Q", 0, "CO2")

    assert saturation_pressure(celsius) == pytest.approx(told, rel=2e-4)


@settings(deadline=None)
@given(st.floats(-40, 30))
def test_saturated_densities_are_the_full_equation(celsius):
    liquid, vapour = (PropsSI("D", "T", celsius + 273.15, "Q", q, "CO2") for q in (0, 1))

    assert liquid_density(celsius) == pytest.approx(liquid, rel=5e-4)
    assert vapour_density(celsius) == pytest.approx(vapour, rel=5e-4)


@settings(deadline=None)
@given(st.floats(-10, 40), st.floats(0.8e5, 8e5))
def test_gas_density_is_within_a_fifth_of_a_percent(celsius, pascal):
    told = PropsSI("D", "T", celsius + 273.15, "P", pascal, "CO2")

    assert gas_density(celsius, pascal) == pytest.approx(told, rel=2.1e-3)


@settings(deadline=None)
@given(st.floats(0.1, 60))
def test_density_of_water(celsius):
    told = PropsSI("D", "T", celsius + 273.15, "P", 101325, "Water")

    assert water_density(celsius) == pytest.approx(told, rel=1e-5)


@settings(deadline=None)
@given(st.floats(0.1, 100))
def test_vapour_pressure_of_water(celsius):
    told = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water")

    assert water_vapour_pressure(celsius + 273.15) == pytest.approx(told, rel=1e-4)


@pytest.mark.parametrize(
    ("celsius", "kilopascal_per_metre", "psi_per_foot"), [(4, 9.80640, 0.43352), (20, 9.78907, 0.43275)]
)
def test_head_of_real_water(celsius, kilopascal_per_metre, psi_per_foot):
    """Density from CoolProp times standard gravity."""
    assert convert(water_head(1.0, celsius), "psi", "kPa") == pytest.approx(kilopascal_per_metre, rel=1e-4)
    assert water_head(0.3048, celsius) == pytest.approx(psi_per_foot, rel=1e-4)


@pytest.mark.parametrize("kg", [9.07, 6.0, 3.0, 2.65])
def test_a_cylinder_with_liquid_shows_the_same_pressure_whatever_it_holds(kg):
    """A 13.4 L cylinder at 20 C, by the full equation."""
    told = PropsSI("P", "T", 293.15, "D", kg / 0.0134, "CO2")
    ours = gauge_to_absolute(cylinder_pressure(20, STANDARD_ATMOSPHERE_PSI))

    assert convert(ours, "psia", "Pa abs") == pytest.approx(told, rel=2e-4)


@pytest.mark.parametrize(("kg", "bar"), [(2.0, 51.5), (1.0, 32.9), (0.5, 18.5)])
def test_the_pressure_falls_only_after_the_last_liquid(kg, bar):
    """The same cylinder; what is left must be less than our share without liquid of a full charge."""
    told = PropsSI("P", "T", 293.15, "D", kg / 0.0134, "CO2") / 1e5

    assert told == pytest.approx(bar, rel=2e-3)
    assert told * 1e5 < saturation_pressure(20) * (1 - 1e-3)
    assert kg < share_without_liquid(20) * 13.4 * 0.68


def test_liquid_lasts_down_to_two_and_a_half_kilograms_there():
    """Saturated vapour filling 13.4 L at 20 C: 2.602 kg, 29 % of a charge of 9.07 kg."""
    left = share_without_liquid(20) * 13.4 * 0.68

    assert left == pytest.approx(2.602, rel=2e-3)
    assert left == pytest.approx(PropsSI("D", "T", 293.15, "Q", 1, "CO2") * 0.0134, rel=5e-4)
    assert left / 9.07 == pytest.approx(0.29, abs=0.005)
