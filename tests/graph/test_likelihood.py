"""Rows from an author's words, and of several causes at once."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from oracles import drawn
from strategies import distributions

from graph.likelihood import combine, otherwise_row, row_from_anchors


@st.composite
def causes(draw):
    """Return rows of one to four causes, the usual outcome (or -1), and which rows mask."""
    outcomes = draw(st.integers(2, 4))
    count = draw(st.integers(1, 4))
    rows = [draw(distributions(outcomes, zeros=True)) for _ in range(count)]
    masks = draw(st.lists(st.booleans(), min_size=count, max_size=count))
    return rows, draw(st.integers(-1, outcomes - 1)), masks


@given(causes())
def test_several_causes_show_what_going_through_all_their_draws_gives(case):
    rows, usual, masks = case

    assert np.allclose(combine(rows, usual, masks), drawn(rows, usual, masks), rtol=0.0, atol=1e-12)


@given(causes())
def test_a_combined_row_sums_to_one(case):
    assert sum(combine(*case)) == pytest.approx(1.0, abs=1e-12)


@given(causes(), st.randoms(use_true_random=False))
def test_causes_have_no_order(case, random):
    rows, usual, masks = case
    shuffled = random.sample(range(len(rows)), len(rows))

    again = combine([rows[i] for i in shuffled], usual, [masks[i] for i in shuffled])

    assert again == pytest.approx(combine(rows, usual, masks), abs=1e-12)


@given(distributions(3), distributions(3), st.integers(0, 2))
def test_a_dead_sensor_hides_the_true_value(dead, healthy, usual):
    assert combine([dead, healthy], usual, [True, False]) == dead


def test_two_causes_of_one_symptom_are_a_noisy_or():
    """Pearl, J. (1988). Probabilistic Reasoning in Intelligent Systems, section 4.3.2: 1 - (1 - p)(1 - q)."""
    present, absent = combine([(0.8, 0.2), (0.5, 0.5)], 1, [False, False])

    assert present == pytest.approx(1 - 0.2 * 0.5)
    assert absent == pytest.approx(0.2 * 0.5)


def test_an_unusual_draw_wins_over_the_usual_one_and_two_unusual_ones_share():
    certain_low, certain_high, calm = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)

    assert combine([certain_low, calm], 1, [False, False]) == certain_low
    assert combine([certain_low, certain_high], 1, [False, False]) == (0.5, 0.0, 0.5)
    assert combine([certain_low, certain_low, certain_high], 1, [False] * 3) == pytest.approx(
        (2 / 3, 0, 1 / 3)
    )


def test_without_a_usual_outcome_causes_share_equally():
    assert combine([(0.9, 0.1), (0.3, 0.7)], -1, [False, False]) == pytest.approx((0.6, 0.4))


@pytest.mark.parametrize(
    ("outcomes", "usual", "share", "row"),
    [
        (2, 0, 0.9, (0.9, 0.1)),
        (3, 1, 0.9, (0.05, 0.9, 0.05)),
        (4, -1, 0.9, (0.25, 0.25, 0.25, 0.25)),
    ],
)
def test_a_cause_nobody_wrote_a_row_for_shows_the_usual_outcome(outcomes, usual, share, row):
    assert otherwise_row(outcomes, usual, share) == pytest.approx(row)


@pytest.mark.parametrize(
    ("outcomes", "anchors", "row"),
    [
        (3, {0: 0.95}, (0.95, 0.025, 0.025)),  # the rest is parted by the outcomes that do not list it
        (3, {0: 0.75, 2: 0.1}, (0.75, 0.15, 0.1)),
        (3, {0: 0.95, 1: 0.95}, (0.5, 0.5, 0.0)),  # twice "almost always": one or the other
        (2, {0: 0.4, 1: 0.1}, (0.8, 0.2)),  # listed under every outcome: nobody to take the rest
        (2, {1: 1.0}, (0.0, 1.0)),
    ],
)
def test_likelihood_words_become_a_row(outcomes, anchors, row):
    assert row_from_anchors(outcomes, anchors) == pytest.approx(row)


@given(
    st.integers(2, 6).flatmap(
        lambda n: st.tuples(
            st.just(n),
            st.dictionaries(st.integers(0, n - 1), st.sampled_from((0.95, 0.75, 0.4, 0.1)), min_size=1),
        )
    )
)
def test_a_row_from_words_sums_to_one(case):
    row = row_from_anchors(*case)

    assert sum(row) == pytest.approx(1.0, abs=1e-12)
    assert min(row) >= 0.0
