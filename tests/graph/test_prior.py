"""From rates per call to odds; sums over sets of faults written out as the second method."""

from itertools import combinations
from math import prod

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from graph.prior import DEEPEST, elementary, multiple_share, prior

rates = st.lists(st.floats(1e-4, 0.3), min_size=4, max_size=9).map(np.array)


def weight_of_sets(odds, size):
    """Return the sum of the products of odds over all sets of `size` faults."""
    return sum(prod(odds[i] for i in chosen) for chosen in combinations(range(len(odds)), size))


@given(rates)
def test_elementary_sums_are_sums_over_all_sets_of_faults(odds):
    sums = elementary(odds, DEEPEST)

    assert sums == pytest.approx([weight_of_sets(odds, size) for size in (1, 2, 3)], rel=1e-9)


def test_elementary_sums_of_equal_odds_are_binomial_coefficients():
    """e_k(1, ..., 1) of n variables is C(n, k): Macdonald (1995), Symmetric Functions, I.2, example 1."""
    assert elementary(np.ones(6), 3) == pytest.approx([6, 15, 20])


@given(rates, st.floats(0.01, 0.5))
def test_the_stated_share_of_calls_has_several_faults(rate, several):
    found = prior(rate, several, 0.03, 0.05)

    single, pair, triple = (weight_of_sets(found.odds, size) for size in (1, 2, 3))

    assert (pair + triple) / (single + pair + triple) == pytest.approx(several, rel=1e-6)
    assert multiple_share(found.odds) == pytest.approx(several, rel=1e-9)


@given(rates, st.floats(0.01, 0.5))
def test_odds_keep_the_proportion_of_rates(rate, several):
    odds = prior(rate, several, 0.03, 0.05).odds

    assert np.allclose(odds / odds[0], rate / rate[0], rtol=1e-9)


@given(rates, st.floats(0.0, 0.3), st.floats(0.0, 0.3))
def test_nothing_and_unknown_hold_the_shares_of_all_calls_that_the_pack_states(rate, nothing, unknown):
    found = prior(rate, 0.1, nothing, unknown)

    total = found.nothing + found.unknown + sum(weight_of_sets(found.odds, size) for size in (1, 2, 3))

    assert found.nothing / total == pytest.approx(nothing, rel=1e-9, abs=1e-12)
    assert found.unknown / total == pytest.approx(unknown, rel=1e-9, abs=1e-12)


@given(rates, st.floats(0.01, 0.5))
def test_what_truncation_leaves_out_is_at_most_the_bound(rate, several):
    found = prior(rate, several, 0.03, 0.05)
    kept = found.nothing + found.unknown + sum(weight_of_sets(found.odds, size) for size in (1, 2, 3))
    beyond = sum(weight_of_sets(found.odds, size) for size in range(4, len(rate) + 1))

    assert beyond / (kept + beyond) <= found.tail_bound * (1 + 1e-9) + 1e-12


def test_taking_rates_as_odds_unscaled_would_say_too_many_double_faults():
    """A hundred faults at 10 per 1000 calls: their odds sum to one, so 1/2 + 1/6 over 1 + 1/2 + 1/6 is 0.4."""
    rate = np.full(100, 0.01)

    assert multiple_share(rate) == pytest.approx(0.4, abs=0.005)
    assert multiple_share(prior(rate, 0.1, 0.03, 0.05).odds) == pytest.approx(0.1)


def test_a_single_fault_can_never_be_several():
    found = prior(np.array([0.01]), 0.1, 0.03, 0.05)

    assert found.tail_bound == 0.0
    assert found.nothing / (found.odds[0] + found.nothing + found.unknown) == pytest.approx(0.03)
    assert found.unknown / (found.odds[0] + found.nothing + found.unknown) == pytest.approx(0.05)


def test_no_double_faults_at_all_is_a_prior_too():
    odds = prior(np.array([0.01, 0.02, 0.03]), 0.0, 0.03, 0.05).odds

    assert multiple_share(odds) == pytest.approx(0.0, abs=1e-12)
    assert odds[2] / odds[0] == pytest.approx(3.0)


@pytest.mark.parametrize("several", [0.05, 0.1, 0.3, 0.6])
def test_the_bound_holds_for_many_equal_faults_where_it_is_tightest(several):
    """All sets together weigh (1 + odds)^n: the binomial theorem."""
    found = prior(np.full(400, 0.002), several, 0.03, 0.05)
    sums = elementary(found.odds, DEEPEST)
    kept = found.nothing + found.unknown + sum(sums)
    beyond = (1.0 + float(found.odds[0])) ** 400 - 1.0 - sum(sums)

    assert beyond / (kept + beyond) <= found.tail_bound * (1 + 1e-9)
