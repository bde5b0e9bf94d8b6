"""The pressure that a sensor's signal stands for, unless the signal is a wiring fault."""

from __future__ import annotations

from graph.physics.sensor_asks import SENSOR_ASKS, sensor_range
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.reading import FAULT_ABOVE, FAULT_BELOW, Signal, pressure_from_volts, volts_signal

# Which end an open wire goes to depends on the board's pull resistor, so the verdicts name both.
_VERDICTS = {
    Signal.FAULT_LOW: "wiring or sensor fault, not a pressure: open or shorted to 0 V",
    Signal.FAULT_HIGH: "wiring or sensor fault, not a pressure: open, shorted to the supply, or 0 V lost",
    Signal.UNDER: "below zero: a suction, a zero shift, or a wrong supply voltage",
    Signal.OVER: "above full scale: more than the sensor can measure, or a wrong supply voltage",
}


def _solve(volts: float, supply: float, full_scale: float, low: float, high: float) -> Result:
    sensor = sensor_range(supply, full_scale, low, high)
    psi = pressure_from_volts(volts, sensor)
    lines = (
        (
            f"{shown(volts)} V of {shown(supply)} V is {100 * volts / supply:.1f} % of the supply; "
            f"{shown(low)} to {shown(high)} % is the range."
        ),
        f"By the sensor's line that would be {shown_pressure(psi)}.",
        (
            f"Below {100 * FAULT_BELOW:.0f} % or above {100 * FAULT_ABOVE:.0f} % no pressure: a wire, plug "
            "or sensor is open or shorted (typical limits; the board decides to which end an open wire goes)."
        ),
    )
    signal = volts_signal(volts, sensor)
    return Result(lines, psi, "psi", _VERDICTS.get(signal, f"{psi:.1f} psi"))


WORKOUT = work_out(
    "sensor_pressure",
    "What pressure a sensor's volts mean",
    (Quantity("volts", "signal between the signal wire and 0 V", "V", -1.0, 30.0), *SENSOR_ASKS),
    _solve,
)
