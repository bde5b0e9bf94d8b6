"""The pressure that a CO2 cylinder must show at a temperature, while it still holds liquid."""

from __future__ import annotations

from graph.physics.carbon_dioxide import liquid_share, saturation_pressure, share_without_liquid
from graph.physics.constants import AIR_PRESSURE
from graph.physics.workout import Quantity, Result, shown, shown_pressure, work_out
from graph.units import absolute_to_gauge, convert


def cylinder_pressure(celsius: float, air_pressure: float) -> float:
    """Return the gauge pressure in psi of a cylinder with liquid in it; air pressure in psia.

    Raises OutOfRange above 30.98 C, where no liquid exists. See `carbon_dioxide` for the source.
    """
    return absolute_to_gauge(convert(saturation_pressure(celsius), "Pa abs", "psia"), air_pressure)


def _solve(temperature: float, air_pressure: float) -> Result:
    psi = cylinder_pressure(temperature, air_pressure)
    share = share_without_liquid(temperature)
    lines = (
        (
            f"At {shown(temperature)} C liquid CO2 stands with its gas at {shown_pressure(psi)} on the gauge "
            "(Span and Wagner 1996)."
        ),
        (
            "While any liquid is left the pressure follows the temperature alone (Gibbs phase rule): it says "
            "nothing of how much is in there, so weigh the cylinder."
        ),
        f"Liquid lasts until about {100 * share:.0f} % of a full charge is left; then the gauge falls.",
        (
            f"A full one is liquid to {100 * liquid_share(temperature):.0f} % there. Liquid swells as it "
            "warms, so keep it out of the sun and away from heat."
        ),
        "A cylinder just drawn hard is colder than the room, and shows less until it has rested.",
    )
    return Result(lines, psi, "psi", f"{psi:.0f} psi while liquid is left; weigh it to know the contents")


WORKOUT = work_out(
    "cylinder_pressure",
    "What a CO2 cylinder shows at a temperature",
    (
        Quantity("temperature", "temperature of the cylinder", "C", -40.0, 60.0, 20.0),
        AIR_PRESSURE,
    ),
    _solve,
)
