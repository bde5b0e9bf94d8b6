"""The pressure of CO2 over its liquid, as published.

Span, R. and Wagner, W. (1996), J. Phys. Chem. Ref. Data 25, 1509-1596, doi 10.1063/1.555991. Rows up
to 2 C are read from a printed R744 saturation table (Ohio University thermodynamics property tables);
rows from 5 C up are the same equation evaluated by a reference library.
"""

import pytest

from graph.errors import OutOfRange
from graph.physics import WORKOUTS
from graph.physics.carbon_dioxide import (
    CRITICAL_CELSIUS,
    CRITICAL_DENSITY,
    CRITICAL_KELVIN,
    CRITICAL_PASCAL,
    TRIPLE_KELVIN,
    liquid_density,
    liquid_share,
    saturation_pressure,
    vapour_density,
)
from graph.physics.cylinder_pressure import cylinder_pressure
from graph.units import STANDARD_ATMOSPHERE_PSI

# C, MPa absolute, psi gauge (None: not printed), liquid and vapour kg/m3, relative tolerance
ROWS = [
    (-20, 1.9696, 271.0, 1031.7, 51.70, 5e-4),
    (-10, 2.6487, 369.5, 982.9, 71.18, 5e-4),
    (0, 3.4851, 490.8, 927.4, 97.65, 5e-4),
    (1, 3.5783, None, None, None, 5e-4),
    (2, 3.6733, None, None, None, 5e-4),
    (5, 3.9695, 561.0, 896.0, 114.6, 1e-3),
    (10, 4.5022, 638.3, 861.1, 135.2, 1e-3),
    (15, 5.0871, 723.1, 821.2, 160.7, 1e-3),
    (20, 5.7291, 816.2, 773.4, 194.2, 1e-3),
    (21.1, 5.8785, 837.9, 761.3, 203.2, 1e-3),
    (25, 6.4342, 918.5, 710.5, 242.7, 1e-3),
    (30, 7.2137, 1031.6, 593.3, 345.1, 1e-3),
]


@pytest.mark.parametrize(("celsius", "megapascal", "psig", "liquid", "vapour", "rel"), ROWS)
def test_saturation_table(celsius, megapascal, psig, liquid, vapour, rel):
    assert saturation_pressure(celsius) / 1e6 == pytest.approx(megapascal, rel=rel)
    if psig is not None:
        assert cylinder_pressure(celsius, STANDARD_ATMOSPHERE_PSI) == pytest.approx(psig, rel=rel)
        assert liquid_density(celsius) == pytest.approx(liquid, rel=1e-3)
        assert vapour_density(celsius) == pytest.approx(vapour, rel=1e-3)


def test_printed_specific_volumes():
    """In the printed table, m3/kg: vapour .019343 (-20 C), .014048 (-10 C), .010241 (0 C), liquid .001078 (0 C)."""
    assert 1 / vapour_density(-20) == pytest.approx(0.019343, rel=1e-3)
    assert 1 / vapour_density(-10) == pytest.approx(0.014048, rel=1e-3)
    assert 1 / vapour_density(0) == pytest.approx(0.010241, rel=1e-3)
    assert 1 / liquid_density(0) == pytest.approx(0.001078, rel=1e-3)


@pytest.mark.parametrize(
    ("celsius", "liquid", "vapour"), [(0, 927.4, 97.65), (20, 773.4, 194.2), (25, 710.5, 242.7)]
)
def test_how_full_of_liquid_a_full_cylinder_is(celsius, liquid, vapour):
    """0.68 kg a litre (49 CFR 173.304a, from memory), parted by the densities of the table above."""
    share = (680 - vapour) / (liquid - vapour)

    assert liquid_share(celsius) == pytest.approx(share, rel=5e-3)
    assert f"liquid to {100 * share:.0f} %" in " ".join(
        WORKOUTS["cylinder_pressure"].solve(temperature=celsius).lines
    )


def test_near_its_critical_point_a_full_cylinder_is_all_liquid():
    """Above 27.4 C saturated liquid is lighter than 0.68 kg a litre: the table above between 25 and 30 C."""
    assert liquid_share(26) < 1.0
    assert liquid_share(30) == 1.0


def test_critical_point():
    """Span and Wagner (1996): 304.1282 K (30.978 C), 7.3773 MPa, 467.6 kg/m3."""
    assert pytest.approx(304.1282, rel=1e-6) == CRITICAL_KELVIN
    assert pytest.approx(30.978, abs=1e-3) == CRITICAL_CELSIUS
    assert saturation_pressure(CRITICAL_CELSIUS) == pytest.approx(7.3773e6, rel=1e-4)
    assert pytest.approx(7.3773e6) == CRITICAL_PASCAL
    assert liquid_density(CRITICAL_CELSIUS) == pytest.approx(467.6, rel=1e-4)
    assert pytest.approx(467.6) == CRITICAL_DENSITY


def test_triple_point():
    """Span and Wagner (1996): 216.592 K, 0.51795 MPa."""
    assert saturation_pressure(TRIPLE_KELVIN - 273.15) == pytest.approx(0.51795e6, rel=5e-4)


def test_pocket_guide_vapour_pressure():
    """NIOSH Pocket Guide, carbon dioxide: 56.5 atm, no temperature printed; it is that of 20 C."""
    assert saturation_pressure(20) / 101325 == pytest.approx(56.5, rel=5e-3)


@pytest.mark.parametrize(
    ("celsius", "psig"),
    [(-10, 369), (0, 491), (5, 561), (10, 638), (15, 724), (20, 816), (25, 917), (30, 1030)],
)
def test_trade_table_of_gauge_pressures(celsius, psig):
    """Standard property tables, from memory, 2 %."""
    assert cylinder_pressure(celsius, STANDARD_ATMOSPHERE_PSI) == pytest.approx(psig, rel=0.02)


@pytest.mark.parametrize("celsius", [31.0, 35.0, 60.0])
def test_above_the_critical_point_no_pressure_is_expected(celsius):
    """No liquid exists above 30.978 C (Span and Wagner 1996): the pressure then depends on contents."""
    with pytest.raises(OutOfRange, match=r"no liquid CO2 exists.*weigh"):
        WORKOUTS["cylinder_pressure"].solve(temperature=celsius)


def test_below_the_triple_point_no_liquid_is_expected():
    with pytest.raises(OutOfRange, match="solid"):
        saturation_pressure(-60)


def test_the_answer_says_to_weigh_because_pressure_tells_nothing_of_contents():
    """Gibbs phase rule: one substance in two phases has one degree of freedom; CGA P-1 practice is to weigh."""
    result = WORKOUTS["cylinder_pressure"].solve(temperature=20)

    assert result.value == pytest.approx(816.2, rel=1e-3)
    assert "weigh" in result.verdict
    assert any("nothing of how much" in line for line in result.lines)
