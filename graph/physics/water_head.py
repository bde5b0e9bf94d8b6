"""The pressure that a standing column of water makes."""

from __future__ import annotations

from graph.physics.constants import GRAVITY
from graph.physics.water import water_density
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.units import convert


def water_head(metres: float, celsius: float) -> float:
    """Return the pressure in psi of a column of water: density times gravity times height.

    Density after Kell (1975), standard gravity.
    """
    return convert(water_density(celsius) * GRAVITY * metres, "Pa", "psi")


def _solve(height: float, temperature: float, below: float) -> Result:
    head = water_head(height, temperature)
    above = below - head
    feet = convert(height, "m", "ft")
    lines = (
        (
            f"{shown(height)} m ({feet:.1f} ft) of water at {shown(temperature)} C weighs "
            f"{shown_pressure(head)}."
        ),
        f"Of {shown_pressure(below)} below, {shown_pressure(max(0.0, above))} is left at the top, at rest.",
        "In flow, friction takes more; at rest it takes nothing.",
    )
    verdict = f"{above:.1f} psi at the top" if above > 0 else "the water does not reach the top"
    return Result(lines, head, "psi", verdict)


WORKOUT = work_out(
    "water_head",
    "What height costs in water pressure",
    (
        Quantity("height", "height of the top above the bottom", "m", 0.0, 100.0),
        Quantity("temperature", "temperature of the water", "C", 0.0, 60.0, 15.0),
        Quantity("below", "pressure at the bottom", "psi", 0.0, 250.0, 40.0),
    ),
    _solve,
)
