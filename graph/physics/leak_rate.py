"""How much gas a closed space loses, from two pressures, two temperatures and the time between."""

from __future__ import annotations

from graph.physics.constants import (
    AIR_PRESSURE,
    ATMOSPHERE_PASCAL,
    CO2_KG_PER_MOL,
    GAS_CONSTANT,
    ROOM_CELSIUS,
    ZERO_CELSIUS,
)
from graph.physics.decay_temperature import DECAY_NOISE_PSI, cooled_pressure
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.units import convert, gauge_to_absolute


def molar_flow(
    litres: float, first: tuple[float, float], second: tuple[float, float], seconds: float
) -> float:
    """Return the mol/s that flow into a closed volume; what leaks out of it is negative.

    `first` and `second` are (absolute Pa, K). (V/R)(p2/T2 - p1/T1)/(t2 - t1), as in 40 CFR 1065.644.
    """
    (p1, t1), (p2, t2) = first, second
    return litres / 1000 / GAS_CONSTANT * (p2 / t2 - p1 / t1) / seconds


def free_litres_per_minute(mol_per_second: float) -> float:
    """Return a molar flow as litres a minute of gas at 20 C and one standard atmosphere."""
    free = GAS_CONSTANT * (ROOM_CELSIUS + ZERO_CELSIUS) / ATMOSPHERE_PASCAL
    return mol_per_second * free * 1000 * 60


def _solve(
    *,
    volume: float,
    first: float,
    first_temperature: float,
    second: float,
    second_temperature: float,
    minutes: float,
    air_pressure: float,
) -> Result:
    states = tuple(
        (convert(gauge_to_absolute(psi, air_pressure), "psia", "Pa abs"), celsius + ZERO_CELSIUS)
        for psi, celsius in ((first, first_temperature), (second, second_temperature))
    )
    lost = -molar_flow(volume, states[0], states[1], minutes * 60)
    free, grams = free_litres_per_minute(lost), lost * CO2_KG_PER_MOL * 1000 * 3600
    still = cooled_pressure(first, first_temperature, second_temperature, air_pressure)
    lines = (
        (
            f"Temperature alone would have taken {shown_pressure(first)} to {shown_pressure(still)}; "
            f"it reads {shown_pressure(second)}."
        ),
        f"Over {shown(minutes)} min {shown(volume)} L lose {shown(lost)} mol/s (40 CFR 1065.644).",
        f"That is {free:.3f} L/min of gas at 20 C and 1 atm, or {grams:.1f} g of CO2 an hour.",
    )
    return Result(lines, free, "L/min", _verdict(still - second, grams))


def _verdict(loss_psi: float, grams: float) -> str:
    if loss_psi < -DECAY_NOISE_PSI:
        return "gains: a valve lets something in"
    if loss_psi <= DECAY_NOISE_PSI:
        return "no leak shown: less than 1 psi is not worth believing"
    return f"leaks {grams:.0f} g of CO2 an hour"


WORKOUT = work_out(
    "leak_rate",
    "How much a closed line or barrel loses",
    (
        Quantity("volume", "volume that is closed in", "L", 0.01, 1000.0),
        Quantity("first", "first reading", "psi", 0.0, 250.0),
        Quantity("first_temperature", "temperature at the first reading", "C", -30.0, 60.0, 20.0),
        Quantity("second", "second reading", "psi", 0.0, 250.0),
        Quantity("second_temperature", "temperature at the second reading", "C", -30.0, 60.0, 20.0),
        Quantity("minutes", "time between the two", "min", 0.1, 10080.0, 10.0),
        AIR_PRESSURE,
    ),
    _solve,
)
