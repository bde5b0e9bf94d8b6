"""The pressure at which a gas-driven pump stands still."""

from __future__ import annotations

from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out

STALL_TOLERANCE_PSI = 5.0  # common practice, no source


def stall_pressure(drive: float, inlet: float, ratio: float = 1.0) -> float:
    """Return the outlet gauge pressure in psi at which a double-diaphragm pump stalls.

    Balance of forces: drive gas on the area ratio, plus the pressure with which liquid arrives.
    """
    return drive * ratio + inlet


def _solve(drive: float, inlet: float, ratio: float) -> Result:
    psi = stall_pressure(drive, inlet, ratio)
    lines = (
        (
            f"The pump pushes with {shown_pressure(drive)} of gas at {shown(ratio)}:1, on top of "
            f"{shown_pressure(inlet)} that the liquid arrives with: it stalls at {shown_pressure(psi)}."
        ),
        "Lower, or strokes that go on: a worn pump or a leak after it.",
        "Well above gas and inlet together no pump can go: the site pressure itself, or the sensor.",
    )
    low, high = psi - STALL_TOLERANCE_PSI, psi + STALL_TOLERANCE_PSI
    return Result(lines, psi, "psi", f"stalls at {psi:.0f} psi; {low:.0f} to {high:.0f} is sound")


WORKOUT = work_out(
    "stall_pressure",
    "Where a gas-driven pump must stall",
    (
        Quantity("drive", "pressure of the drive gas", "psi", 0.0, 150.0),
        Quantity("inlet", "pressure with which the liquid arrives", "psi", 0.0, 150.0, 0.0),
        Quantity("ratio", "area ratio of the pump", "", 0.2, 10.0, 1.0),
    ),
    _solve,
)
