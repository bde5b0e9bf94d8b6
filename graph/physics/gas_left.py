"""How much CO2 is left in a cylinder on a scale."""

from __future__ import annotations

from graph.errors import OutOfRange
from graph.physics.constants import FULL_CHARGE_KG
from graph.physics.workout import Quantity, Result, shown, work_out

SCALE_ERROR_KG = 0.3  # what a bathroom or parcel scale may be out; common practice, no source
OVERFULL = 1.03  # share of the charge from which filling or tare must be wrong; common practice, no source
LOW, NEARLY_EMPTY, EMPTY = 0.20, 0.10, 0.02  # shares of the charge; common practice, no source


def gas_left(gross: float, tare: float) -> float:
    """Return the kg of CO2 in a cylinder from its weight and the tare stamped on its shoulder.

    Raises OutOfRange when the cylinder weighs less than empty by more than a scale can be out.
    """
    left = gross - tare
    if left < -SCALE_ERROR_KG:
        raise OutOfRange(
            f"A cylinder of {shown(gross)} kg cannot weigh less than its tare of {shown(tare)} kg: read "
            "the stamp again (kg or lb?), and leave off what is not part of it."
        )
    return max(0.0, left)


def _verdict(share: float) -> str:
    if share > OVERFULL:
        return "more than a full charge: wrong tare, or overfilled; do not use it, call the gas supplier"
    if share <= EMPTY:
        return "empty"
    if share < NEARLY_EMPTY:
        return "nearly empty: have it changed"
    return "running low" if share < LOW else "gas enough"


def _solve(gross: float, tare: float, fill: float, use: float) -> Result:
    left = gas_left(gross, tare)
    share = left / fill
    lines = [
        f"{shown(gross)} kg on the scale less {shown(tare)} kg tare leaves {left:.2f} kg of CO2.",
        f"That is {100 * share:.0f} % of a full charge of {shown(fill)} kg.",
    ]
    if use:
        lines.append(f"At {shown(use)} g of CO2 a litre it makes about {1000 * left / use:.0f} L of drink.")
    return Result(tuple(lines), 100 * share, "%", _verdict(share))


WORKOUT = work_out(
    "gas_left",
    "How much CO2 is left, by weight",
    (
        Quantity("gross", "weight of the cylinder now", "kg", 0.1, 300.0),
        Quantity("tare", "empty weight stamped on its shoulder", "kg", 0.1, 200.0),
        Quantity("fill", "weight of a full charge", "kg", 0.5, 100.0, FULL_CHARGE_KG),
        Quantity("use", "CO2 used per litre of drink (0 if not known)", "g/L", 0.0, 200.0, 0.0),
    ),
    _solve,
)
