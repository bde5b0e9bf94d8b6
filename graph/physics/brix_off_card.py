"""How far a drink's sugar is from what the flavour card says: two numbers off two things."""

from __future__ import annotations

from graph.physics.catch_brix import SPEC_BRIX
from graph.physics.workout import Quantity, Result, shown, work_out


def _solve(sample: float, card: float) -> Result:
    off = sample - card
    lines = (
        f"The refractometer shows {shown(sample)} Brix and the card says {shown(card)}: {off:+.1f} Brix.",
        f"A fresh set may be {shown(SPEC_BRIX)} Brix off, settled and de-gassed.",
        "A diet drink has no sugar: Brix says nothing about it.",
    )
    return Result(lines, off, "Brix", _verdict(off))


def _verdict(off: float) -> str:
    if abs(off) <= SPEC_BRIX:
        return "as on the card"
    return f"{abs(off):.1f} Brix {'above' if off > 0 else 'below'} the card"


WORKOUT = work_out(
    "brix_off_card",
    "How far a drink is from its flavour card",
    (
        Quantity("sample", "Brix of the sample on the refractometer", "Brix", 0.0, 70.0),
        Quantity("card", "Brix that the flavour card says", "Brix", 1.0, 40.0),
    ),
    _solve,
)
