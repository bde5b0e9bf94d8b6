"""How far a barrel's temperature probe is from a thermometer, by the probe's resistance."""

from __future__ import annotations

from graph.physics.thermistor import beta_temperature
from graph.physics.workout import Quantity, Result, shown, work_out

LIMIT_KELVIN = 1.5  # what probe and thermometer may differ by; common practice, no source


def _solve(ohms: float, thermometer: float, nominal: float, beta: float) -> Result:
    celsius = beta_temperature(ohms, nominal, beta)
    error = abs(celsius - thermometer)
    lines = (
        f"With {shown(nominal)} ohm at 25 C and beta {shown(beta)} K, {shown(ohms)} ohm is {celsius:.1f} C.",
        f"The thermometer shows {shown(thermometer)} C: {error:.1f} K between them.",
        f"They may differ by {shown(LIMIT_KELVIN)} K.",
    )
    return Result(lines, error, "C", "the probe agrees" if error <= LIMIT_KELVIN else "the probe is off")


WORKOUT = work_out(
    "probe_error",
    "Whether a temperature probe fits the thermometer",
    (
        Quantity("ohms", "resistance of the probe, unplugged", "ohm", 10.0, 1e7),
        Quantity("thermometer", "temperature on the thermometer", "C", -40.0, 80.0),
        Quantity("nominal", "the probe's resistance at 25 C", "ohm", 100.0, 1e6, 10000.0),
        Quantity("beta", "its beta, in kelvin", "", 2000.0, 6000.0, 3950.0),
    ),
    _solve,
)
