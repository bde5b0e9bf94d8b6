"""The temperature that a thermistor's resistance stands for (NTC: more ohms are colder)."""

from __future__ import annotations

import math

from graph.errors import OutOfRange
from graph.physics.constants import ZERO_CELSIUS
from graph.physics.workout import Quantity, Result, shown, work_out

REFERENCE_KELVIN = 298.15  # 25 C, at which the nominal resistance is stated
COLDEST_CELSIUS, HOTTEST_CELSIUS = -45.0, 125.0  # beyond, suspect the lead; common practice, no source
MELTED_KELVIN = 1000.0  # no thermistor lives to show this


def resistance(celsius: float, nominal: float, beta: float) -> float:
    """Return the ohms of a thermistor by the beta equation, R = R25 exp(B (1/T - 1/298.15))."""
    return nominal * math.exp(beta * (1 / (celsius + ZERO_CELSIUS) - 1 / REFERENCE_KELVIN))


def beta_temperature(ohms: float, nominal: float, beta: float) -> float:
    """Return the temperature in C by the beta equation; about 1 C out at the ends of 0 to 50 C."""
    return _celsius(1 / REFERENCE_KELVIN + math.log(ohms / nominal) / beta)


def steinhart_hart_temperature(ohms: float, a: float, b: float, c: float) -> float:
    """Return the temperature in C by 1/T = a + b ln R + c (ln R)^3.

    Steinhart, J. S. and Hart, S. R. (1968). Calibration curves for thermistors. Deep-Sea Research 15,
    497-503.
    """
    log = math.log(ohms)
    return _celsius(a + b * log + c * log**3)


def _celsius(per_kelvin: float) -> float:
    """Return the temperature in C of a reciprocal temperature, or raise OutOfRange where there is none."""
    if per_kelvin < 1 / MELTED_KELVIN:
        raise OutOfRange(
            "So few ohms are no temperature of this thermistor: it is shorted, or of another kind."
        )
    return 1 / per_kelvin - ZERO_CELSIUS


def _solve(*, ohms: float, nominal: float, beta: float, a: float, b: float, c: float) -> Result:
    rough = beta_temperature(ohms, nominal, beta)
    lines = [
        f"With {shown(nominal)} ohm at 25 C and beta {shown(beta)} K, {shown(ohms)} ohm is {rough:.1f} C.",
    ]
    value = rough
    if a:
        value = steinhart_hart_temperature(ohms, a, b, c)
        lines.append(f"By the Steinhart-Hart equation of the data sheet it is {value:.2f} C, which counts.")
    lines.append("An open lead looks like the coldest, a shorted one like the hottest temperature.")
    return Result(tuple(lines), value, "C", _verdict(value))


def _verdict(celsius: float) -> str:
    if celsius < COLDEST_CELSIUS:
        return "too cold to be true: suspect an open lead"
    if celsius > HOTTEST_CELSIUS:
        return "too hot to be true: suspect a shorted lead"
    return f"{celsius:.1f} C"


WORKOUT = work_out(
    "thermistor",
    "What temperature a thermistor's ohms mean",
    (
        Quantity("ohms", "resistance of the thermistor, unplugged", "ohm", 10.0, 1e7),
        Quantity("nominal", "its resistance at 25 C", "ohm", 100.0, 1e6, 10000.0),
        Quantity("beta", "its beta, in kelvin", "", 2000.0, 6000.0, 3950.0),
        Quantity("a", "Steinhart-Hart a (0 if only beta is known)", "", 0.0, 0.01, 0.0),
        Quantity("b", "Steinhart-Hart b", "", 0.0, 0.001, 0.0),
        Quantity("c", "Steinhart-Hart c", "", 0.0, 1e-5, 0.0),
    ),
    _solve,
)
