"""How far a sensor's signal is from the pressure that a gauge shows."""

from __future__ import annotations

from graph.errors import OutOfRange
from graph.physics.sensor_asks import SENSOR_ASKS, sensor_range
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.reading import Signal, pressure_from_volts, volts_signal

LIMIT_PSI = 3.0  # what signal and gauge may differ by; common practice, no source
WIRING = frozenset({Signal.FAULT_LOW, Signal.FAULT_HIGH})


def _solve(volts: float, gauge: float, supply: float, full_scale: float, low: float, high: float) -> Result:
    """Return the error in psi; raise OutOfRange for a signal that no pressure makes."""
    sensor = sensor_range(supply, full_scale, low, high)
    if volts_signal(volts, sensor) in WIRING:
        raise OutOfRange(
            f"{shown(volts)} V of {shown(supply)} V is no pressure at all: a wire, a plug or the sensor is "
            "open or shorted, so answer that the signal lies at an end."
        )
    psi = pressure_from_volts(volts, sensor)
    lines = (
        f"{shown(volts)} V of {shown(supply)} V is {100 * volts / supply:.1f} % of the supply.",
        f"By the sensor's line that is {shown_pressure(psi)}; the gauge shows {shown_pressure(gauge)}.",
        f"They may differ by {shown(LIMIT_PSI)} psi.",
    )
    error = abs(psi - gauge)
    return Result(lines, error, "psi", "the signal is right" if error <= LIMIT_PSI else "the signal is wrong")


WORKOUT = work_out(
    "signal_error",
    "Whether a sensor's signal fits the gauge",
    (
        Quantity("volts", "signal between the signal wire and 0 V", "V", -1.0, 30.0),
        Quantity("gauge", "pressure on the gauge", "psi", 0.0, 3000.0),
        *SENSOR_ASKS,
    ),
    _solve,
)
