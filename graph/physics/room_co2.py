"""What released CO2 does to the air of a closed room."""

from __future__ import annotations

from dataclasses import dataclass

from graph.errors import OutOfRange
from graph.physics.carbon_dioxide import gas_density
from graph.physics.constants import ATMOSPHERE_PASCAL
from graph.physics.workout import Quantity, Result, shown, work_out
from graph.units import convert

AIR_OXYGEN = 0.21  # share of oxygen in air as room calculations after BCGA guidance use it
OXYGEN_ALARM = 19.5  # percent at which oxygen meters usually alarm

EIGHT_HOURS_PPM = 5000.0  # OSHA PEL (29 CFR 1910.1000 Z-1), NIOSH REL, ACGIH TLV-TWA, HSE EH40/2005
HSE_SHORT_PPM = 15000.0  # HSE EH40/2005, 15 minutes
SHORT_PPM = 30000.0  # NIOSH ST and ACGIH TLV-STEL, 15 minutes; OSHA has none in force
DANGER_PPM = 40000.0  # NIOSH IDLH, documentation of May 1994


@dataclass(frozen=True, slots=True)
class RoomAir:
    """The air of a closed room after CO2 has mixed into it; both in percent by volume."""

    co2: float
    oxygen: float

    @property
    def ppm(self) -> float:
        """Return the CO2 in parts per million."""
        return convert(self.co2, "%", "ppm")


def free_volume(kg: float, celsius: float) -> float:
    """Return the m3 that a mass of CO2 takes up at one atmosphere.

    Mass over density: pressure times volume is no measure of a gas that is stored as a liquid.
    """
    return kg / gas_density(celsius, ATMOSPHERE_PASCAL)


def room_air(kg: float, room: float, celsius: float) -> RoomAir:
    """Return what a closed room of so many m3 breathes when kg of CO2 push that much air out.

    100 Vg/Vr and 21 (Vr - Vg)/Vr, as room calculations after BCGA GN11 do. It assumes even
    mixing: CO2 is 1.5 times as heavy as air, so near the floor there is more.
    Raises OutOfRange when the gas alone would fill the room.
    """
    share = free_volume(kg, celsius) / room
    if share >= 1:
        raise OutOfRange(
            f"{shown(kg)} kg of CO2 overfill a room of {shown(room)} m3: stay out, nobody can breathe there."
        )
    return RoomAir(100 * share, 100 * AIR_OXYGEN * (1 - share))


def _verdict(ppm: float) -> str:
    if ppm >= DANGER_PPM:
        return "immediately dangerous to life: stay out, call the emergency services and the gas supplier"
    if ppm >= HSE_SHORT_PPM:
        return "above a 15-minute limit: stay out and air the room from outside"
    if ppm > EIGHT_HOURS_PPM:
        return "above the 8-hour limit: leave, air the room, stop the gas from a safe place"
    return "below the 8-hour limit when evenly mixed; still measure it, low down"


def _solve(released: float, length: float, width: float, height: float, temperature: float) -> Result:
    room = length * width * height
    air = room_air(released, room, temperature)
    lines = (
        "Nobody goes in to find out: a CO2 meter decides, read from the door and low down.",
        (
            f"{shown(released)} kg of CO2 make {free_volume(released, temperature):.2f} m3 of gas at "
            f"{shown(temperature)} C; the room holds {room:.1f} m3."
        ),
        f"Evenly mixed that is {air.co2:.2f} % or {air.ppm:.0f} ppm; near the floor it is more.",
        (
            "Limits: 5,000 ppm for 8 hours (OSHA, NIOSH, ACGIH, HSE); 15,000 ppm (HSE) or 30,000 ppm "
            "(NIOSH, ACGIH) for 15 minutes; 40,000 ppm is immediately dangerous (NIOSH)."
        ),
        _oxygen_line(air),
    )
    return Result(lines, air.co2, "%", _verdict(air.ppm))


def _oxygen_line(air: RoomAir) -> str:
    """Return what an oxygen meter would show there, and that it does not clear the room."""
    silent = "stays silent" if air.oxygen > OXYGEN_ALARM else "alarms too"
    return (
        f"An oxygen meter would show {air.oxygen:.2f} % and {silent} (usual alarm {OXYGEN_ALARM} %): CO2 is "
        "poisonous long before oxygen runs short, so an oxygen meter never clears a room of CO2."
    )


WORKOUT = work_out(
    "room_co2",
    "What a release of CO2 does to a closed room",
    (
        Quantity("released", "CO2 that got out", "kg", 0.01, 1000.0),
        Quantity("length", "length of the room", "m", 0.5, 200.0),
        Quantity("width", "width of the room", "m", 0.5, 200.0),
        Quantity("height", "height of the room", "m", 0.5, 50.0, 2.5),
        Quantity("temperature", "temperature of the room", "C", -10.0, 40.0, 20.0),
    ),
    _solve,
)
