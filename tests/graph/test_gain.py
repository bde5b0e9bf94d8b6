"""Gains in compact form against the textbook sum over all hypotheses; entropy against scipy."""

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st
from oracles import Dense, evidence_list, mutual_information, random_tables
from strategies import SLIPS, answers, distributions, situations, tables

from graph.arrays import entropy
from graph.belief import posterior
from graph.compile import Compiled, assemble
from graph.gain import fault_bits, gains, pairs_matter, single_gains
from graph.plan import make_plan
from graph.prior import Prior, prior

EXACT = 1e-12


def reckoned(of, given_answers, slip, cured=frozenset()):
    """Return the engine's gains of all checks."""
    plan = make_plan(of, range(of.checks), [slip] * of.checks, cured)
    return gains(of, plan, posterior(of, evidence_list(of, given_answers)))


@given(distributions(4, zeros=True))
def test_entropy_is_that_of_scipy(row):
    assert float(entropy(np.array(row))) == pytest.approx(scipy.stats.entropy(row, base=2), abs=EXACT)


@given(distributions(3, zeros=True), distributions(3, zeros=True), distributions(2))
def test_the_oracle_s_mutual_information_is_that_of_scipy(first, second, share):
    """I(X; Y) = H(X) + H(Y) - H(X, Y): Cover and Thomas (2006), Elements of Information Theory, 2.4."""
    joint = np.array([np.array(first) * share[0], np.array(second) * share[1]])
    parts = (joint.sum(axis=1), joint.sum(axis=0), joint.ravel())

    of_x, of_y, of_both = (float(scipy.stats.entropy(part, base=2)) for part in parts)

    assert mutual_information(joint) == pytest.approx(of_x + of_y - of_both, abs=EXACT)


@given(situations(), SLIPS, st.data())
@settings(max_examples=120, deadline=None)
def test_gains_are_the_textbook_sums_over_all_hypotheses(situation, slip, data):
    """About the hypothesis and about what to do: masks, joint rows, soft answers, cured faults, slips."""
    of, told = situation
    cured = frozenset(data.draw(st.lists(st.integers(0, of.faults - 1), max_size=2)))
    dense = Dense.of(of, 2, told)
    now = dense.posterior(told)

    found = reckoned(of, told, slip, cured)

    for check in range(of.checks):
        about_fault, about_remedy = dense.gain(now, check, slip, cured)
        assert found.fault_bits[check] == pytest.approx(about_fault, abs=EXACT)
        assert found.remedy_bits[check] == pytest.approx(about_remedy, abs=EXACT)
    assert np.allclose(found.remedy_mass, dense.todo(now), rtol=0.0, atol=EXACT)


@given(situations(zeros=True))
@settings(max_examples=60, deadline=None)
def test_rows_that_rule_outcomes_out_have_exact_gains_too(situation):
    of, told = situation
    dense = Dense.of(of, 2, told)
    now = dense.posterior(told)

    found = reckoned(of, told, 0.0)

    for check in range(of.checks):
        about_fault, about_remedy = dense.gain(now, check, 0.0)
        assert found.fault_bits[check] == pytest.approx(about_fault, abs=1e-10)
        assert found.remedy_bits[check] == pytest.approx(about_remedy, abs=1e-10)


@given(situations(), SLIPS)
@settings(max_examples=60, deadline=None)
def test_outcome_probabilities_and_the_joint_with_what_to_do_are_those_of_all_hypotheses(situation, slip):
    of, told = situation
    dense = Dense.of(of, 2, told)
    now = dense.posterior(told)

    found = reckoned(of, told, slip)

    for check in range(of.checks):
        count = int(of.outcomes[check])
        rows = np.array([dense.row(check, members, slip) for members in dense.sets])
        assert np.allclose(found.outcomes[check, :count], now @ rows, rtol=0.0, atol=EXACT)
        joint = found.joint[:, check, :count]
        assert np.allclose(joint, dense.targets(now[:, None] * rows), rtol=0.0, atol=EXACT)
        assert not found.outcomes[check, count:].any()


