"""Sensor signals, against the generic ratiometric map, circuit tutorials and NAMUR NE 43."""

import pytest

from graph.physics import WORKOUTS
from graph.reading import (
    SensorRange,
    Signal,
    loop_from_percent,
    loop_signal,
    percent_from_loop,
    pressure_from_volts,
    volts_from_pressure,
    volts_signal,
)

FIVE_VOLTS = SensorRange(full_scale=100, supply=5)


@pytest.mark.parametrize(("volts", "psi"), [(0.5, 0), (1.5, 25), (2.5, 50), (4.5, 100)])
def test_ratiometric_map(volts, psi):
    """P = FS (V/Vs - 0.1)/0.8: the usual 10 to 90 % output of distributors' data pages; worked 100 psi example."""
    assert pressure_from_volts(volts, FIVE_VOLTS) == pytest.approx(psi, abs=1e-9)
    assert volts_from_pressure(psi, FIVE_VOLTS) == pytest.approx(volts, abs=1e-9)
    assert WORKOUTS["sensor_pressure"].solve(volts=volts).value == pytest.approx(psi, abs=1e-9)
    assert WORKOUTS["sensor_volts"].solve(pressure=psi).value == pytest.approx(volts, abs=1e-9)


@pytest.mark.parametrize(("psi", "volts"), [(35, 1.90), (60, 2.90), (70, 3.30), (80, 3.70)])
def test_trade_values_of_a_hundred_psi_sensor(psi, volts):
    """V = 0.5 + 0.04 P, the same map in the trade's form; common practice, no source."""
    assert WORKOUTS["sensor_volts"].solve(pressure=psi).value == pytest.approx(volts, abs=1e-9)


def test_reading_a_sagging_supply_as_five_volts_is_two_and_a_half_percent_out():
    """Arithmetic of the same map: 2.4 V of 4.8 V is 50 %, read against a fixed 5 V it is 47.5 %."""
    assert pressure_from_volts(2.4, SensorRange(supply=4.8)) == pytest.approx(50, abs=1e-9)
    assert pressure_from_volts(2.4, FIVE_VOLTS) == pytest.approx(47.5, abs=1e-9)


@pytest.mark.parametrize(("true", "shown"), [(70, 62), (60, 53), (80, 71), (30, 26)])
def test_a_tenth_less_supply_against_a_fixed_reference(true, shown):
    """The same arithmetic at 4.5 V read as 5 V; rounded figures are common practice, no source."""
    signal = volts_from_pressure(true, SensorRange(supply=4.5))

    assert pressure_from_volts(signal, FIVE_VOLTS) == pytest.approx(shown, abs=0.8)


def test_a_lifted_ground_raises_every_reading_alike():
    """Arithmetic of the same map: 0.1 V is 2.5 psi of 100 at any pressure."""
    for psi in (0, 30, 90):
        lifted = pressure_from_volts(volts_from_pressure(psi, FIVE_VOLTS) + 0.1, FIVE_VOLTS)
        assert lifted - psi == pytest.approx(2.5, abs=1e-9)


@pytest.mark.parametrize(("volts", "psi"), [(0.0, -12.5), (5.0, 112.5)])
def test_a_signal_at_a_rail_is_no_pressure(volts, psi):
    """Arithmetic of the same map; sensor-interface tutorials clamp open and shorted lines at 4 and 96 %."""
    result = WORKOUTS["sensor_pressure"].solve(volts=volts)

    assert result.value == pytest.approx(psi, abs=1e-9)
    assert result.verdict.startswith("wiring or sensor fault, not a pressure")


@pytest.mark.parametrize(
    ("volts", "signal"),
    [
        (0.19, Signal.FAULT_LOW),
        (0.21, Signal.UNDER),
        (0.4, Signal.UNDER),
        (0.5, Signal.GOOD),
        (4.5, Signal.GOOD),
        (4.6, Signal.OVER),
        (4.79, Signal.OVER),
        (4.81, Signal.FAULT_HIGH),
    ],
)
def test_diagnostic_bands(volts, signal):
    """Typical bands of a sensor-interface tutorial: below 4 % or above 96 % of supply a fault, 4-10 and 90-96 % out of range."""
    assert volts_signal(volts, FIVE_VOLTS) is signal


