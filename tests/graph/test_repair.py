"""Expected cost of repair against every order and every outcome written out."""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import distributions

from graph.repair import batch_costs, cost_in_order, expected_cost, repair_order

costs = st.lists(st.integers(1, 200), min_size=4, max_size=4).map(
    lambda values: np.array(values, dtype=float)
)
shares = distributions(5, zeros=True).map(
    lambda row: np.array(row[:4])
)  # the fifth share: no repair meets it


def tried(probability, cost, order, leftover):
    """Return the expected cost of trying the repairs of `order`, one possible cause after the other."""
    whole = sum(cost[i] for i in order)
    total = (1.0 - sum(probability[i] for i in order)) * (whole + leftover)
    return total + sum(
        probability[cause] * sum(cost[i] for i in order[: order.index(cause) + 1]) for cause in order
    )


@given(shares, costs, st.floats(0.0, 500.0))
def test_no_order_and_no_moment_of_giving_up_costs_less(probability, cost, leftover):
    every = [
        tried(probability, cost, order, leftover)
        for size in range(5)
        for order in permutations(range(4), size)
    ]

    assert expected_cost(probability, cost, leftover) == pytest.approx(min(every))


@given(shares, costs)
def test_without_a_price_for_giving_up_all_repairs_are_tried(probability, cost):
    every = [tried(probability, cost, order, 0.0) for order in permutations(range(4))]

    assert expected_cost(probability, cost) == pytest.approx(min(every))


@given(shares, costs)
def test_the_cost_of_an_order_is_that_of_going_through_all_causes(probability, cost):
    order = repair_order(probability, cost)

    assert cost_in_order(probability, cost, order) == pytest.approx(
        tried(probability, cost, order.tolist(), 0.0)
    )


@given(shares, costs)
def test_the_order_falls_in_probability_over_cost_with_ties_by_position(probability, cost):
    order = repair_order(probability, cost).tolist()

    keys = [(-probability[i] / cost[i], i) for i in order]
    assert keys == sorted(keys)


@given(shares, costs, st.integers(0, 3), st.floats(0.0, 500.0))
def test_a_repair_of_infinite_cost_is_never_tried(probability, cost, gone, leftover):
    priced = cost.copy()
    priced[gone] = np.inf
    rest = [i for i in range(4) if i != gone]

    assert expected_cost(probability, priced, leftover) == pytest.approx(
        expected_cost(probability[rest], cost[rest], leftover)
    )


def test_when_nothing_can_be_tried_only_the_leftover_is_paid():
    nothing = np.full(2, np.inf)

    assert expected_cost(np.array([0.5, 0.2]), nothing, 100.0) == pytest.approx(100.0)
    assert batch_costs(np.array([[0.3, 0.2], [0.1, 0.4]]), nothing, 100.0).sum() == pytest.approx(100.0)


@given(distributions(18, zeros=True), costs, st.floats(0.0, 500.0))
def test_the_cost_after_a_check_is_the_mean_over_its_outcomes(cells, cost, leftover):
    """Four repairs, then nothing wrong and not in this graph; three outcomes."""
    joint = np.array(cells).reshape(6, 3)

    mean = sum(
        p * expected_cost(joint[:4, o] / p, cost, leftover)
        for o, p in enumerate(joint.sum(axis=0))
        if p > 0.0
    )

    assert batch_costs(joint, cost, leftover).sum() == pytest.approx(mean)


@given(distributions(18, zeros=True), costs, st.floats(0.0, 500.0))
def test_a_free_check_never_makes_repair_dearer(cells, cost, leftover):
    """What is known after it can only improve the order: Raiffa and Schlaifer (1961), section 4.5."""
    joint = np.array(cells).reshape(6, 3)

    without = expected_cost(joint.sum(axis=1)[:4], cost, leftover)

    assert batch_costs(joint, cost, leftover).sum() <= without + 1e-9
