"""What a copper winding measures when it is warmer or colder."""

from __future__ import annotations

from graph.physics.workout import Quantity, Result, shown, work_out

COPPER_CELSIUS = 234.5  # inferred temperature of zero resistance of copper, IEEE 112, from memory


def winding_resistance(ohms: float, first: float, second: float) -> float:
    """Return the ohms of a copper winding at a second temperature in C.

    R2/R1 = (234.5 + t2)/(234.5 + t1).
    """
    return ohms * (COPPER_CELSIUS + second) / (COPPER_CELSIUS + first)


def _solve(ohms: float, first: float, second: float) -> Result:
    value = winding_resistance(ohms, first, second)
    lines = (
        "Measure only on a motor that is isolated, with its capacitor discharged.",
        (
            f"{shown(ohms)} ohm at {shown(first)} C is {shown(value)} ohm at {shown(second)} C: copper gains "
            f"{100 * (value / ohms - 1):+.1f} %."
        ),
        "Compare two windings at the same temperature, or bring both to one this way.",
    )
    return Result(lines, value, "ohm", f"{shown(value)} ohm at {shown(second)} C")


WORKOUT = work_out(
    "winding_resistance",
    "What a motor winding measures at another temperature",
    (
        Quantity("ohms", "resistance of the winding", "ohm", 0.01, 10000.0),
        Quantity("first", "temperature at which it was measured", "C", -20.0, 180.0),
        Quantity("second", "temperature to compare with", "C", -20.0, 180.0, 20.0),
    ),
    _solve,
)
