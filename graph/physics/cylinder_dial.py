"""What the contents dial of a CO2 cylinder would show at 20 C, so that a cold bottle is no empty one."""

from __future__ import annotations

from graph.physics.constants import AIR_PRESSURE, ROOM_CELSIUS
from graph.physics.cylinder_pressure import cylinder_pressure
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out

LIQUID_SHARE = 0.85  # of the full pressure: above it there is liquid; common practice, no source


def dial_at_room(dial: float, celsius: float, air_pressure: float) -> float:
    """Return a dial's psi times what a bottle with liquid shows at 20 C over what it shows at `celsius`.

    Raises OutOfRange where no liquid can exist. See `carbon_dioxide` for the source of both pressures.
    """
    return dial * cylinder_pressure(ROOM_CELSIUS, air_pressure) / cylinder_pressure(celsius, air_pressure)


def _solve(dial: float, temperature: float, air_pressure: float) -> Result:
    full = cylinder_pressure(temperature, air_pressure)
    value = dial_at_room(dial, temperature, air_pressure)
    lines = (
        (
            f"At {shown(temperature)} C a bottle with liquid in it must show {shown_pressure(full)} "
            "(Span and Wagner 1996)."
        ),
        f"It shows {shown_pressure(dial)}, {100 * dial / full:.0f} % of that.",
        f"At {shown(ROOM_CELSIUS)} C that would be {shown_pressure(value)}.",
        "A dial in order says only that liquid is left, not how much: weigh the bottle.",
    )
    verdict = "liquid is left" if dial >= LIQUID_SHARE * full else "the liquid is gone, or the bottle is shut"
    return Result(lines, value, "psi", verdict)


WORKOUT = work_out(
    "cylinder_dial",
    "What a CO2 cylinder's dial means at its temperature",
    (
        Quantity("dial", "contents dial", "psi", 0.0, 3000.0),
        Quantity("temperature", "temperature where the cylinder stands", "C", -40.0, 30.9),
        AIR_PRESSURE,
    ),
    _solve,
)
