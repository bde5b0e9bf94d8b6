"""Conversion factors as published.

NIST Special Publication 811 (2008), Appendix B.8 and B.9, from memory unless said otherwise;
each is also what the exact definitions of pound, inch and standard gravity give.
"""

import pytest

from graph.units import convert, gauge_to_absolute


@pytest.mark.parametrize(
    ("value", "unit", "to", "published", "rel"),
    [
        (1, "psi", "Pa", 6894.757, 1e-7),  # SP 811 B.8
        (1, "bar", "Pa", 1e5, 1e-12),  # SP 811 B.8, exact
        (1, "bar", "psi", 14.503774, 1e-7),  # SP 811 B.8
        (1, "atm", "Pa", 101325, 1e-12),  # SP 811 B.8, exact
        (1, "atm", "psi", 14.695949, 1e-7),  # SP 811 B.8
        (1, "inHg", "Pa", 3386.389, 1e-6),  # SP 811 B.8, seen in a reprint of its format example
        (1, "mmHg", "Pa", 133.3224, 1e-6),  # SP 811 B.8, conventional
        (1, "ftH2O", "Pa", 2989.067, 1e-6),  # SP 811 B.8, conventional
        (1, "ftH2O", "psi", 0.4335275, 1e-6),  # SP 811 B.8
        (1, "psi", "ftH2O", 2.306659, 1e-6),  # its inverse
        (1, "mH2O", "Pa", 9806.65, 1e-6),  # SP 811 B.8, conventional
        (1, "bar", "mH2O", 10.19716, 1e-6),  # its inverse
        (1, "kPa", "psi", 0.1450377, 1e-6),  # SP 811 B.8
        (
            1,
            "psi",
            "kPa",
            6.895,
            1e-3,
        ),  # table of conversion factors of a gas users' group, as the next three
        (1, "psi", "inHg", 2.036, 1e-3),
        (1, "psi", "inH2O", 27.7, 1e-3),
        (1, "psi", "mbar", 68.95, 1e-3),
        (1, "lb", "kg", 0.45359237, 1e-9),  # SP 811 B.8, exact
        (1, "gal", "L", 3.785411784, 1e-9),  # SP 811 B.8, exact
        (1, "imperial gal", "L", 4.54609, 1e-9),  # SP 811 B.8, exact
        (1, "ft3", "L", 28.31685, 1e-6),  # SP 811 B.8
        (1, "kgf/cm2", "Pa", 98066.5, 1e-9),  # SP 811 B.8, exact
    ],
)
def test_pressure_and_other_factors_are_the_published_ones(value, unit, to, published, rel):
    assert convert(value, unit, to) == pytest.approx(published, rel=rel)


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(-40, -40), (0, 32), (4, 39.2), (100, 212)])
def test_temperatures_follow_the_definition_of_the_scales(celsius, fahrenheit):
    """SP 811 B.9: t/F = 1.8 t/C + 32, exact."""
    assert convert(celsius, "C", "F") == pytest.approx(fahrenheit, abs=1e-9)
    assert convert(fahrenheit, "F", "C") == pytest.approx(celsius, abs=1e-9)
    assert convert(celsius, "C", "K") == pytest.approx(celsius + 273.15, abs=1e-9)


def test_a_gauge_at_rest_in_air_stands_at_one_atmosphere():
    """Definition of gauge pressure: absolute less atmospheric; SP 811 for the atmosphere."""
    assert convert(gauge_to_absolute(0.0), "psia", "kPa abs") == pytest.approx(101.325, rel=1e-9)
