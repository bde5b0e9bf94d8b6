"""How fast a regulator climbs when nothing is drawn."""

from __future__ import annotations

from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out

LIMIT_PSI = 3.0  # in TEST_MINUTES without any draw; common practice, no source
TEST_MINUTES = 10.0


def creep(first: float, second: float, minutes: float) -> float:
    """Return the rise in psi per 10 minutes between two readings."""
    return (second - first) / minutes * TEST_MINUTES


def _verdict(rise: float, rate: float, minutes: float) -> str:
    if rise < -LIMIT_PSI:
        return "falling: something draws or leaks, so this says nothing about creep"
    if rise > LIMIT_PSI:
        return "creeps: the seat leaks"
    if minutes < TEST_MINUTES:
        return "too short to judge: hold it for 10 minutes without any draw"
    return "creeps: the seat leaks" if rate > LIMIT_PSI else "holds"


def _solve(first: float, second: float, minutes: float) -> Result:
    rate = creep(first, second, minutes)
    lines = (
        "Nothing may be drawn in between: a draw hides creep.",
        (
            f"From {shown_pressure(first)} to {shown_pressure(second)} in {shown(minutes)} min is "
            f"{rate:+.1f} psi in 10 min."
        ),
        f"More than {shown(LIMIT_PSI)} psi in 10 min is creep.",
    )
    return Result(lines, rate, "psi/10 min", _verdict(second - first, rate, minutes))


WORKOUT = work_out(
    "regulator_creep",
    "Whether a regulator climbs at rest",
    (
        Quantity("first", "first reading", "psi", 0.0, 250.0),
        Quantity("second", "second reading", "psi", 0.0, 250.0),
        Quantity("minutes", "time between the two", "min", 1.0, 1440.0, TEST_MINUTES),
    ),
    _solve,
)
