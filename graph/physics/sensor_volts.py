"""The signal that a healthy pressure sensor must give."""

from __future__ import annotations

from graph.physics.sensor_asks import SENSOR_ASKS, sensor_range
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.reading import SensorRange, volts_from_pressure


def _solve(pressure: float, supply: float, full_scale: float, low: float, high: float) -> Result:
    sensor = sensor_range(supply, full_scale, low, high)
    volts = volts_from_pressure(pressure, sensor)
    lines = (
        (
            f"The signal runs from {volts_from_pressure(0, sensor):.2f} V at zero to "
            f"{volts_from_pressure(full_scale, sensor):.2f} V at {shown(full_scale)} psi."
        ),
        f"At {shown_pressure(pressure)} it must be {volts:.2f} V.",
        f"The signal is a share of the supply ({shown(supply)} V): measure that at the same plug, then.",
    )
    return Result(lines, volts, "V", _verdict(pressure, volts, sensor))


def _verdict(pressure: float, volts: float, sensor: SensorRange) -> str:
    inside = 0 <= pressure <= sensor.full_scale
    return f"{volts:.2f} V" if inside else f"{volts:.2f} V at most: outside the sensor's range"


WORKOUT = work_out(
    "sensor_volts",
    "What volts a pressure sensor must give",
    (Quantity("pressure", "pressure at the sensor", "psi", -14.0, 3000.0), *SENSOR_ASKS),
    _solve,
)
