"""Thermistors, against the beta equation, Steinhart and Hart (1968) and a generic 10 k table."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from graph.errors import OutOfRange
from graph.physics import WORKOUTS
from graph.physics.thermistor import beta_temperature, resistance, steinhart_hart_temperature

# C, ohm: the common 10 k curve of resistance-temperature tables, from memory
GENERIC = (
    (0, 32650.0),
    (10, 19900.0),
    (20, 12490.0),
    (25, 10000.0),
    (40, 5327.0),
    (50, 3603.0),
    (85, 1070.0),
)
# its Steinhart-Hart coefficients through 0, 25 and 50 C
A, B, C = 1.125257e-3, 2.347204e-4, 8.563053e-8


@pytest.mark.parametrize(
    ("beta", "celsius", "ohms"),
    [
        (3950, -10, 58245.7), (3950, 0, 33620.6), (3950, 10, 20174.6), (3950, 25, 10000), (3950, 50, 3588.2),
        (3950, 85, 1086.7), (3435, -10, 46290), (3435, 0, 28704), (3435, 10, 18410), (3435, 50, 4101), (3435, 85, 1451),
    ],
)  # fmt: skip
def test_beta_equation(beta, celsius, ohms):
    """R = R25 exp(B (1/T - 1/298.15)), evaluated independently of this project."""
    assert resistance(celsius, 10000, beta) == pytest.approx(ohms, rel=1e-4, abs=0.5)
    assert beta_temperature(ohms, 10000, beta) == pytest.approx(celsius, abs=0.01)


def test_coefficients_of_the_generic_table():
    """Steinhart and Hart (1968), solved by numpy through three rows of the table."""
    rows = [(ohms, celsius) for celsius, ohms in GENERIC if celsius in {0, 25, 50}]
    logs = [[1, math.log(ohms), math.log(ohms) ** 3] for ohms, _ in rows]
    solved = np.linalg.solve(np.array(logs), np.array([1 / (celsius + 273.15) for _, celsius in rows]))

    assert list(solved) == pytest.approx([A, B, C], rel=1e-5)
    for ohms, celsius in rows:
        assert steinhart_hart_temperature(ohms, *solved) == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize(("celsius", "ohms"), [row for row in GENERIC if row[0] <= 50])
def test_steinhart_hart_between_the_rows_it_was_drawn_through(celsius, ohms):
    """Steinhart, J. S. and Hart, S. R. (1968), Deep-Sea Research 15, 497-503; table from memory, 0.02 C."""
    assert steinhart_hart_temperature(ohms, A, B, C) == pytest.approx(celsius, abs=0.02)
    assert WORKOUTS["thermistor"].solve(ohms=ohms, a=A, b=B, c=C).value == pytest.approx(celsius, abs=0.02)


@pytest.mark.parametrize(
    ("first", "second", "beta"),
    [((0, 32650), (50, 3603), 3891), ((25, 10000), (50, 3603), 3934), ((25, 10000), (85, 1070), 3978)],
)
def test_beta_depends_on_the_pair_of_temperatures_it_was_taken_between(first, second, beta):
    """The generic table, from memory: ln(R1/R2)/(1/T1 - 1/T2); each beta leads from one end to the other."""
    nominal = resistance(25, first[1], beta) * first[1] / resistance(first[0], first[1], beta)

    assert beta_temperature(second[1], nominal, beta) == pytest.approx(second[0], abs=0.02)


@pytest.mark.parametrize(("celsius", "ohms"), [(0, 27280), (50, 4160)])
def test_beta_alone_is_about_a_degree_out_at_the_ends(celsius, ohms):
    """A "10k/3435" table, from memory, against its own beta: 1.2 C."""
    assert beta_temperature(ohms, 10000, 3435) == pytest.approx(celsius, abs=1.2)


@settings(deadline=None)
@given(st.floats(300, 500000), st.floats(1.01, 3))
def test_more_ohms_are_colder(ohms, times):
    """So an open lead reads coldest and a shorted one hottest: direction of every NTC resistor."""
    assert beta_temperature(ohms * times, 10000, 3950) < beta_temperature(ohms, 10000, 3950)
    assert steinhart_hart_temperature(ohms * times, A, B, C) < steinhart_hart_temperature(ohms, A, B, C)


@settings(deadline=None)
@given(st.floats(-45, 125), st.floats(1000, 100000), st.floats(3000, 4500))
def test_ohms_and_back_is_the_same_temperature(celsius, nominal, beta):
    assert beta_temperature(resistance(celsius, nominal, beta), nominal, beta) == pytest.approx(
        celsius, abs=1e-6
    )


@pytest.mark.parametrize(("ohms", "suspect"), [(5e6, "open lead"), (100, "shorted lead"), (10000, "25.0 C")])
def test_a_temperature_too_odd_to_be_true_points_at_the_lead(ohms, suspect):
    """Reasoned from the circuit: open is the most ohms, shorted the fewest."""
    assert suspect in WORKOUTS["thermistor"].solve(ohms=ohms).verdict


def test_ohms_that_are_no_temperature_are_refused():
    with pytest.raises(OutOfRange, match="shorted, or of another kind"):
        WORKOUTS["thermistor"].solve(ohms=10, nominal=1e6, beta=2000)
