"""How much CO2 water takes up at a temperature and a pressure."""

from __future__ import annotations

import math

from graph.physics.constants import AIR_PRESSURE, ATMOSPHERE_PASCAL, CO2_KG_PER_MOL, WATER_KG_PER_MOL
from graph.physics.water import CRITICAL_KELVIN, kelvin, water_density, water_vapour_pressure
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.units import convert, gauge_to_absolute

HENRY_LOWEST_KELVIN = 274.19  # IAPWS G7-04, table 3: CO2 in water, 274.19 to 642.66 K
MOLAR_LITRES = 22.414  # L/mol of an ideal gas at 0 C and 1 atm, in which "volumes" are counted


def henry_constant(celsius: float) -> float:
    """Return Henry's constant of CO2 in water, in Pa of partial pressure per mole fraction.

    IAPWS Guideline G7-04 (2004), equation 1 and table 2; stated to hold from 1.04 C upward.
    """
    reduced = kelvin(celsius) / CRITICAL_KELVIN
    tau = 1 - reduced
    series = -8.55445 / reduced + 4.01195 * math.pow(tau, 0.355) / reduced
    series += 9.52345 * math.exp(tau) * math.pow(reduced, -0.41)
    return water_vapour_pressure(kelvin(celsius)) * math.exp(series)


def co2_volumes(celsius: float, partial_pascal: float) -> float:
    """Return volumes of CO2 per volume of water under a partial pressure of CO2 in Pa.

    One volume is a litre of ideal gas at 0 C and 1 atm per litre of water. Ideal Henry's law.
    """
    water = water_density(celsius) / WATER_KG_PER_MOL  # mol/m3
    return water * partial_pascal / henry_constant(celsius) * MOLAR_LITRES / 1000


def carbonation(celsius: float, psi: float, air_pressure: float) -> float:
    """Return volumes of CO2 in water under pure CO2 at a gauge pressure; air pressure in psia."""
    total = convert(gauge_to_absolute(psi, air_pressure), "psia", "Pa abs")
    return co2_volumes(celsius, max(0.0, total - water_vapour_pressure(kelvin(celsius))))


def _solve(temperature: float, pressure: float, air_pressure: float) -> Result:
    volumes = carbonation(temperature, pressure, air_pressure)
    atmosphere = co2_volumes(temperature, ATMOSPHERE_PASCAL)
    grams = volumes / MOLAR_LITRES * CO2_KG_PER_MOL * 1000
    lines = (
        (
            f"At {shown(temperature)} C water takes up {atmosphere:.2f} volumes under one atmosphere of CO2 "
            "(IAPWS G7-04)."
        ),
        f"Under {shown_pressure(pressure)} that is {volumes:.2f} volumes, {grams:.1f} g/L, once settled.",
        _validity(temperature),
        "A sugared drink holds somewhat less than water; air in the barrel lowers it too.",
    )
    return Result(lines, volumes, "volumes", _verdict(temperature, volumes))


def _validity(celsius: float) -> str:
    if kelvin(celsius) < HENRY_LOWEST_KELVIN:
        return f"The equation is stated from 1.04 C up: {shown(celsius)} C is below it, take 10 % either way."
    return "The equation is stated from 1.04 C up: this is inside, within about 4 %."


def _verdict(celsius: float, volumes: float) -> str:
    inside = kelvin(celsius) >= HENRY_LOWEST_KELVIN
    return (
        f"{volumes:.1f} volumes at most" if inside else f"about {volumes:.1f} volumes, below the stated range"
    )


WORKOUT = work_out(
    "carbonation",
    "How much CO2 the drink can hold",
    (
        Quantity("temperature", "temperature of the liquid", "C", -6.0, 40.0),
        Quantity("pressure", "pressure in the barrel", "psi", 0.0, 100.0),
        AIR_PRESSURE,
    ),
    _solve,
)