@pytest.mark.parametrize("seed", range(10))
def test_larger_tables_agree_too(seed):
    of = random_tables(seed, faults=12, checks=6)
    dense = Dense.of(of, 2)
    told = [
        (0, tuple(np.eye(int(of.outcomes[0]))[0]), 0.05),
        (1, tuple(np.eye(int(of.outcomes[1]))[-1]), 0.05),
    ]
    now = dense.posterior(told)

    found = reckoned(of, told, 0.05)

    expected = np.array([dense.gain(now, check, 0.05) for check in range(of.checks)])
    assert np.allclose(
        np.stack([found.fault_bits, found.remedy_bits], axis=1), expected, rtol=0.0, atol=EXACT
    )


@given(tables(several=1e-9), SLIPS, st.data())
@settings(max_examples=60, deadline=None)
def test_the_sparse_form_is_the_textbook_sum_over_single_faults(of, slip, data):
    told = data.draw(answers(of, most=3))
    now = posterior(of, evidence_list(of, told))
    plan = make_plan(of, range(of.checks), [slip] * of.checks)
    dense = Dense.of(of, 1)

    found = single_gains(of, plan, now)

    for check in range(of.checks):
        about_fault, about_remedy = dense.gain(dense.posterior(told), check, slip)
        assert found.fault_bits[check] == pytest.approx(about_fault, abs=1e-6)  # the pairs that are left
        assert found.remedy_bits[check] == pytest.approx(about_remedy, abs=1e-6)


def test_a_machine_of_one_fault_uses_the_sparse_form():
    weights = Prior(odds=np.array([0.5]), nothing=0.25, unknown=0.25, tail_bound=0.0)
    check = Compiled(((0.9, 0.1), (0.2, 0.8)), (False, False), {0: 1}, ())
    of = assemble(
        [check],
        weights,
        outcomes=[2],
        usual=[0],
        slips=[np.nan],
        mixes=[0.5],
        remedy=[0],
        component=[0],
        remedies=1,
        components=1,
    )
    dense = Dense.of(of, 1)

    found = reckoned(of, [], 0.0)

    assert not pairs_matter(of, posterior(of, []))
    assert (found.fault_bits[0], found.remedy_bits[0]) == pytest.approx(
        dense.gain(dense.posterior([]), 0, 0.0)
    )


@given(situations(), SLIPS)
@settings(max_examples=40, deadline=None)
def test_the_bound_used_by_the_search_is_the_gain_about_the_hypothesis(situation, slip):
    of, told = situation
    plan = make_plan(of, range(of.checks), [slip] * of.checks)
    now = posterior(of, evidence_list(of, told))

    bound = fault_bits(of, plan, now)

    assert np.allclose(bound, gains(of, plan, now).fault_bits, rtol=0.0, atol=EXACT)


def test_a_check_without_rows_tells_only_about_the_unknown():
    """Every fault shows the same; only a cause outside the graph may show something else."""
    check = Compiled(((0.9, 0.1),), (False,), {}, ())
    shared = {
        "outcomes": [2],
        "usual": [0],
        "slips": [np.nan],
        "remedy": [0, 1],
        "component": [0, 0],
        "remedies": 2,
        "components": 1,
    }
    weights = prior(np.array([0.01, 0.02]), 0.1, 0.03, 0.05)

    alike = reckoned(assemble([check], weights, mixes=[0.0], **shared), [], 0.0)
    apart = reckoned(assemble([check], weights, mixes=[1.0], **shared), [], 0.0)

    assert alike.fault_bits[0] == pytest.approx(0.0, abs=EXACT)
    assert alike.remedy_bits[0] == pytest.approx(0.0, abs=EXACT)
    assert apart.remedy_bits[0] == pytest.approx(apart.fault_bits[0], abs=EXACT)
    assert apart.remedy_bits[0] > 0.01


def test_a_plan_of_no_checks_has_no_gains_but_says_what_to_do():
    of = random_tables(0)
    plan = make_plan(of, [], [])
    now = posterior(of, [])

    found = gains(of, plan, now)

    assert len(found.remedy_bits) == 0
    assert float(found.remedy_mass.sum()) == pytest.approx(1.0)
