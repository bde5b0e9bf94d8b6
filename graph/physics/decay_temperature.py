"""What a change of temperature alone does to the pressure of a closed gas."""

from __future__ import annotations

from graph.physics.constants import AIR_PRESSURE, ZERO_CELSIUS
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.units import absolute_to_gauge, gauge_to_absolute

DECAY_NOISE_PSI = 1.0  # smaller losses are not worth believing in the field; common practice, no source


def cooled_pressure(psi: float, first_celsius: float, second_celsius: float, air_pressure: float) -> float:
    """Return the gauge pressure in psi of a sealed gas after a change of temperature; air in psia.

    Amontons' law, p2/p1 = T2/T1, with absolute pressures and temperatures: using gauge pressure is
    the classic error.
    """
    ratio = (second_celsius + ZERO_CELSIUS) / (first_celsius + ZERO_CELSIUS)
    return absolute_to_gauge(gauge_to_absolute(psi, air_pressure) * ratio, air_pressure)


def _solve(
    first: float, first_temperature: float, second: float, second_temperature: float, air_pressure: float
) -> Result:
    still = cooled_pressure(first, first_temperature, second_temperature, air_pressure)
    lost = still - second
    side = "less" if lost >= 0 else "more"
    lines = (
        (
            f"Sealed at {shown_pressure(first)} and {shown(first_temperature)} C, the gas must read "
            f"{shown_pressure(still)} at {shown(second_temperature)} C: absolute pressure follows kelvins."
        ),
        f"It reads {shown_pressure(second)}: {abs(lost):.1f} psi {side} than temperature explains.",
        f"Below {shown(DECAY_NOISE_PSI)} psi nothing is proven.",
    )
    return Result(lines, still, "psi", _verdict(lost))


def _verdict(lost: float) -> str:
    if lost > DECAY_NOISE_PSI:
        return f"leaks: {lost:.1f} psi more lost than temperature explains"
    if lost < -DECAY_NOISE_PSI:
        return f"gains {-lost:.1f} psi: a valve lets something in"
    return "no leak shown: temperature explains it"


WORKOUT = work_out(
    "decay_temperature",
    "What temperature alone does to a closed line",
    (
        Quantity("first", "first reading", "psi", 0.0, 250.0),
        Quantity("first_temperature", "temperature at the first reading", "C", -30.0, 60.0),
        Quantity("second", "second reading", "psi", 0.0, 250.0),
        Quantity("second_temperature", "temperature at the second reading", "C", -30.0, 60.0),
        AIR_PRESSURE,
    ),
    _solve,
)
