"""What both sensor calculations ask about the sensor itself."""

from __future__ import annotations

from graph.physics.workout import Quantity
from graph.reading import SensorRange

SENSOR_ASKS = (
    Quantity("supply", "voltage that feeds the sensor", "V", 1.0, 30.0, 5.0),
    Quantity("full_scale", "pressure at the top of its range", "psi", 1.0, 3000.0, 100.0),
    Quantity("low", "share of the supply at zero pressure", "%", 0.0, 50.0, 10.0),
    Quantity("high", "share of the supply at full scale", "%", 51.0, 100.0, 90.0),
)


def sensor_range(supply: float, full_scale: float, low: float, high: float) -> SensorRange:
    """Return the sensor that the answers describe; shares in percent."""
    return SensorRange(full_scale, low / 100, high / 100, supply)
