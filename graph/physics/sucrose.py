"""Properties of sugar in water, by mass of sucrose: the table and how it is read between its rows.

CRC Handbook of Chemistry and Physics, 102nd edition, "Concentrative properties of aqueous solutions",
sucrose.
"""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise

from graph.errors import OutOfRange

# mass percent of sucrose, lowering of the freezing point in K
FREEZING = (
    (0.0, 0.0),
    (5.0, 0.29),
    (8.0, 0.49),
    (10.0, 0.63),
    (11.0, 0.70),
    (12.0, 0.77),
    (13.0, 0.85),
    (14.0, 0.93),
    (15.0, 1.01),
    (16.0, 1.10),
    (18.0, 1.27),
    (20.0, 1.47),
    (30.0, 2.64),
    (40.0, 4.45),
)
# mass percent of sucrose, density at 20 C in kg/L
DENSITY = (
    (0.0, 0.9982),
    (10.0, 1.0381),
    (12.0, 1.0465),
    (13.0, 1.0507),
    (15.0, 1.0592),
    (20.0, 1.0810),
    (50.0, 1.2295),
    (60.0, 1.2864),
    (70.0, 1.3472),
)


def freezing_depression(brix: float) -> float:
    """Return by how many K sucrose at a mass percent (0 to 40) lowers the freezing point.

    Straight lines between the rows of the table; the curve bends so little that this stays within
    0.02 K up to 20 %.
    """
    return _interpolate(FREEZING, brix)


def syrup_density(brix: float) -> float:
    """Return the density of a sucrose solution in kg/L at 20 C, 0 to 70 % by mass.

    The volume of a kilogram, not the density, is nearly a straight line between two rows (ideal
    mixing of volumes), so that is what is interpolated.
    """
    return 1 / _interpolate(tuple((share, 1 / density) for share, density in DENSITY), brix)


def _interpolate(table: tuple[tuple[float, float], ...], x: float) -> float:
    """Return the value at x on straight lines between the rows, or raise OutOfRange beyond them."""
    if not table[0][0] <= x <= table[-1][0]:
        raise OutOfRange(
            f"{x:g} Brix lies outside the table, which ends at {table[-1][0]:g}: check the reading."
        )
    at = min(bisect_right([row[0] for row in table], x), len(table) - 1)
    (x0, y0), (x1, y1) = tuple(pairwise(table))[at - 1]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
