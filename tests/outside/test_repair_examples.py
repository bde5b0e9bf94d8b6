"""Order and expected cost of repair against small problems with every order worked out.

Heckerman, D., Breese, J. S. and Rommelse, K. (1995). Decision-theoretic troubleshooting. Communications of
the ACM 38(3), 49-57; Kadane, J. B. and Simon, H. A. (1977). Optimal strategies for a class of constrained
sequential problems. Annals of Statistics 5(2). The rule is theirs: with one fault and independent
actions, falling p / c is best. The figures are worked out.
"""

import numpy as np
import pytest

from graph.repair import cost_in_order, expected_cost, plan, repair_order


def by_name(costs):
    return [
        ([("ABC" if name[0] in "ABC" else "XYZ").index(c) for c in name], cost)
        for name, cost in costs.items()
    ]


@pytest.mark.parametrize(
    ("order", "cost"),
    by_name({"ABC": 11.7, "ACB": 11.4, "BAC": 10.2, "BCA": 8.7, "CAB": 9.9, "CBA": 8.4}),
)
def test_cost_of_every_order_of_three_repairs(order, cost):
    p, c = np.array([0.5, 0.3, 0.2]), np.array([10.0, 3.0, 1.0])

    assert cost_in_order(p, c, np.array(order)) == pytest.approx(cost)


def test_three_repairs_are_best_tried_in_falling_probability_over_cost():
    p, c = np.array([0.5, 0.3, 0.2]), np.array([10.0, 3.0, 1.0])

    assert repair_order(p, c).tolist() == [2, 1, 0]
    assert expected_cost(p, c) == pytest.approx(8.4)


LOOK_P, LOOK_COST, MEND_COST = (
    np.array([0.6, 0.3, 0.1]),
    np.array([20.0, 5.0, 1.0]),
    np.array([100.0, 30.0, 200.0]),
)


@pytest.mark.parametrize(
    ("order", "cost"),
    by_name({"XYZ": 111.1, "XZY": 110.9, "YXZ": 108.1, "YZX": 106.7, "ZXY": 109.5, "ZYX": 106.5}),
)
def test_cost_of_every_order_of_looking_and_then_mending(order, cost):
    """The cause found is mended whatever the order, so the mending cost is the same for all."""
    looking = cost_in_order(LOOK_P, LOOK_COST, np.array(order))

    assert looking + float(LOOK_P @ MEND_COST) == pytest.approx(cost)


def test_looking_goes_by_probability_over_the_cost_of_looking():
    assert repair_order(LOOK_P, LOOK_COST).tolist() == [2, 1, 0]


@pytest.mark.parametrize(("p", "first"), [(0.24, 1), (0.26, 0)])
def test_of_two_causes_the_first_is_looked_at_first_from_a_quarter_on(p, first):
    """Look at 1 first if and only if c1 / p <= c2 / (1 - p); with costs 10 and 30 that is p >= 1/4.

    Ross, S. M. (1983). Introduction to Stochastic Dynamic Programming (from memory).
    """
    order = repair_order(np.array([p, 1.0 - p]), np.array([10.0, 30.0]))

    assert order[0] == first


def test_the_plan_of_three_repairs_says_what_the_likeliest_first_would_cost():
    """The orders CBA and ABC of the table above."""
    found = plan([0.5, 0.3, 0.2], [10.0, 3.0, 1.0])

    assert found.order == (2, 1, 0)
    assert (found.cost, found.likeliest_first) == (pytest.approx(8.4), pytest.approx(11.7))
