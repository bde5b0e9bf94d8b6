"""CO2 in a room, against published limits and worked room calculations."""

import pytest

from graph.errors import OutOfRange
from graph.physics import WORKOUTS
from graph.physics.carbon_dioxide import gas_density
from graph.physics.room_co2 import (
    DANGER_PPM,
    EIGHT_HOURS_PPM,
    HSE_SHORT_PPM,
    OXYGEN_ALARM,
    SHORT_PPM,
    free_volume,
    room_air,
)


def solve(kg, room):
    """Return the answer for a room of so many m3, one metre square and the rest long."""
    return WORKOUTS["room_co2"].solve(released=kg, length=room, width=1.0, height=1.0)


@pytest.mark.parametrize(
    ("limit", "published"),
    [
        (EIGHT_HOURS_PPM, 5000),  # 29 CFR 1910.1000 Table Z-1 (PEL); NIOSH REL; ACGIH TLV-TWA; HSE EH40/2005
        (HSE_SHORT_PPM, 15000),  # HSE EH40/2005 workplace exposure limit, 15 minutes
        (
            SHORT_PPM,
            30000,
        ),  # NIOSH Pocket Guide 2005-151 (ST); ACGIH TLV-STEL as quoted in the IDLH documentation
        (DANGER_PPM, 40000),  # NIOSH IDLH documentation 124389, May 1994; 50,000 is the value it replaced
    ],
)
def test_limits_are_the_ones_in_force(limit, published):
    assert limit == published


@pytest.mark.parametrize(("celsius", "density"), [(0, 1.9768), (20, 1.8393), (25, 1.8080)])
def test_density_of_the_gas(celsius, density):
    """Span and Wagner (1996) at one atmosphere, evaluated by a reference library."""
    assert gas_density(celsius, 101325) == pytest.approx(density, rel=1e-3)


def test_specific_volume_ppm_and_relative_density():
    """0.5437 m3/kg at 20 C; NIOSH Pocket Guide: 1 ppm = 1.80 mg/m3, relative gas density 1.53."""
    assert free_volume(1, 20) == pytest.approx(0.5437, rel=1e-3)
    assert gas_density(25, 101325) == pytest.approx(1.80, rel=6e-3)  # g per m3 and ppm is mg/m3
    assert gas_density(20, 101325) / 1.2041 == pytest.approx(
        1.53, abs=0.01
    )  # dry air 1.2041 kg/m3, from memory


@pytest.mark.parametrize(
    ("kg", "room", "co2", "oxygen"),
    [
        (9.07, 50, 9.86, 18.93),
        (9.07, 100, 4.93, 19.96),
        (6.35, 30, 11.51, 18.58),
        (22.7, 60, 20.57, 16.68),
    ],
)
def test_worked_rooms(kg, room, co2, oxygen):
    """100 Vg/Vr and 0.21 (Vr - Vg)/Vr: University of Nottingham safety calculators after BCGA GN11."""
    air = room_air(kg, room, 20)

    assert air.co2 == pytest.approx(co2, rel=2e-3)
    assert air.oxygen == pytest.approx(oxygen, rel=2e-3)
    assert solve(kg, room).value == pytest.approx(co2, rel=2e-3)


def test_a_twenty_pound_cylinder_makes_five_cubic_metres():
    """9.07 kg at 20 C: 4.931 m3 (Span and Wagner 1996)."""
    assert free_volume(9.07, 20) == pytest.approx(4.931, rel=2e-3)


def test_mass_counts_not_pressure_times_volume():
    """Brookhaven National Laboratory, oxygen deficiency hazard notes: p x V does not hold for a liquefied gas.

    For 13.4 L at 57.29 bar it would say 0.76 m3 instead of 4.93 m3.
    """
    pressure_times_volume = 13.4e-3 * 57.29e5 / 101325

    assert free_volume(9.07, 20) > 6 * pressure_times_volume


def test_an_oxygen_meter_does_not_clear_a_room_of_co2():
    """4.93 % CO2 is above the NIOSH IDLH of 4 %, yet oxygen reads 19.96 %, above the 19.5 % alarm."""
    air, result = room_air(9.07, 100, 20), solve(9.07, 100)

    assert air.ppm > DANGER_PPM
    assert air.oxygen > OXYGEN_ALARM
    assert "immediately dangerous" in result.verdict
    assert "19.96 % and stays silent" in result.lines[-1]
    assert "never clears a room of CO2" in result.lines[-1]


@pytest.mark.parametrize(
    ("kg", "room", "verdict"),
    [
        (0.9, 100, "below the 8-hour limit"),  # 0.49 %
        (0.95, 100, "above the 8-hour limit"),  # 0.52 %
        (2.7, 100, "above the 8-hour limit"),  # 1.47 %
        (2.8, 100, "above a 15-minute limit"),  # 1.52 %
        (7.3, 100, "above a 15-minute limit"),  # 3.97 %
        (7.4, 100, "immediately dangerous"),  # 4.02 %
    ],
)
def test_verdicts_change_at_the_limits(kg, room, verdict):
    """29 CFR 1910.1000, HSE EH40/2005, NIOSH IDLH."""
    assert solve(kg, room).verdict.startswith(verdict)


def test_the_caution_comes_before_any_figure():
    assert solve(9.07, 100).lines[0].startswith("Nobody goes in")


def test_more_gas_than_room_is_refused_with_the_danger_named():
    with pytest.raises(OutOfRange, match="stay out"):
        solve(50, 20)
