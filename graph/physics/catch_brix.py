"""What drink two catches of water and syrup would have made, against the flavour card."""

from __future__ import annotations

from graph.physics.brix_ratio import mixed_brix
from graph.physics.workout import Quantity, Result, shown, work_out

SPEC_BRIX = 0.5  # how far a fresh set may be off; common practice, no source


def _solve(water: float, syrup: float, brix: float, target: float) -> Result:
    made = mixed_brix(water / syrup, brix)
    off = made - target
    lines = (
        f"{shown(1000 * water)} mL water to {shown(1000 * syrup)} mL syrup is {water / syrup:.2f} to one.",
        f"With a syrup of {shown(brix)} Brix that makes {made:.2f} Brix; the card says {shown(target)}.",
        "A diet syrup has no sugar: compare its ratio with the card instead.",
    )
    return Result(lines, off, "Brix", _verdict(off))


def _verdict(off: float) -> str:
    if abs(off) <= SPEC_BRIX:
        return "as on the card"
    return f"{abs(off):.1f} Brix too {'rich: too little water' if off > 0 else 'lean: too little syrup'}"


WORKOUT = work_out(
    "catch_brix",
    "What drink a catch test makes",
    (
        Quantity("water", "water caught", "L", 0.001, 10.0),
        Quantity("syrup", "syrup caught", "L", 0.001, 10.0),
        Quantity("brix", "Brix of the syrup", "Brix", 5.0, 70.0),
        Quantity("target", "Brix on the flavour card", "Brix", 1.0, 40.0, 12.5),
    ),
    _solve,
)
