"""The measure of questions and of whole jobs: same cases for all, honest counts, answers as the rows say."""

from __future__ import annotations

import numpy as np
import pytest
from casts import parlour_case

from graph.jobs import Progress, carry, engine_job, flow_chart, send_likeliest, summarise_jobs
from graph.measure import (
    NOTHING,
    UNKNOWN,
    Hidden,
    adaptive,
    answer_of,
    draw_cases,
    draw_each,
    fixed_order,
    random_order,
    row_of,
    run,
    summarise,
)

ROLE = "technician"


@pytest.fixture(scope="module")
def case():
    return parlour_case()


@pytest.fixture(scope="module")
def hidden(case):
    return draw_cases(case, 120, 7)


def test_the_same_seed_draws_the_same_cases(case, hidden):
    assert draw_cases(case, 120, 7) == hidden
    assert draw_cases(case, 120, 8) != hidden


def test_cases_are_drawn_by_the_prior(case):
    """Shares of nothing, unknown and pairs within four standard errors of what the pack states."""
    drawn = draw_cases(case, 4000, 3)
    now = case.posterior(())
    for share, kind in (
        (now.nothing, lambda faults: faults == NOTHING),
        (now.unknown, lambda faults: faults == UNKNOWN),
        (now.pair_mass, lambda faults: len(faults) == 2),
    ):
        seen = np.mean([kind(one.faults) for one in drawn])
        kept = share / (1.0 - now.triple_mass)
        assert seen == pytest.approx(kept, abs=4 * np.sqrt(kept * (1 - kept) / 4000))


def test_each_common_fault_is_hidden_equally_often_at_each_of_its_places(case):
    above = sorted(fault.rate for fault in case.machine.faults)[len(case.machine.faults) // 2]
    drawn = draw_each(case, 6, above, 3)
    names = [case.machine.faults[one.faults[0]].base for one in drawn]

    assert set(names) == {fault.base for fault in case.machine.faults if fault.rate > above}
    assert all(names.count(name) == 6 for name in names)
    assert {len(one.faults) for one in drawn} == {1}
    assert draw_each(case, 6, 1e6, 3) == ()


def test_answers_are_drawn_from_the_rows(case):
    fault = case.machine.faults[0]
    check = next(
        c for c in case.machine.checks if any(r.key == fault.id for r in c.rows) and c.kind == "check"
    )
    row = row_of(case, case.position(check.id), (0,))
    seen = [answer_of(case, Hidden((0,), (), seed), check.id, "") for seed in range(3000)]

    shares = np.bincount(seen, minlength=len(row)) / 3000
    assert np.all(np.abs(shares - row) <= 4 * np.sqrt(row * (1 - row) / 3000) + 1e-9)


def test_the_engine_needs_fewer_checks_than_a_fixed_or_random_interview(case, hidden):
    certain = case.machine.settings.stop["certain"]
    policies = (adaptive(case, ROLE), fixed_order(case, ROLE, certain), random_order(case, certain, 1))

    engine, fixed, chance = (
        summarise([run(case, one, policy, ROLE, slips=True) for one in hidden]) for policy in policies
    )

    assert engine.cases == fixed.cases == chance.cases == 120
    assert engine.minutes_median < fixed.minutes_median
    assert engine.minutes_median < chance.minutes_median


def test_a_run_is_right_only_where_the_first_remedy_meets_a_fault_that_is_there(case):
    nothing = run(case, Hidden(NOTHING, (), 1), lambda *_: None, ROLE, slips=False)
    lead = case.believe(()).remedies[0][0]
    there = next(i for i, fault in enumerate(case.machine.faults) if fault.remedy == lead)
    other = next(i for i, fault in enumerate(case.machine.faults) if fault.remedy != lead)

    assert not nothing.right_remedy
    assert run(case, Hidden((there,), (), 1), lambda *_: None, ROLE, slips=False).right_remedy
    assert not run(case, Hidden((other,), (), 1), lambda *_: None, ROLE, slips=False).right_remedy


def test_whole_jobs_avoid_visits_that_sending_at_once_never_does(case, hidden):
    order = {c.id: i for i, c in enumerate(case.machine.checks)}
    single = [one for one in hidden if len(one.faults) == 1 and one.faults != UNKNOWN][:40]

    engine = summarise_jobs([engine_job(case, one) for one in single])
    likeliest = summarise_jobs([send_likeliest(case, one) for one in single])
    chart = summarise_jobs([flow_chart(case, one, order, 3) for one in single])

    assert likeliest.visits_avoided == 0.0
    assert engine.visits_avoided > 0.5
    assert engine.visits_mean < likeliest.visits_mean
    assert chart.cases == engine.cases == len(single)


def test_a_visit_where_there_is_nothing_that_the_pack_knows_is_counted_apart(case):
    known = next(
        i for i, fault in enumerate(case.machine.faults) if case.remedy(fault.remedy).by == ("technician",)
    )
    jobs = [send_likeliest(case, Hidden(faults, (), 1)) for faults in ((known,), NOTHING, UNKNOWN, NOTHING)]
    summary = summarise_jobs(jobs)

    assert [job.known for job in jobs] == [True, False, False, False]
    assert summary.nothing_to_cure == 0.75
    assert summary.cured_first_visit == float(jobs[0].first_visit)


def test_a_part_is_carried_when_its_chance_times_a_second_visit_exceeds_carrying_it(case):
    costs = case.machine.settings.costs
    carried = carry(case, Progress(frozenset(), (), {}))
    chance = {}
    for p, remedy in case.work_of("technician", case.believe(())):
        for part in remedy.parts:
            chance[part] = chance.get(part, 0.0) + p

    assert set(carried) == {
        part for part, p in chance.items() if p * costs["second_visit"] > costs["carry_part"]
    }
