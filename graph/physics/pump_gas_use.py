"""How much CO2 a gas-driven pump uses."""

from __future__ import annotations

from graph.physics.carbon_dioxide import gas_density
from graph.physics.constants import AIR_PRESSURE, ATMOSPHERE_PASCAL, FULL_CHARGE_KG, ROOM_CELSIUS
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.units import convert, gauge_to_absolute


def drive_gas_density(psi: float, air_pressure: float) -> float:
    """Return the g/L (kg/m3) of CO2 at a gauge pressure and 20 C; air pressure in psia."""
    return gas_density(ROOM_CELSIUS, convert(gauge_to_absolute(psi, air_pressure), "psia", "Pa abs"))


def gas_per_minute(psi: float, litres_per_minute: float, air_pressure: float) -> float:
    """Return the g/min of CO2 that a one-to-one pump uses for a flow of liquid.

    Each litre of liquid moved fills one litre of chamber with gas at drive pressure, which is
    then let go.
    """
    return litres_per_minute * drive_gas_density(psi, air_pressure)


def _solve(
    *, drive: float, stroke: float, strokes: float, minutes: float, fill: float, air_pressure: float
) -> Result:
    flow = stroke * strokes / minutes
    grams = gas_per_minute(drive, flow, air_pressure)
    gram_per_litre = drive_gas_density(drive, air_pressure)
    free = gram_per_litre / gas_density(ROOM_CELSIUS, ATMOSPHERE_PASCAL)
    lines = [
        f"A litre of gas at {shown_pressure(drive)} is {free:.1f} L of free gas, {gram_per_litre:.1f} g.",
        (
            f"{shown(strokes)} strokes of {shown(1000 * stroke)} mL in {shown(minutes)} min move "
            f"{shown(flow)} L/min, which uses {grams:.1f} g/min or {grams * 0.06:.2f} kg an hour."
        ),
        "With nothing drawn a sound pump stands still: each stroke at rest is a leak after it.",
    ]
    verdict = f"{grams:.1f} g of CO2 a minute"
    if grams:
        hours = fill * 1000 / grams / 60
        verdict += f", a {shown(fill)} kg charge in {hours:.1f} h"
    return Result(tuple(lines), grams, "g/min", verdict)


WORKOUT = work_out(
    "pump_gas_use",
    "How much CO2 a gas-driven pump uses",
    (
        Quantity("drive", "pressure of the drive gas", "psi", 0.0, 150.0, 70.0),
        Quantity("stroke", "liquid moved by one stroke", "L", 0.001, 5.0, 0.1),
        Quantity("strokes", "strokes counted", "", 0.0, 10000.0),
        Quantity("minutes", "time in which they were counted", "min", 0.05, 1440.0, 1.0),
        Quantity("fill", "weight of a full charge", "kg", 0.5, 100.0, FULL_CHARGE_KG),
        AIR_PRESSURE,
    ),
    _solve,
)
