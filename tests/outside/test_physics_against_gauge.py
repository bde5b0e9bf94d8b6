"""Calculations that compare what is read with what must be: each against a published figure or by hand."""

import pytest

from graph.errors import OutOfRange
from graph.physics import WORKOUTS


def value(name, **given):
    return WORKOUTS[name].solve(**given).value


@pytest.mark.parametrize(
    ("celsius", "psig"),
    # Span and Wagner (1996), the equation evaluated: 0 C 490.8 psig, 10 C 638.3, 25 C 918.5
    [(0, 490.8), (10, 638.3), (25, 918.5)],
)
def test_a_dial_on_its_own_saturation_means_the_pressure_of_20_degrees(celsius, psig):
    """Span and Wagner (1996): 816.2 psig at 20 C."""
    assert value("cylinder_dial", dial=psig, temperature=celsius) == pytest.approx(816.2, rel=1e-3)


def test_a_cold_bottle_that_shows_less_is_not_taken_for_an_empty_one():
    assert WORKOUTS["cylinder_dial"].solve(dial=480, temperature=0).verdict == "liquid is left"
    assert WORKOUTS["cylinder_dial"].solve(dial=480, temperature=20).verdict != "liquid is left"


def test_a_sealed_line_that_cooled_has_lost_nothing():
    """Ideal gas in absolute units: 100 psig at 25 C reads 98.08 psig at 20 C."""
    lost = value("pressure_lost", first=100, second=98.08, first_temperature=25, second_temperature=20)

    assert lost == pytest.approx(0, abs=0.01)


def test_a_loss_is_brought_to_fifteen_minutes():
    assert value("pressure_lost", first=70, second=68, minutes=5) == pytest.approx(6)


def test_a_pump_stalls_at_gas_plus_inlet():
    """Balance of forces on a one-to-one diaphragm pump: common practice, no source."""
    assert value("stall_shortfall", drive=60, inlet=20, outlet=80) == pytest.approx(0)
    assert value("stall_shortfall", drive=60, inlet=20, outlet=50) == pytest.approx(30)


@pytest.mark.parametrize(("volts", "psi"), [(0.5, 0), (1.5, 25), (2.5, 50), (4.5, 100)])
def test_a_signal_on_the_line_of_a_ratiometric_sensor_has_no_error(volts, psi):
    """The common map of 10 to 90 % of the supply over the range: distributors' tutorials."""
    assert value("signal_error", volts=volts, gauge=psi) == pytest.approx(0, abs=1e-9)


def test_the_supply_counts():
    """2.4 V of 4.8 V is half the range, not 47.5 %."""
    assert value("signal_error", volts=2.4, gauge=50, supply=4.8) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("volts", [0.0, 0.19, 4.81, 5.0])
def test_a_signal_that_no_pressure_makes_is_refused(volts):
    """Typical diagnostic limits, 4 and 96 % of the supply: sensor-interface tutorials."""
    with pytest.raises(OutOfRange, match="no pressure at all"):
        WORKOUTS["signal_error"].solve(volts=volts, gauge=60)


@pytest.mark.parametrize(("ohms", "celsius"), [(33620.6, 0), (20174.6, 10), (10000, 25), (58245.7, -10)])
def test_a_probe_on_its_curve_agrees_with_the_thermometer(ohms, celsius):
    """The beta equation with R25 = 10 kilohm and beta = 3950 K."""
    assert value("probe_error", ohms=ohms, thermometer=celsius) == pytest.approx(0, abs=1e-3)


def test_a_catch_on_the_card_is_on_the_card():
    """Sugar by mass; CRC Handbook densities at 20 C: 65 Brix 1.3163 from memory, water 0.9982."""
    sugar, total = 0.65 * 1.3163, 1.3163 + 5 * 0.9982
    off = value("catch_brix", water=0.5, syrup=0.1, brix=65, target=100 * sugar / total)

    assert off == pytest.approx(0, abs=0.05)
