"""What a closed line has really lost between two readings, the change of temperature apart."""

from __future__ import annotations

from graph.physics.constants import AIR_PRESSURE, ROOM_CELSIUS
from graph.physics.decay_temperature import DECAY_NOISE_PSI, cooled_pressure
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out

TEST_MINUTES = 15.0  # how long a line is left shut off; common practice, no source


def _solve(
    first: float,
    second: float,
    first_temperature: float,
    second_temperature: float,
    minutes: float,
    air_pressure: float,
) -> Result:
    still = cooled_pressure(first, first_temperature, second_temperature, air_pressure)
    lost = (still - second) * TEST_MINUTES / minutes
    lines = (
        (
            f"Temperature alone takes {shown_pressure(first)} at {shown(first_temperature)} C to "
            f"{shown_pressure(still)} at {shown(second_temperature)} C."
        ),
        (
            f"After {shown(minutes)} min it reads {shown_pressure(second)}: {lost:+.1f} psi lost in "
            f"{shown(TEST_MINUTES)} min."
        ),
        f"Less than {shown(DECAY_NOISE_PSI)} psi proves nothing.",
    )
    return Result(lines, lost, "psi", _verdict(lost))


def _verdict(lost: float) -> str:
    if lost > DECAY_NOISE_PSI:
        return "it leaks"
    return "it gains: a valve lets something in" if lost < -DECAY_NOISE_PSI else "tight"


WORKOUT = work_out(
    "pressure_lost",
    "What a closed line has lost, temperature apart",
    (
        Quantity("first", "first reading", "psi", 0.0, 250.0),
        Quantity("second", "second reading", "psi", 0.0, 250.0),
        Quantity("first_temperature", "temperature at the first reading", "C", -30.0, 60.0, ROOM_CELSIUS),
        Quantity("second_temperature", "temperature at the second reading", "C", -30.0, 60.0, ROOM_CELSIUS),
        Quantity("minutes", "time between the two", "min", 1.0, 1440.0, TEST_MINUTES),
        AIR_PRESSURE,
    ),
    _solve,
)
