"""What syrup and water make together, and in which ratio."""

from __future__ import annotations

from graph.errors import OutOfRange
from graph.physics.sucrose import syrup_density
from graph.physics.workout import Quantity, Result, shown, work_out

SERVICE_BRIX = 1.0  # how far a drink may be off in service; common practice, no source


def mixed_brix(ratio: float, syrup: float) -> float:
    """Return the Brix of `ratio` volumes of water with one volume of syrup.

    Sugar is conserved by mass: Bx = Bs rho_s / (rho_s + ratio rho_w), densities at 20 C.
    """
    density = syrup_density(syrup)
    return syrup * density / (density + ratio * syrup_density(0))


def water_by_mass(drink: float, syrup: float) -> float:
    """Return the kg of water per kg of syrup that make a drink of so many Brix."""
    if not 0 < drink <= syrup:
        raise OutOfRange(
            f"A syrup of {shown(syrup)} Brix cannot make a drink of {shown(drink)} Brix: swap the two."
        )
    return syrup / drink - 1


def water_by_volume(drink: float, syrup: float) -> float:
    """Return the volumes of water per volume of syrup that make a drink of so many Brix."""
    return water_by_mass(drink, syrup) * syrup_density(syrup) / syrup_density(0)


def _solve(ratio: float, syrup: float, target: float) -> Result:
    brix = mixed_brix(ratio, syrup)
    wanted, mass = water_by_volume(target, syrup), water_by_mass(target, syrup)
    lines = (
        (
            f"{shown(ratio)} volumes of water to one of {shown(syrup)} Brix syrup "
            f"({syrup_density(syrup):.3f} kg/L) make {brix:.2f} Brix: sugar counts by mass, not by volume."
        ),
        f"For {shown(target)} Brix it takes {wanted:.2f} to one by volume, {mass:.2f} by mass.",
        "A diet drink has no sugar: Brix says nothing about its ratio.",
    )
    return Result(lines, brix, "Brix", _verdict(brix - target))


def _verdict(off: float) -> str:
    if abs(off) <= SERVICE_BRIX:
        return "as wanted, within 1 Brix"
    return f"{abs(off):.1f} Brix too {'sweet: rich' if off > 0 else 'thin: lean'}"


WORKOUT = work_out(
    "brix_ratio",
    "What Brix a ratio of water to syrup makes",
    (
        Quantity("ratio", "volumes of water to one of syrup", "", 0.1, 50.0, 5.0),
        Quantity("syrup", "Brix of the syrup", "Brix", 5.0, 70.0),
        Quantity("target", "Brix that the drink should have", "Brix", 1.0, 40.0, 12.5),
    ),
    _solve,
)
