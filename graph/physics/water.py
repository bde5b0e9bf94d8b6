"""Properties of water: its density as a liquid and the pressure of its vapour."""

from __future__ import annotations

import math

from graph.physics.constants import ZERO_CELSIUS

CRITICAL_KELVIN = 647.096
CRITICAL_PASCAL = 22.064e6

_VAPOUR_TERMS = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)
_KELL = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)


def water_density(celsius: float) -> float:
    """Return the density of water in kg/m3 at one atmosphere, 0 to 100 C.

    Kell, G. S. (1975). Density, thermal expansivity, and compressibility of liquid water.
    J. Chem. Eng. Data 20(1), 97-105, equation 16.
    """
    return sum(a * celsius**n for n, a in enumerate(_KELL)) / (1 + 16.879850e-3 * celsius)


def water_vapour_pressure(kelvin: float) -> float:
    """Return the vapour pressure of water in Pa, triple point to critical point.

    Wagner, W. and Pruss, A. (1993), J. Phys. Chem. Ref. Data 22, 783-787, equation 1; adopted as
    IAPWS SR1-86(1992).
    """
    distance = 1 - kelvin / CRITICAL_KELVIN
    series = sum(a * distance**t for a, t in _VAPOUR_TERMS)
    return CRITICAL_PASCAL * math.exp(CRITICAL_KELVIN / kelvin * series)


def kelvin(celsius: float) -> float:
    """Return a temperature in K."""
    return celsius + ZERO_CELSIUS
