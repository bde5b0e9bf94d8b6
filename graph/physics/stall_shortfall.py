"""How far a gas-driven pump stalls below what its gas and its inlet can push."""

from __future__ import annotations

from graph.physics.stall_pressure import STALL_TOLERANCE_PSI, stall_pressure
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out


def _solve(drive: float, inlet: float, outlet: float, ratio: float) -> Result:
    expected = stall_pressure(drive, inlet, ratio)
    short = expected - outlet
    lines = (
        (
            f"{shown_pressure(drive)} of gas at {shown(ratio)}:1 on top of {shown_pressure(inlet)} at the "
            f"inlet must stall at {shown_pressure(expected)}."
        ),
        f"It stands at {shown_pressure(outlet)}: {short:+.1f} psi short.",
        f"Within {shown(STALL_TOLERANCE_PSI)} psi it is sound.",
    )
    return Result(lines, short, "psi", _verdict(short))


def _verdict(short: float) -> str:
    if short > STALL_TOLERANCE_PSI:
        return "stalls too low: worn, or leaking after it"
    if short < -STALL_TOLERANCE_PSI:
        return "more than this pump can push: the site pressure itself, or a gauge"
    return "stalls where it must"


WORKOUT = work_out(
    "stall_shortfall",
    "Whether a gas-driven pump stalls where it must",
    (
        Quantity("drive", "pressure of the drive gas", "psi", 0.0, 150.0),
        Quantity("inlet", "pressure with which the water arrives", "psi", 0.0, 150.0),
        Quantity("outlet", "pressure behind the pump once it stands still", "psi", 0.0, 250.0),
        Quantity("ratio", "area ratio of the pump", "", 0.2, 10.0, 1.0),
    ),
    _solve,
)
