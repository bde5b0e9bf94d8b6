"""Pumps, regulators, cylinders on a scale and windings, against worked values; each names its source."""

import pytest

from graph.errors import OutOfRange
from graph.physics import WORKOUTS
from graph.physics.gas_left import gas_left
from graph.physics.pump_gas_use import drive_gas_density, gas_per_minute
from graph.physics.stall_pressure import stall_pressure
from graph.physics.winding_resistance import winding_resistance
from graph.units import STANDARD_ATMOSPHERE_PSI, convert


def test_a_pump_stalls_at_gas_plus_inlet():
    """Balance of forces on a one-to-one diaphragm: 60 psi of gas on 20 psi of mains is 80 psi."""
    result = WORKOUTS["stall_pressure"].solve(drive=60, inlet=20)

    assert stall_pressure(60, 20) == 80
    assert result.value == 80
    assert "75 to 85" in result.verdict


def test_a_litre_moved_at_seventy_psi_uses_six_litres_of_free_gas():
    """Boyle's law: (70 + 14.7)/14.7 = 5.76 L, about 10 g; rounded trade figures, common practice, no source."""
    density = drive_gas_density(70, STANDARD_ATMOSPHERE_PSI)

    assert density / drive_gas_density(0, STANDARD_ATMOSPHERE_PSI) == pytest.approx(84.7 / 14.7, rel=0.04)
    assert density == pytest.approx(10, rel=0.12)


def test_a_pump_that_strokes_each_second_empties_a_cylinder_in_hours():
    """100 mL a stroke at 70 psi: about 60 g/min, 3.6 kg/h; common practice, no source; 12 %."""
    result = WORKOUTS["pump_gas_use"].solve(strokes=60)

    assert result.value == pytest.approx(60, rel=0.12)
    assert result.value * 0.06 == pytest.approx(3.6, rel=0.12)
    assert "in 2.3 h" in result.verdict


def test_a_stroke_every_five_seconds_uses_six_kilograms_in_a_night():
    """8 hours at 70 psi and 100 mL; common practice, no source; 12 %."""
    assert gas_per_minute(70, 12 * 0.1, STANDARD_ATMOSPHERE_PSI) * 480 / 1000 == pytest.approx(6, rel=0.12)


def test_a_pump_at_rest_uses_nothing():
    result = WORKOUTS["pump_gas_use"].solve(strokes=0)

    assert result.value == 0
    assert result.verdict == "0.0 g of CO2 a minute"


@pytest.mark.parametrize(
    ("first", "second", "minutes", "rate", "verdict"),
    [
        (60, 62, 10, 2, "holds"),
        (60, 63, 10, 3, "holds"),
        (60, 63.5, 10, 3.5, "creeps"),
        (60, 80, 2, 100, "creeps"),
        (60, 61, 2, 5, "too short"),
        (60, 62, 20, 1, "holds"),
        (60, 50, 10, -10, "falling"),
    ],
)
def test_creep_is_more_than_three_psi_in_ten_minutes(first, second, minutes, rate, verdict):
    """Common practice, no source."""
    result = WORKOUTS["regulator_creep"].solve(first=first, second=second, minutes=minutes)

    assert result.value == pytest.approx(rate)
    assert result.verdict.startswith(verdict)


@pytest.mark.parametrize(
    ("gross", "share", "verdict"),
    [
        (22, 110.25, "more than a full charge"),
        (21, 99.23, "gas enough"),
        (13.5, 16.54, "running low"),
        (12.5, 5.51, "nearly empty"),
        (12, 0, "empty"),
        (11.8, 0, "empty"),
    ],
)
def test_contents_are_what_is_over_the_tare(gross, share, verdict):
    """Weighing is CGA P-1 practice; the limits are common practice, no source. 12 kg tare, 9.07 kg charge."""
    result = WORKOUTS["gas_left"].solve(gross=gross, tare=12)

    assert result.value == pytest.approx(share, abs=0.01)
    assert result.unit == "%"
    assert result.verdict.startswith(verdict)


def test_a_rate_of_use_says_how_many_litres_are_left():
    """Arithmetic: 4 kg at 8 g/L is 500 L; 20 lb is 9.07 kg (NIST SP 811)."""
    result = WORKOUTS["gas_left"].solve(gross=16, tare=12, fill=convert(20, "lb", "kg"), use=8)

    assert result.lines[-1].endswith("about 500 L of drink.")
    assert gas_left(16, 12) == 4


def test_a_cylinder_never_weighs_less_than_its_tare():
    with pytest.raises(OutOfRange, match="stamp"):
        WORKOUTS["gas_left"].solve(gross=11, tare=12)


def test_copper_gains_a_quarter_from_room_to_hot():
    """R2/R1 = (234.5 + t2)/(234.5 + t1): IEEE 112, from memory; 20 to 90 C is x1.275."""
    assert winding_resistance(1.0, 20, 90) == pytest.approx(1.275, abs=5e-4)
    assert WORKOUTS["winding_resistance"].solve(ohms=4, first=90).value == pytest.approx(4 / 1.275, rel=5e-4)


@pytest.mark.parametrize(
    ("height", "below", "verdict"), [(10, 40, "25.8 psi at the top"), (30, 40, "the water does not")]
)
def test_height_takes_its_pressure(height, below, verdict):
    """1 m of water at 15 C is 9.798 kPa or 1.421 psi (999.1 kg/m3, standard gravity)."""
    result = WORKOUTS["water_head"].solve(height=height, below=below)

    assert result.value == pytest.approx(1.421 * height, rel=1e-3)
    assert result.verdict.startswith(verdict)
