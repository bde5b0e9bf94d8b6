"""Laws that hold for every belief, whatever the machine and the answers."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from oracles import REPAIR, Answer, evidence_list
from strategies import SLIPS, answers, moved_answers, renamed, situations, tables

from graph.belief import posterior

EXACT = 1e-12
law = settings(max_examples=80, deadline=None)


def believe(of, told):
    return posterior(of, evidence_list(of, told))


def numbers(now):
    """Return everything that a posterior states, as one array."""
    return np.array(
        [now.nothing, now.unknown, now.pair_mass, now.triple_mass, *now.marginals, *now.lead_share]
    )


def settled(of, told):
    """Return whether the last level was added by a margin: at its very threshold, rounding decides."""
    pairs = believe(of, told)
    return abs(pairs.pair_mass / (1.0 - pairs.triple_mass) - 0.05) > EXACT


@given(situations())
@law
def test_beliefs_sum_to_one(situation):
    now = believe(*situation)

    total = now.nothing + now.unknown + float(now.singles.sum()) + now.pair_mass + now.triple_mass

    assert total == pytest.approx(1.0, abs=EXACT)
    assert now.nothing + now.unknown + float(now.lead_share.sum()) == pytest.approx(1.0, abs=EXACT)


@given(situations())
@law
def test_every_belief_is_a_probability(situation):
    stated = numbers(believe(*situation))

    assert stated.min() >= 0.0
    assert stated.max() <= 1.0 + EXACT


@given(situations(), st.randoms(use_true_random=False))
@law
def test_the_order_of_answers_does_not_matter(situation, random):
    of, told = situation
    shuffled = random.sample(told, len(told))

    first, second = believe(of, told), believe(of, shuffled)

    if settled(of, told):
        assert np.allclose(numbers(first), numbers(second), rtol=0.0, atol=EXACT)
    assert first.log_evidence == pytest.approx(second.log_evidence, abs=1e-10)


@given(situations(), st.data())
@law
def test_renaming_and_reordering_faults_changes_nothing(situation, data):
    of, told = situation
    order = np.array(data.draw(st.permutations(range(of.faults))))

    before, after = believe(of, told), believe(renamed(of, order), moved_answers(told, order))

    if settled(of, told):
        assert np.allclose(after.marginals, before.marginals[order], rtol=0.0, atol=EXACT)
        assert np.allclose(after.lead_share, before.lead_share[order], rtol=0.0, atol=EXACT)
        assert after.unknown == pytest.approx(before.unknown, abs=EXACT)


@given(situations(), st.data())
@law
def test_an_answer_with_equal_weight_on_every_outcome_changes_nothing(situation, data):
    """Such is "not sure"."""
    of, told = situation
    check = data.draw(st.integers(0, of.checks - 1))
    unsure = Answer(check, (1.0,) * int(of.outcomes[check]), 0.05)

    if settled(of, told):
        assert np.allclose(
            numbers(believe(of, (*told, unsure))), numbers(believe(of, told)), rtol=0.0, atol=EXACT
        )


@given(situations(), st.data(), st.floats(0.01, 100.0))
@law
def test_only_the_proportion_of_the_weights_counts(situation, data, factor):
    of, told = situation
    check = data.draw(st.integers(0, of.checks - 1))
    seen = np.eye(int(of.outcomes[check]))[0] + 0.1
    first, second = (believe(of, (*told, Answer(check, tuple(seen * f), 0.05))) for f in (1.0, factor))

    if settled(of, (*told, Answer(check, tuple(seen), 0.05))):
        assert np.allclose(numbers(first), numbers(second), rtol=0.0, atol=EXACT)


@given(tables(several=0.001), SLIPS, st.data())
@law
def test_what_is_expected_to_be_believed_is_what_is_believed(of, slip, data):
    """The mean of the posterior over all answers is the prior: the martingale property of Bayes' rule.

    DeGroot, M. H. (1970), Optimal Statistical Decisions (from memory). It holds within one level of
    hypotheses, so cases where the triples come in are left out.
    """
    told = data.draw(answers(of, most=1))
    check = data.draw(st.integers(0, of.checks - 1))
    before = believe(of, told)
    after = [
        believe(of, (*told, Answer(check, tuple(seen), slip))) for seen in np.eye(int(of.outcomes[check]))
    ]
    assume(not any(now.triple_mass for now in (before, *after)))

    mean = sum(np.exp(now.log_evidence - before.log_evidence) * now.marginals for now in after)

    assert np.allclose(mean, before.marginals, rtol=0.0, atol=1e-10)


@given(situations(), st.data())
@law
def test_an_answer_more_likely_under_a_fault_than_under_all_others_makes_it_more_probable(situation, data):
    of, told = situation
    fault = data.draw(st.integers(0, of.faults - 1))
    before = believe(of, told)
    (seen,) = evidence_list(of, [Answer(REPAIR, (1.0, 0.0), 0.0, frozenset({fault}))])

    after = posterior(of, [*evidence_list(of, told), seen])

    single = after.singles[fault] / before.singles[fault]
    others = np.delete(after.singles / before.singles, fault)
    assert np.all(single > others)
    assert single > after.unknown / before.unknown
