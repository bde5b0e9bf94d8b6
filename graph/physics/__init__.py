"""The physics behind readings: one small module a phenomenon, every one a calculation by name."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from graph.physics import (
    brix_off_card,
    brix_ratio,
    carbonation,
    catch_brix,
    cylinder_dial,
    cylinder_pressure,
    decay_temperature,
    freezing_point,
    gas_left,
    leak_rate,
    loop_current,
    loop_pressure,
    pressure_lost,
    probe_error,
    pump_gas_use,
    regulator_creep,
    room_co2,
    sensor_pressure,
    sensor_volts,
    signal_error,
    stall_pressure,
    stall_shortfall,
    thermistor,
    water_head,
    winding_resistance,
)
from graph.physics.workout import Quantity, Result, WorkOut

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["WORKOUTS", "Quantity", "Result", "WorkOut"]

_MODULES = (
    brix_off_card,
    brix_ratio,
    carbonation,
    catch_brix,
    cylinder_dial,
    cylinder_pressure,
    decay_temperature,
    freezing_point,
    gas_left,
    leak_rate,
    loop_current,
    loop_pressure,
    pressure_lost,
    probe_error,
    pump_gas_use,
    regulator_creep,
    room_co2,
    sensor_pressure,
    sensor_volts,
    signal_error,
    stall_pressure,
    stall_shortfall,
    thermistor,
    water_head,
    winding_resistance,
)

WORKOUTS: Mapping[str, WorkOut] = MappingProxyType(
    {module.WORKOUT.name: module.WORKOUT for module in _MODULES}
)
