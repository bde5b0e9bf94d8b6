"""Laws of the expected information gain, against a slower second method where there is one."""

from dataclasses import replace

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st
from oracles import Answer, Dense, evidence_list
from strategies import SLIPS, moved_answers, renamed, situations, tables

from graph.belief import posterior
from graph.gain import gains
from graph.plan import make_plan

EXACT = 1e-12
law = settings(max_examples=60, deadline=None)


def gain(of, told, slip):
    plan = make_plan(of, range(of.checks), [slip] * of.checks)
    return gains(of, plan, posterior(of, evidence_list(of, told)))


def bits(probabilities):
    return float(scipy.stats.entropy(probabilities, base=2))


@given(situations(), SLIPS)
@law
def test_gain_is_never_negative_and_never_more_than_the_doubt_there_is(situation, slip):
    of, told = situation
    dense = Dense.of(of, 2, told)
    now = dense.posterior(told)

    found = gain(of, told, slip)

    assert found.fault_bits.min() >= 0.0
    assert found.remedy_bits.min() >= 0.0
    assert found.fault_bits.max() <= bits(now) + EXACT
    assert found.remedy_bits.max() <= bits(dense.todo(now)) + EXACT


@given(situations(), SLIPS)
@law
def test_gain_is_never_more_than_the_entropy_of_the_outcome(situation, slip):
    of, told = situation

    found = gain(of, told, slip)

    most = np.array([bits(row) for row in found.outcomes])
    assert np.all(found.fault_bits <= most + EXACT)


@given(situations(), SLIPS)
@law
def test_gain_is_the_mean_drop_in_entropy(situation, slip):
    """Lindley, D. V. (1956). On a measure of the information provided by an experiment. AMS 27(4)."""
    of, told = situation
    dense = Dense.of(of, 2, told)
    now = dense.posterior(told)

    found = gain(of, told, slip)

    for check in range(of.checks):
        rows = np.array([dense.row(check, members, slip) for members in dense.sets])
        share = now @ rows
        after = [now * rows[:, outcome] / p for outcome, p in enumerate(share)]
        left = sum(p * bits(belief) for p, belief in zip(share, after, strict=True))
        left_todo = sum(p * bits(dense.todo(belief)) for p, belief in zip(share, after, strict=True))
        assert found.fault_bits[check] == pytest.approx(bits(now) - left, abs=1e-9)
        assert found.remedy_bits[check] == pytest.approx(bits(dense.todo(now)) - left_todo, abs=1e-9)


@given(situations(), st.data())
@law
def test_gain_is_zero_when_the_outcome_ignores_the_fault(situation, data):
    """Every row of one check is made the same; nothing it shows depends on what is wrong."""
    of, told = situation
    check = data.draw(st.integers(0, of.checks - 1))
    row = of.rows[of.class_start[check]]
    rows, pairs, unknown, joint = (a.copy() for a in (of.rows, of.pair_rows, of.unknown_rows, of.joint_rows))
    rows[of.class_start[check] : of.class_start[check + 1]] = row
    pairs[of.pair_start[check] : of.pair_start[check + 1]] = row
    unknown[check] = row
    joint[of.joint_check == check] = row
    same = replace(of, rows=rows, pair_rows=pairs, unknown_rows=unknown, joint_rows=joint)

    found = gain(same, tuple(a for a in told if a.check != check), 0.02)

    assert found.fault_bits[check] == pytest.approx(0.0, abs=EXACT)
    assert found.remedy_bits[check] == pytest.approx(0.0, abs=EXACT)


@given(situations(), st.data())
@law
def test_renaming_and_reordering_faults_changes_no_gain(situation, data):
    of, told = situation
    order = np.array(data.draw(st.permutations(range(of.faults))))

    before, after = gain(of, told, 0.02), gain(renamed(of, order), moved_answers(told, order), 0.02)

    assert np.allclose(after.fault_bits, before.fault_bits, rtol=0.0, atol=EXACT)
    assert np.allclose(after.remedy_bits, before.remedy_bits, rtol=0.0, atol=EXACT)


@given(situations(), st.randoms(use_true_random=False))
@law
def test_the_order_of_answers_changes_no_gain(situation, random):
    of, told = situation

    first, second = gain(of, told, 0.02), gain(of, random.sample(told, len(told)), 0.02)

    assert np.allclose(first.remedy_bits, second.remedy_bits, rtol=0.0, atol=EXACT)


@given(situations())
@law
def test_a_person_who_errs_more_tells_less(situation):
    """A noisier channel behind the same check: the data processing inequality (Cover and Thomas 2006, 2.8)."""
    of, told = situation
    sharp, dull = (gain(of, told, slip) for slip in (0.0, 0.2))

    assert np.all(dull.fault_bits <= sharp.fault_bits + EXACT)
    assert np.all(dull.remedy_bits <= sharp.remedy_bits + EXACT)


@given(situations(), SLIPS)
@law
def test_no_check_tells_more_about_what_to_do_than_about_the_hypothesis(situation, slip):
    found = gain(*situation, slip)

    assert np.all(found.remedy_bits <= found.fault_bits + EXACT)


@given(situations(), SLIPS)
@law
def test_outcome_probabilities_sum_to_one_and_agree_with_the_joint(situation, slip):
    found = gain(*situation, slip)

    assert np.allclose(found.outcomes.sum(axis=1), 1.0, rtol=0.0, atol=EXACT)
    assert np.allclose(found.joint.sum(axis=0), found.outcomes, rtol=0.0, atol=EXACT)
    assert np.allclose(found.joint.sum(axis=2), found.remedy_mass[:, None], rtol=0.0, atol=EXACT)


@given(tables(), st.data())
@law
def test_an_outcome_has_the_probability_that_the_evidence_of_it_gets(of, data):
    """P(outcome) by the gain equals P(answers and outcome) / P(answers) by the posterior."""
    check = data.draw(st.integers(0, of.checks - 1))
    found = gain(of, (), 0.02)

    for outcome, seen in enumerate(np.eye(int(of.outcomes[check]))):
        answer = Answer(check, tuple(seen), 0.02)
        p = np.exp(posterior(of, evidence_list(of, [answer])).log_evidence)
        assert found.outcomes[check, outcome] == pytest.approx(float(p), abs=1e-10)
