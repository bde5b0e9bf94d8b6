"""The posterior in compact form against every hypothesis written out."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from oracles import Answer, Dense, evidence_list, random_tables
from strategies import situations

from graph.belief import LEVEL_SHARE, posterior
from graph.compile import Compiled, assemble
from graph.errors import ImpossibleEvidence
from graph.prior import prior

EXACT = 1e-12


def compact(of, answers):
    return posterior(of, evidence_list(of, answers))


def written_out(of, answers, depth):
    """Return the oracle, and its posterior."""
    dense = Dense.of(of, depth, answers)
    return dense, dense.posterior(answers)


def mass(dense, now, size):
    """Return the probability of exactly `size` faults."""
    return sum(p for s, p in zip(dense.sets, now, strict=True) if len(s) == size and s != (-1,))


def one_check(rows, *, usual=0, faults=3, several=0.1, member=None, joint=()):
    """Return tables of a single check; fault f has row f + 1 unless `member` says otherwise."""
    listed = {f: f + 1 for f in range(len(rows) - 1)} if member is None else member
    check = Compiled(tuple(rows), (False,) * len(rows), listed, joint)
    return assemble(
        [check],
        prior(np.full(faults, 0.01), several, 0.03, 0.05),
        outcomes=[len(rows[0])],
        usual=[usual],
        slips=[np.nan],
        mixes=[0.5],
        remedy=list(range(faults)),
        component=[0] * faults,
        remedies=faults,
        components=1,
    )


def agree(of, answers):
    """Compare every number that a posterior states with the oracle at the level that was used."""
    found = compact(of, answers)
    dense, now = written_out(of, answers, 3 if found.triple_mass > 0.0 else 2)

    assert np.allclose(found.marginals, dense.marginals(now), rtol=0.0, atol=EXACT)
    assert np.allclose(found.singles, now[: of.faults], rtol=0.0, atol=EXACT)
    assert found.pair_mass == pytest.approx(mass(dense, now, 2), abs=EXACT)
    assert found.triple_mass == pytest.approx(mass(dense, now, 3), abs=EXACT)
    assert found.nothing == pytest.approx(now[dense.sets.index(())], abs=EXACT)
    assert found.unknown == pytest.approx(now[dense.sets.index((-1,))], abs=EXACT)
    lead = np.zeros(of.faults)
    for members, p in zip(dense.sets, now, strict=True):
        for fault, share in dense.next_of(members) if members not in ((), (-1,)) else ():
            lead[fault] += p * share
    assert np.allclose(found.lead_share, lead, rtol=0.0, atol=EXACT)


@given(situations())
@settings(max_examples=150, deadline=None)
def test_every_number_of_a_posterior_is_what_writing_all_hypotheses_out_gives(situation):
    """Masks, checks without a usual outcome, joint rows, slips, soft answers, cured faults, repairs."""
    agree(*situation)


@given(situations(zeros=True))
@settings(max_examples=100, deadline=None)
def test_a_row_may_rule_an_outcome_out(situation):
    agree(*situation)


@pytest.mark.parametrize("seed", range(20))
def test_larger_tables_agree_too(seed):
    of = random_tables(seed, faults=12, checks=8)
    rng = np.random.default_rng(seed)
    answers = [
        Answer(c, tuple(np.eye(int(of.outcomes[c]))[int(rng.integers(of.outcomes[c]))]), 0.05)
        for c in rng.permutation(8)[:5].tolist()
    ]

    agree(of, answers)


def test_two_contradicting_certainties_are_explained_by_both_faults():
    """Each fault rules out what the other shows; together they share the two outcomes equally."""
    of = one_check(((0.9, 0.05, 0.05), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))

    agree(of, [Answer(0, (0.0, 1.0, 0.0), 0.0)])


def test_without_answers_the_posterior_is_the_prior():
    of = random_tables(1)
    agree(of, [])


@given(situations())
@settings(max_examples=60, deadline=None)
def test_triples_come_in_when_pairs_hold_more_than_their_share(situation):
    of, answers = situation
    dense, now = written_out(of, answers, 2)
    pairs = mass(dense, now, 2)

    found = compact(of, answers)

    if abs(pairs - LEVEL_SHARE) > EXACT:
        assert (found.triple_mass > 0.0) == (pairs > LEVEL_SHARE and of.faults > 2)


@pytest.mark.parametrize("several", [0.001, 0.02])
def test_rare_double_faults_leave_the_triples_out(several):
    of = one_check(((0.5, 0.5), (0.5, 0.5)), several=several)

    assert compact(of, []).triple_mass == 0.0


@given(situations())
@settings(max_examples=60, deadline=None)
def test_the_evidence_has_the_probability_that_all_hypotheses_give_it(situation):
    """log_evidence is the log of P(all answers) over hypotheses of up to two faults."""
    of, answers = situation

    assert compact(of, answers).log_evidence == pytest.approx(
        float(np.log(Dense.of(of, 2).weigh(answers).sum())), abs=1e-10
    )


@given(situations(), st.data())
@settings(max_examples=40, deadline=None)
def test_the_probabilities_of_all_answers_to_a_check_sum_to_one(situation, data):
    of, _ = situation
    check = data.draw(st.integers(0, of.checks - 1))
    each = np.eye(int(of.outcomes[check]))

    total = sum(np.exp(compact(of, [Answer(check, tuple(seen), 0.05)]).log_evidence) for seen in each)

    assert total == pytest.approx(1.0, abs=1e-10)


def test_a_dominated_fault_keeps_its_digits_after_thirty_answers():
    """Twenty nats and more between two faults: subtraction of large sums would lose the pairs."""
    checks = [Compiled(((0.95, 0.05), (0.03, 0.97)), (False, False), {0: 1}, ())] * 30
    of = assemble(
        checks,
        prior(np.full(6, 0.01), 0.1, 0.03, 0.05),
        outcomes=[2] * 30,
        usual=[0] * 30,
        slips=[np.nan] * 30,
        mixes=[0.5] * 30,
        remedy=[0] * 6,
        component=[0] * 6,
        remedies=1,
        components=1,
    )

    agree(of, [Answer(c, (0.0, 1.0), 0.0) for c in range(30)])


@pytest.mark.parametrize(("nothing", "unknown"), [(0.0, 0.05), (0.03, 0.0), (0.0, 0.0)])
def test_a_pack_may_rule_nothing_or_unknown_out(nothing, unknown):
    weights = prior(np.array([0.01, 0.02, 0.03]), 0.1, nothing, unknown)
    of = replace(
        one_check(((0.9, 0.1), (0.1, 0.9))),
        odds=weights.odds,
        nothing=weights.nothing,
        unknown=weights.unknown,
    )

    agree(of, [Answer(0, (0.0, 1.0), 0.02)])


def test_an_answer_that_the_otherwise_row_rules_out_is_refused():
    of = one_check(((1.0, 0.0), (0.5, 0.5)))

    with pytest.raises(ImpossibleEvidence, match="otherwise row rules out"):
        compact(of, [Answer(0, (0.0, 1.0), 0.0)])


def test_a_pair_that_makes_an_event_true_together_speaks_with_its_own_row():
    """Neither fault shows anything alone; only both at once make outcome 1 likely."""
    of = one_check(((0.99, 0.01),), member={}, joint=((0, 1, (0.05, 0.95)),))

    found = compact(of, [Answer(0, (0.0, 1.0), 0.0)])

    agree(of, [Answer(0, (0.0, 1.0), 0.0)])
    assert found.marginals[0] > 5 * found.marginals[2]


def test_a_cured_fault_no_longer_speaks_but_stays_what_it_was_before():
    """After the cure the same answer tells nothing about that fault: it counts as `otherwise`."""
    of = one_check(((0.9, 0.1), (0.1, 0.9)))
    seen = (0.0, 1.0)

    before, after = compact(of, [Answer(0, seen, 0.0)]), compact(of, [Answer(0, seen, 0.0, frozenset({0}))])

    assert before.marginals[0] > 0.5
    assert after.marginals[0] == pytest.approx(after.marginals[1], abs=EXACT)


def test_a_double_fault_is_found_where_a_single_fault_engine_cannot():
    """Two faults, each the only cause of its own symptom; both symptoms seen for certain."""
    checks = [
        Compiled(((0.99, 0.01), (0.01, 0.99)), (False, False), {fault: 1}, ()) for fault in (0, 0, 1, 1)
    ]
    of = assemble(
        checks,
        prior(np.full(8, 0.01), 0.1, 0.03, 0.05),
        outcomes=[2] * 4,
        usual=[0] * 4,
        slips=[np.nan] * 4,
        mixes=[0.5] * 4,
        remedy=list(range(8)),
        component=list(range(8)),
        remedies=8,
        components=8,
    )
    answers = [Answer(c, (0.0, 1.0), 0.0) for c in range(4)]

    found = compact(of, answers)

    agree(of, answers)
    assert min(found.marginals[:2]) > 0.8
    assert found.singles.sum() < 0.05
