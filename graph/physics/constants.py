"""Constants of nature and of convention that several formulae share, each with its source."""

from __future__ import annotations

from graph.physics.workout import Quantity
from graph.units import STANDARD_ATMOSPHERE_PSI

GAS_CONSTANT = 8.314462618  # J/(mol K), exact since the SI of 2019; CODATA 2018
ZERO_CELSIUS = 273.15  # K
GRAVITY = 9.80665  # m/s2, standard acceleration of free fall, 3rd CGPM 1901
ATMOSPHERE_PASCAL = 101325.0  # standard atmosphere, 10th CGPM 1954
CO2_KG_PER_MOL = 44.0095e-3  # IUPAC standard atomic weights
WATER_KG_PER_MOL = 18.01528e-3  # IUPAC standard atomic weights
ROOM_CELSIUS = 20.0  # "free gas" here is gas at 20 C and one standard atmosphere
FULL_CHARGE_KG = 9.07  # 20 lb of CO2, a usual cylinder; common practice, no source

AIR_PRESSURE = Quantity(
    "air_pressure", "pressure of the atmosphere", "psia", 8.0, 16.0, STANDARD_ATMOSPHERE_PSI
)
