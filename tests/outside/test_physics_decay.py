"""Pressure decay, against 40 CFR 1065.644, a leak-testing convention and the gas law."""

import pytest

from graph.physics import WORKOUTS
from graph.physics.decay_temperature import cooled_pressure
from graph.physics.leak_rate import free_litres_per_minute, molar_flow
from graph.units import STANDARD_ATMOSPHERE_PSI


def test_worked_example_of_the_federal_regulation():
    """40 CFR 1065.644: 2.0000 L, 25.300 to 50.600 kPa at 293.15 K in 70 s; it prints 0.00030 mol/s."""
    flow = molar_flow(2.0, (25300, 293.15), (50600, 293.15), 70)

    assert flow == pytest.approx(2.9657e-4, rel=1e-3)
    assert round(flow, 5) == 0.00030


def test_leak_rate_convention_of_nondestructive_testing():
    """ASNT NDT Handbook vol. 1: V dP/(t Patm); 1 L losing 1 kPa in 60 s leaks 9.869 std cc/min."""
    flow = -molar_flow(1.0, (201325, 293.15), (200325, 293.15), 60)

    assert free_litres_per_minute(flow) * 1000 == pytest.approx(9.869, rel=1e-4)


def test_leak_rate_in_gauge_readings():
    """The same convention, in psi: 10 L losing 5 psi in 10 min at 20 C leak 0.3402 L/min; 44.0095 g/mol."""
    result = WORKOUTS["leak_rate"].solve(volume=10, first=60, second=55, minutes=10)

    assert result.value == pytest.approx(10 * 5 / STANDARD_ATMOSPHERE_PSI / 10, rel=1e-6)
    assert result.verdict == "leaks 37 g of CO2 an hour"  # 0.3402 L/min / 24.055 L/mol * 44.0095 * 60 = 37.3


def test_cooling_looks_like_a_leak():
    """Gas law with absolute units: 100 psi sealed at 25 C reads 98.08 at 20 C (gauge alone would say 98.32)."""
    cooled = cooled_pressure(100, 25, 20, 14.696)

    assert cooled == pytest.approx(98.08, abs=0.01)
    assert cooled != pytest.approx(98.32, abs=0.1)


def test_a_degree_cooler_is_a_third_of_a_psi_at_seventy():
    """Gas law; the rounded 0.3 psi is common practice, no source."""
    assert 70 - cooled_pressure(70, 20, 19, STANDARD_ATMOSPHERE_PSI) == pytest.approx(0.3, abs=0.02)


@pytest.mark.parametrize(
    ("second", "second_temperature", "verdict"),
    [
        (98.0, 20, "no leak shown"),
        (95.0, 20, "leaks: 3.1 psi"),
        (100.0, 20, "gains 1.9 psi"),
        (98.0, 25, "leaks: 2.0 psi"),
    ],
)
def test_temperature_is_taken_off_before_a_leak_is_named(second, second_temperature, verdict):
    """Gas law, absolute units; less than 1 psi is not believed: common practice, no source."""
    result = WORKOUTS["decay_temperature"].solve(
        first=100,
        first_temperature=25,
        second=second,
        second_temperature=second_temperature,
        air_pressure=14.696,
    )

    assert result.verdict.startswith(verdict)


@pytest.mark.parametrize(("second", "verdict"), [(59.5, "no leak shown"), (50, "leaks"), (64, "gains")])
def test_leak_verdicts(second, verdict):
    """Less than 1 psi is not believed: common practice, no source."""
    assert WORKOUTS["leak_rate"].solve(volume=10, first=60, second=second).verdict.startswith(verdict)


def test_a_cooled_line_that_holds_its_gas_leaks_nothing():
    """40 CFR 1065.644: p/T constant is no flow."""
    cooled = cooled_pressure(100, 25, 20, STANDARD_ATMOSPHERE_PSI)
    result = WORKOUTS["leak_rate"].solve(
        volume=10, first=100, first_temperature=25, second=cooled, second_temperature=20
    )

    assert result.value == pytest.approx(0, abs=1e-9)
    assert result.verdict.startswith("no leak shown")