def test_a_little_below_the_range_may_be_a_true_suction():
    """Application note on transducers outside their range: output tracks on until it saturates."""
    result = WORKOUTS["sensor_pressure"].solve(volts=0.4)

    assert "suction" in result.verdict
    assert result.value == pytest.approx(-2.5, abs=1e-9)


@pytest.mark.parametrize("volts", [0.0, 5.0])
def test_the_rail_of_an_open_wire_is_never_guessed(volts):
    """The same tutorials: an open line goes to the side of the receiver's pull resistor, high or low."""
    assert "open" in WORKOUTS["sensor_pressure"].solve(volts=volts).verdict


@pytest.mark.parametrize(("milliamps", "percent"), [(4, 0), (8, 25), (12, 50), (16, 75), (20, 100)])
def test_loop_map(milliamps, percent):
    """Arithmetic of 4-20 mA (IEC 60381-1): (I - 4)/16; 250 ohm make it 1 to 5 V."""
    assert percent_from_loop(milliamps) == pytest.approx(percent, abs=1e-9)
    assert loop_from_percent(percent) == pytest.approx(milliamps, abs=1e-9)
    assert loop_from_percent(percent) * 250 / 1000 == pytest.approx(1 + 4 * percent / 100, abs=1e-9)


@pytest.mark.parametrize(
    ("milliamps", "signal"),
    [
        (0.0, Signal.FAULT_LOW),  # an open loop: live zero tells it from 0 %
        (3.6, Signal.FAULT_LOW),
        (3.7, Signal.UNDEFINED),
        (3.8, Signal.UNDER),
        (4.0, Signal.GOOD),
        (20.0, Signal.GOOD),
        (20.5, Signal.OVER),
        (20.7, Signal.UNDEFINED),
        (21.0, Signal.FAULT_HIGH),
    ],
)
def test_failure_limits_of_a_loop(milliamps, signal):
    """NAMUR NE 43 (1994, rev. 2003), as several pages quote it; on which side 3.6 and 21 themselves lie is unverified."""
    assert loop_signal(milliamps) is signal


def test_measuring_information_reaches_a_little_beyond_the_range():
    """NAMUR NE 43: 3.8 mA is -1.25 %, 20.5 mA is 103.125 %."""
    assert percent_from_loop(3.8) == pytest.approx(-1.25, abs=1e-9)
    assert percent_from_loop(20.5) == pytest.approx(103.125, abs=1e-9)


@pytest.mark.parametrize(("milliamps", "psi"), [(4, 0), (8, 50), (12, 100), (16, 150), (20, 200)])
def test_a_transmitter_is_worked_out_both_ways(milliamps, psi):
    """Quarters of a 200 psi span at 4, 8, 12, 16 and 20 mA: IEC 60381-1."""
    told = WORKOUTS["loop_pressure"].solve(current=milliamps, full_scale=200)
    back = WORKOUTS["loop_current"].solve(pressure=psi, full_scale=200)

    assert (told.value, told.unit) == (pytest.approx(psi, abs=1e-9), "psi")
    assert (back.value, back.unit) == (pytest.approx(milliamps, abs=1e-9), "mA")
    assert f"{milliamps * 250 / 1000:.2f} V" in back.lines[-1]


@pytest.mark.parametrize(
    ("milliamps", "words"),
    [
        (0.0, "failure information"),
        (3.6, "failure information"),
        (3.7, "neither"),
        (3.9, "below zero"),
        (20.4, "above full scale"),
        (21.0, "failure information"),
    ],
)
def test_a_current_that_is_no_measurement_is_never_read_as_a_pressure(milliamps, words):
    """NAMUR NE 43, as above."""
    assert words in WORKOUTS["loop_pressure"].solve(current=milliamps).verdict


@pytest.mark.parametrize("psi", [-1.0, 101.0])
def test_a_pressure_outside_the_span_is_said_to_be_so(psi):
    assert WORKOUTS["loop_current"].solve(pressure=psi).verdict.endswith("outside the range")
