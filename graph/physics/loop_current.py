"""The loop current that a healthy 4 to 20 mA transmitter must give."""

from __future__ import annotations

from graph.physics.loop_pressure import SPAN
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.reading import loop_from_percent

SHUNT = 250.0  # ohms across which 4 to 20 mA make 1 to 5 V


def _solve(pressure: float, full_scale: float) -> Result:
    current = loop_from_percent(100 * pressure / full_scale)
    lines = (
        f"The loop runs from 4 mA at zero to 20 mA at {shown(full_scale)} psi.",
        f"At {shown_pressure(pressure)} it must be {current:.2f} mA.",
        (
            f"Across {SHUNT:.0f} ohms that is {current * SHUNT / 1000:.2f} V. Break the loop to measure "
            "the current, or measure that voltage; take the pressure from an independent gauge."
        ),
    )
    inside = 0 <= pressure <= full_scale
    return Result(lines, current, "mA", f"{current:.2f} mA" + ("" if inside else ": outside the range"))


WORKOUT = work_out(
    "loop_current",
    "What current a 4 to 20 mA transmitter must give",
    (Quantity("pressure", "pressure at the transmitter", "psi", -14.0, 5000.0), SPAN),
    _solve,
)
