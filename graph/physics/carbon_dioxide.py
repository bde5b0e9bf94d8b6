"""Properties of carbon dioxide itself: saturation, densities, and gas at low pressure.

Saturation follows the auxiliary equations of Span, R. and Wagner, W. (1996), A new equation of state
for carbon dioxide, J. Phys. Chem. Ref. Data 25(6), 1509-1596, equations 3.13 to 3.15; the
coefficients are from memory and agree with a reference library (see the tests).
"""

from __future__ import annotations

import math

from graph.errors import OutOfRange
from graph.physics.constants import CO2_KG_PER_MOL, GAS_CONSTANT, ZERO_CELSIUS

CRITICAL_KELVIN = 304.1282
CRITICAL_PASCAL = 7.3773e6
CRITICAL_DENSITY = 467.6  # kg/m3
TRIPLE_KELVIN = 216.592
CRITICAL_CELSIUS = CRITICAL_KELVIN - ZERO_CELSIUS
FILLING_DENSITY = 0.68  # kg of CO2 per litre of cylinder, 49 CFR 173.304a(a)(2), from memory

_PRESSURE_TERMS = ((-7.0602087, 1.0), (1.9391218, 1.5), (-1.6463597, 2.0), (-3.2995634, 4.0))
_LIQUID_TERMS = ((1.9245108, 0.34), (-0.62385555, 0.5), (-0.32731127, 10 / 6), (0.39245142, 11 / 6))
_VAPOUR_TERMS = (
    (-1.7074879, 0.34),
    (-0.82274670, 0.5),
    (-4.6008549, 1.0),
    (-10.111178, 7 / 3),
    (-29.742252, 14 / 3),
)


def saturation_pressure(celsius: float) -> float:
    """Return the absolute pressure in Pa at which liquid and gas stand together (equation 3.13).

    Raises OutOfRange above the critical point, where no liquid exists, and below the triple point.
    """
    kelvin = _saturated(celsius)
    return CRITICAL_PASCAL * math.exp(CRITICAL_KELVIN / kelvin * _series(_PRESSURE_TERMS, kelvin))


def liquid_density(celsius: float) -> float:
    """Return the density in kg/m3 of liquid that stands with its gas (equation 3.14)."""
    return CRITICAL_DENSITY * math.exp(_series(_LIQUID_TERMS, _saturated(celsius)))


def vapour_density(celsius: float) -> float:
    """Return the density in kg/m3 of gas that stands with its liquid (equation 3.15)."""
    return CRITICAL_DENSITY * math.exp(_series(_VAPOUR_TERMS, _saturated(celsius)))


def share_without_liquid(celsius: float) -> float:
    """Return the share of a full charge that is left when the last liquid is gone.

    A full cylinder holds 0.68 kg a litre. Liquid is gone when what is left fills it as vapour only.
    """
    return vapour_density(celsius) / (FILLING_DENSITY * 1000)


def liquid_share(celsius: float) -> float:
    """Return the share of a full cylinder's volume that is liquid; 1 where it fills all of it.

    A full cylinder holds 0.68 kg a litre, as liquid and as the gas above it.
    """
    liquid, vapour = liquid_density(celsius), vapour_density(celsius)
    return min(1.0, (FILLING_DENSITY * 1000 - vapour) / (liquid - vapour))


def gas_density(celsius: float, pascal: float) -> float:
    """Return the density in kg/m3 of CO2 gas at an absolute pressure, with its second virial coefficient.

    Within 0.2 % of the full equation from -10 to 40 C up to 8 bar absolute. B(T) is from the table "Virial
    coefficients of selected gases", CRC Handbook of Chemistry and Physics, from memory.
    """
    kelvin = celsius + ZERO_CELSIUS
    x = 298.15 / kelvin - 1
    virial = (-127 - 288 * x - 118 * x * x) * 1e-6  # m3/mol
    molar = GAS_CONSTANT * kelvin
    return pascal * CO2_KG_PER_MOL / (molar * (1 + virial * pascal / molar))


def _saturated(celsius: float) -> float:
    """Return the temperature in K when liquid CO2 can exist there, or raise OutOfRange."""
    kelvin = celsius + ZERO_CELSIUS
    if kelvin > CRITICAL_KELVIN:
        raise OutOfRange(
            f"At {celsius:g} C no liquid CO2 exists (it ends at {CRITICAL_CELSIUS:.1f} C), so the pressure "
            "depends on how much gas is in the cylinder: let it cool below that, and weigh it."
        )
    if not kelvin >= TRIPLE_KELVIN:
        raise OutOfRange(f"At {celsius:g} C CO2 is solid, not liquid: give a temperature above -56 C.")
    return kelvin


def _series(terms: tuple[tuple[float, float], ...], kelvin: float) -> float:
    """Return the sum of a (1 - T/Tc)**t over the terms of an equation."""
    distance = 1 - kelvin / CRITICAL_KELVIN
    return math.fsum(a * math.pow(distance, t) for a, t in terms)
