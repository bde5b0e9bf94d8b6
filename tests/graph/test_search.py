"""The bounded search finds what reckoning every check finds."""

from __future__ import annotations

import numpy as np
import pytest
from oracles import evidence_list, random_tables

from graph.belief import posterior
from graph.gain import fault_bits, gains
from graph.plan import make_plan, select
from graph.search import best_checks


def _state(seed: int):
    tables = random_tables(seed, faults=12, checks=60)
    rng = np.random.default_rng(seed)
    answers = []
    for check in rng.permutation(tables.checks)[: int(rng.integers(0, 4))]:
        weights = np.zeros(int(tables.outcomes[check]))
        weights[int(rng.integers(len(weights)))] = 1.0
        answers.append((int(check), tuple(weights), 0.05))
    plan = make_plan(tables, range(tables.checks), [0.05] * tables.checks)
    return tables, plan, posterior(tables, evidence_list(tables, answers)), rng


@pytest.mark.parametrize("seed", range(40))
def test_the_search_finds_the_best_checks_of_all(seed):
    tables, plan, now, rng = _state(seed)
    minutes = rng.uniform(0.5, 10.0, tables.checks)
    keep = np.flatnonzero(rng.random(tables.checks) < 0.8)
    everything = gains(tables, plan, now).remedy_bits / minutes

    found = best_checks(tables, plan, now, minutes, keep, by="minutes", top=3)

    best = np.sort(everything[keep])[::-1][:3]
    reckoned = np.sort(found.gains.remedy_bits / minutes[found.positions])[::-1][:3]
    assert reckoned == pytest.approx(best, abs=1e-12)
    assert set(found.positions) <= set(keep)


def test_the_search_leaves_checks_unreckoned_that_cannot_win():
    tables, plan, now, _ = _state(3)
    minutes = np.where(np.arange(tables.checks) < 30, 1.0, 1e6)

    found = best_checks(tables, plan, now, minutes, np.arange(tables.checks), by="minutes", top=1)

    assert len(found.positions) < tables.checks


@pytest.mark.parametrize("seed", range(20))
def test_no_check_tells_more_about_what_to_do_than_about_the_hypothesis(seed):
    tables, plan, now, _ = _state(seed)

    assert np.all(gains(tables, plan, now).remedy_bits <= fault_bits(tables, plan, now) + 1e-12)


@pytest.mark.parametrize("seed", range(20))
def test_a_part_of_a_plan_gives_the_gains_of_the_whole(seed):
    tables, plan, now, rng = _state(seed)
    some = rng.permutation(tables.checks)[:17]

    whole, part = gains(tables, plan, now), gains(tables, select(plan, some), now)

    assert part.remedy_bits == pytest.approx(whole.remedy_bits[some], abs=1e-12)
    assert part.fault_bits == pytest.approx(whole.fault_bits[some], abs=1e-12)
    assert part.outcomes == pytest.approx(whole.outcomes[some], abs=1e-12)


@pytest.mark.parametrize("seed", range(20))
def test_a_rough_bound_is_off_by_less_than_it_says(seed):
    tables, plan, now, _ = _state(seed)

    off = fault_bits(tables, plan, now, rough=True) - fault_bits(tables, plan, now)

    assert np.abs(off).max() < 1e-5
