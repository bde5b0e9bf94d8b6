"""The act-or-ask rule against the exact optimum by dynamic programming, on small random systems."""

from __future__ import annotations

import numpy as np
import pytest
from optimum import Problem, optimum, policy_cost, random_problem

from graph.choose import Stop

PURE = Stop(certain=1.1, try_at=0.0, leftover=200.0, minute=1.0, unknown=1.1, humble=0.0, tells_nothing=1e-3)


def test_the_rule_costs_at_most_a_twentieth_more_than_the_optimum_at_the_median():
    ratios = [policy_cost(p, PURE) / optimum(p) for p in map(random_problem, range(24))]

    assert min(ratios) >= 1.0 - 1e-6
    assert np.median(ratios) <= 1.05


def test_the_optimum_of_a_single_certain_repair_is_its_cost():
    rows = (np.array([[0.9, 0.1]]),)
    problem = Problem(np.array([1.0]), (0,), rows, np.array([1.0]), np.array([30.0]), 200.0)

    assert optimum(problem) == pytest.approx(30.0)


def test_a_dear_repair_is_not_tried_where_giving_up_is_cheaper():
    rows = (np.array([[0.5, 0.5]]),)
    problem = Problem(np.array([1.0]), (0,), rows, np.array([1.0]), np.array([300.0]), 200.0)

    assert optimum(problem) == pytest.approx(200.0)
    assert policy_cost(problem, PURE) == pytest.approx(200.0, rel=1e-6)
