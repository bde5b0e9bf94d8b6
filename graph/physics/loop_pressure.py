"""The pressure that a transmitter's loop current stands for, unless the current is failure information."""

from __future__ import annotations

from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.reading import Signal, loop_signal, percent_from_loop

SPAN = Quantity("full_scale", "pressure at 20 mA", "psi", 1.0, 5000.0, 100.0)

_VERDICTS = {
    Signal.FAULT_LOW: "failure information, not a pressure: open loop, no supply, or a failed transmitter",
    Signal.FAULT_HIGH: "failure information, not a pressure: shorted loop, or a failed transmitter",
    Signal.UNDEFINED: "neither a measurement nor failure information: measure the supply and the loop",
    Signal.UNDER: "below zero: a suction or a zero shift",
    Signal.OVER: "above full scale: more than the transmitter is ranged for",
}


def _solve(current: float, full_scale: float) -> Result:
    percent = percent_from_loop(current)
    psi = percent / 100 * full_scale
    lines = (
        f"4 mA is zero and 20 mA is {shown(full_scale)} psi: {shown(current)} mA is {percent:.1f} % of it.",
        f"By that line it would be {shown_pressure(psi)}.",
        (
            "From 3.8 to 20.5 mA a current is a measurement; 3.6 mA and less, 21 mA and more is failure "
            "information (NAMUR NE 43); a dead loop shows 0 mA."
        ),
    )
    return Result(lines, psi, "psi", _VERDICTS.get(loop_signal(current), f"{psi:.1f} psi"))


WORKOUT = work_out(
    "loop_pressure",
    "What pressure a transmitter's 4 to 20 mA mean",
    (Quantity("current", "current in the loop", "mA", 0.0, 30.0), SPAN),
    _solve,
)
