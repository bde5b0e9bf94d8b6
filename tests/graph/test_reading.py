"""Laws of readings: bands under instrument error, sensor lines, loop currents."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import halfnorm, norm

from graph.errors import OutOfRange
from graph.reading import (
    Band,
    Display,
    SensorRange,
    Signal,
    loop_from_percent,
    loop_signal,
    outcome_weights,
    percent_from_loop,
    pressure_from_volts,
    volts_from_pressure,
    volts_signal,
)

SUPPLY = (
    Band(None, 34, "gone"),
    Band(35, 64, "low"),
    Band(65, 72, "good"),
    Band(73, 98, "high"),
    Band(99, None, "top"),
)


@st.composite
def scales(draw):
    """Return bands in any order, with gaps and shared edges, the outer ends open or not."""
    ends = sorted(draw(st.lists(st.floats(-50, 150), min_size=2, max_size=10, unique=True)))
    if len(ends) % 2:
        ends.pop()
    shared = draw(st.booleans())
    pairs = list(pairwise(ends)) if shared else list(zip(ends[::2], ends[1::2], strict=True))
    bands = [Band(low, high, str(i)) for i, (low, high) in enumerate(pairs)]
    if draw(st.booleans()):
        bands[0] = Band(None, bands[0].high, "0")
        bands[-1] = Band(bands[-1].low, None, bands[-1].outcome)
    return tuple(draw(st.permutations(bands)))


READINGS = st.floats(-60, 160)
SIGMAS = st.one_of(st.just(0.0), st.floats(1e-3, 30))
DISPLAYS = st.one_of(st.none(), st.just(Display()))


@settings(deadline=None)
@given(READINGS, SIGMAS, scales(), DISPLAYS)
def test_weights_are_probabilities_that_sum_to_one(value, sigma, bands, display):
    weights = outcome_weights(value, sigma, bands, display)

    assert len(weights) == len(bands)
    assert all(0 <= weight <= 1 for weight in weights)
    assert math.fsum(weights) == pytest.approx(1, abs=1e-12)


@settings(deadline=None)
@given(READINGS, st.floats(0, 40), SIGMAS, scales())
def test_a_higher_reading_never_makes_the_lower_bands_likelier(value, more, sigma, bands):
    rising = sorted(range(len(bands)), key=lambda i: -math.inf if bands[i].low is None else bands[i].low)
    first, second = (outcome_weights(v, sigma, bands) for v in (value, value + more))

    for k in range(len(rising)):
        below = [math.fsum(weights[i] for i in rising[: k + 1]) for weights in (first, second)]
        assert below[1] <= below[0] + 1e-12


@settings(deadline=None)
@given(READINGS, SIGMAS, scales(), DISPLAYS, st.randoms(use_true_random=False))
def test_the_order_of_the_bands_does_not_matter(value, sigma, bands, display, random):
    order = list(range(len(bands)))
    random.shuffle(order)
    shuffled = outcome_weights(value, sigma, [bands[i] for i in order], display)

    assert shuffled == tuple(outcome_weights(value, sigma, bands, display)[i] for i in order)


@settings(deadline=None)
@given(st.floats(-20, 120), st.floats(0.01, 20))
def test_weights_are_the_areas_under_the_normal_curve(value, sigma):
    """scipy.stats.norm, an independent implementation of the normal distribution."""
    cuts = [-math.inf, 34.5, 64.5, 72.5, 98.5, math.inf]
    areas = [norm.cdf(b, value, sigma) - norm.cdf(a, value, sigma) for a, b in pairwise(cuts)]

    assert outcome_weights(value, sigma, SUPPLY) == pytest.approx(areas, abs=1e-12)


@settings(deadline=None)
@given(st.floats(0.01, 40))
def test_a_display_at_its_end_says_this_or_beyond(sigma):
    """The folded error is scipy.stats.halfnorm beyond the end."""
    bands = (Band(None, 90, "low"), Band(100, 110, "high"), Band(110, None, "burst"))
    above = halfnorm(99, sigma)
    top = outcome_weights(99, sigma, bands, Display())
    bottom = outcome_weights(0, sigma, (Band(None, -5, "suction"), Band(-5, None, "zero")), Display())

    assert top == pytest.approx([0, above.cdf(110), above.sf(110)], abs=1e-12)
    assert bottom == pytest.approx([halfnorm(0, sigma).sf(5), halfnorm(0, sigma).cdf(5)], abs=1e-12)


def test_a_display_short_of_its_ends_reads_like_any_instrument():
    assert outcome_weights(72, 2, SUPPLY, Display()) == outcome_weights(72, 2, SUPPLY)


def test_a_reading_on_an_edge_counts_for_both_sides_alike():
    low, high = outcome_weights(50, 2, (Band(0, 50, "low"), Band(50, 100, "high")))

    assert low == high == 0.5


@pytest.mark.parametrize(
    ("value", "outcome"),
    [
        (-5, "gone"),
        (34.5, "gone"),
        (34.6, "low"),
        (65, "good"),
        (72, "good"),
        (72.5, "good"),
        (72.6, "high"),
        (98.5, "high"),
        (99, "top"),
        (500, "top"),
    ],
)
def test_without_error_one_band_takes_all_and_gaps_close_at_their_midpoint(value, outcome):
    weights = outcome_weights(value, 0, SUPPLY)

    assert [band.outcome for band, weight in zip(SUPPLY, weights, strict=True) if weight] == [outcome]
    assert sum(weights) == 1


def test_without_error_a_shared_edge_belongs_to_the_lower_band():
    bands = (Band(0, 35, "low"), Band(35, 65, "middle"), Band(65, 99, "high"))

    assert outcome_weights(35, 0, bands) == (1, 0, 0)
    assert outcome_weights(65, 0, bands) == (0, 1, 0)
    assert outcome_weights(0, 0, bands) == (1, 0, 0)


@pytest.mark.parametrize(
    ("value", "sigma", "bands", "message"),
    [
        (math.nan, 1, SUPPLY, "finite"),
        (50, -1, SUPPLY, "finite numbers, error 0 or more"),
        (50, math.inf, SUPPLY, "finite"),
        (50, 1, (), "at least one band"),
        (50, 1, (Band(0, 40, "a"), Band(35, 60, "b")), '"a" and "b" overlap'),
        (50, 1, (Band(0, None, "a"), Band(35, 60, "b")), '"a" and "b" overlap'),
        (50, 1, (Band(40, 30, "a"),), "swap its ends"),
    ],
)
def test_what_cannot_be_weighed_is_refused_in_one_sentence(value, sigma, bands, message):
    with pytest.raises(OutOfRange, match=message):
        outcome_weights(value, sigma, bands)


@settings(deadline=None)
@given(
    st.floats(-50, 400),
    st.builds(
        SensorRange,
        full_scale=st.floats(10, 500),
        low_fraction=st.floats(0, 0.4),
        high_fraction=st.floats(0.5, 1),
        supply=st.floats(3, 15),
    ),
)
def test_volts_and_back_is_the_same_pressure(psi, sensor):
    assert pressure_from_volts(volts_from_pressure(psi, sensor), sensor) == pytest.approx(psi, abs=1e-9)


@settings(deadline=None)
@given(st.floats(0, 100), st.floats(3, 6), st.floats(3, 6))
def test_a_ratiometric_reading_does_not_mind_a_sagging_supply(psi, supply, other):
    first, second = (SensorRange(supply=volts) for volts in (supply, other))
    signal = volts_from_pressure(psi, first)

    assert pressure_from_volts(signal * other / supply, second) == pytest.approx(psi, abs=1e-9)


@settings(deadline=None)
@given(st.floats(0, 100))
def test_every_pressure_in_range_is_a_good_signal(psi):
    sensor = SensorRange()

    assert volts_signal(volts_from_pressure(psi, sensor), sensor) is Signal.GOOD


@settings(deadline=None)
@given(st.floats(-20, 130))
def test_percent_and_back_is_the_same_current(percent):
    assert percent_from_loop(loop_from_percent(percent)) == pytest.approx(percent, abs=1e-9)


@settings(deadline=None)
@given(st.floats(4, 20))
def test_every_current_in_range_is_a_good_signal(milliamps):
    assert loop_signal(milliamps) is Signal.GOOD


@pytest.mark.parametrize(
    ("kind", "message"),
    [
        ({"supply": 0.0}, "above zero"),
        ({"full_scale": -1.0}, "above zero"),
        ({"supply": math.nan}, "above zero"),
        ({"low_fraction": 0.9, "high_fraction": 0.1}, "low fraction"),
    ],
)
def test_a_sensor_that_cannot_be_is_refused(kind, message):
    with pytest.raises(OutOfRange, match=message):
        SensorRange(**kind)
