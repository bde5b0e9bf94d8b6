"""The temperature at which a sugared drink begins to freeze."""

from __future__ import annotations

from graph.physics.sucrose import freezing_depression
from graph.physics.workout import Quantity, Result, shown, work_out


def freezing_point(brix: float) -> float:
    """Return the temperature in C at which the first ice forms, 0 to 40 Brix of sucrose."""
    return -freezing_depression(brix)


def _solve(brix: float) -> Result:
    celsius = freezing_point(brix)
    lines = (
        f"At {shown(brix)} Brix the first ice forms at {celsius:.2f} C (CRC Handbook, sucrose).",
        "Only part of the water freezes: what stays liquid gets sweeter, so a slush is colder than this.",
        "Dissolved CO2 lowers it a little more. This does not apply to diet drinks: they freeze hard.",
    )
    return Result(lines, celsius, "C", f"freezes from {celsius:.2f} C")


WORKOUT = work_out(
    "freezing_point",
    "When a drink begins to freeze",
    (Quantity("brix", "Brix of the drink", "Brix", 0.0, 40.0, 12.5),),
    _solve,
)
