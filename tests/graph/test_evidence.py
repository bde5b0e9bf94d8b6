"""Answers as evidence: slips, weights of evidence in decibans, conflict."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from oracles import Answer, Dense, evidence_list, random_tables
from strategies import SLIPS, distributions, sample_case, situations

from graph.evidence import (
    HELPED,
    HELPED_NOTHING,
    HELPED_UNKNOWN,
    check_evidence,
    decibans,
    repair_evidence,
    slipped,
)
from graph.findings import Finding
from graph.tables import Tables


@given(distributions(4, zeros=True), st.floats(0.0, 1.0))
def test_a_slip_is_a_noisy_channel_with_equal_chance_of_every_wrong_answer(row, slip):
    """The symmetric channel: Cover and Thomas (2006), Elements of Information Theory, section 7.2.2."""
    channel = np.full((4, 4), slip / 3) + np.eye(4) * (1 - slip - slip / 3)

    assert np.allclose(slipped(np.array(row), slip, 4), np.array(row) @ channel, rtol=0.0, atol=1e-12)


def test_a_slip_leaves_the_padding_empty_and_a_single_outcome_alone():
    assert slipped(np.array([0.9, 0.1, 0.0]), 0.1, 2).tolist() == pytest.approx([0.82, 0.18, 0.0])
    assert slipped(np.array([1.0, 0.0]), 0.1, 1).tolist() == [1.0, 0.0]


@pytest.mark.parametrize(
    ("ratio", "weight"),
    [(1.0, 0.0), (2.0, 3.0103), (10.0, 10.0), (100.0, 20.0), (0.5, -3.0103), (1.26, 1.0)],
)
def test_weight_of_evidence_in_decibans(ratio, weight):
    """Ten times the common logarithm of the factor.

    Good, I. J. (1950). Probability and the Weighing of Evidence, chapter 6 (from memory); the
    deciban is Turing's: a factor of ten is ten, and one (a factor of 1.26) is about the least to feel.
    """
    assert decibans(ratio) == pytest.approx(weight, abs=5e-3)


@given(situations(), st.data())
@settings(max_examples=60, deadline=None)
def test_class_and_pair_likelihoods_are_those_of_the_hypotheses(situation, data):
    of, _ = situation
    check = data.draw(st.integers(0, of.checks - 1))
    answer = Answer(check, data.draw(distributions(int(of.outcomes[check]))), data.draw(SLIPS))
    (seen,) = evidence_list(of, [answer])
    dense = Dense.of(of, 2)
    found = {(): seen.class_likelihood[0], (-1,): seen.unknown_likelihood}
    for a, first in enumerate(seen.member):
        found[(a,)] = seen.class_likelihood[first]
        found |= {(a, a + 1 + i): seen.pair_likelihood[first, c] for i, c in enumerate(seen.member[a + 1 :])}
    found |= {(a, b): likelihood for a, b, likelihood in seen.joint}

    assert found == pytest.approx({s: dense.likelihood(answer, s) for s in dense.sets}, abs=1e-12)


def test_a_cured_fault_counts_as_otherwise_and_takes_its_pairs_along():
    of = next(t for t in map(random_tables, range(50)) if len(t.joint_check))
    check, first = int(of.joint_check[0]), int(of.joint_first[0])
    weights = np.eye(int(of.outcomes[check]))[0]

    seen = check_evidence(of, check, weights, 0.0, (first,))

    assert seen.member[first] == 0
    assert all(first not in pair[:2] for pair in seen.joint)
    assert check_evidence(of, check, weights, 0.0).joint


def test_a_repair_helps_only_when_it_deals_with_every_fault_that_is_there():
    of = random_tables(0, faults=5)

    cured = repair_evidence(of, {0, 1}, (1.0, 0.0))

    alone, other, neither = cured.member[0], cured.member[4], 0
    assert cured.class_likelihood[alone] == HELPED[0][0]
    assert cured.class_likelihood[other] == HELPED[1][0]
    assert cured.class_likelihood[neither] == HELPED_NOTHING[0]
    assert cured.unknown_likelihood == HELPED_UNKNOWN[0]
    assert cured.pair_likelihood[alone, other] == pytest.approx(HELPED[0][0] * HELPED[1][0])
    assert cured.pair_likelihood[alone, alone] == pytest.approx(HELPED[0][0] ** 2)


def test_without_rows_for_pairs_evidence_still_speaks_of_single_faults():
    """Tables of a machine whose pairs are never looked at may leave the pair rows out."""
    of = random_tables(4, joint=False)
    values = {name: getattr(of, name) for name in Tables.__dataclass_fields__}
    bare = Tables(
        **{
            **values,
            "pair_rows": np.zeros((0, of.width)),
            "pair_start": np.zeros(of.checks + 1, dtype=np.int64),
        }
    )
    weights = np.eye(int(of.outcomes[0]))[0]

    seen = check_evidence(bare, 0, weights, 0.05)

    assert np.allclose(seen.class_likelihood, check_evidence(of, 0, weights, 0.05).class_likelihood)


# -- explaining and conflict, on the sample pack -----------------------------------------------

EMPTY, SHUT = "gas_supply.cylinder.empty", "gas_supply.cylinder_valve.shut"
VALVE, READING, FLAT = "gas_supply.cylinder_valve", "gas_supply.reading", "gas_supply.flat_drinks"


def told(*pairs):
    return tuple(sample_case().answer(check, outcome, "technician") for check, outcome in pairs)


def test_decibans_of_all_answers_add_up_to_the_change_of_the_log_odds():
    case = sample_case()
    findings = told((FLAT, "present"), (READING, "low"), (VALVE, "no"))

    weights = case.explain(findings, EMPTY)

    before, after = (case.believe(f).cause(EMPTY) for f in ((), findings))
    assert len(weights) == 3
    assert sum(weights) == pytest.approx(decibans(after / (1 - after)) - decibans(before / (1 - before)))


def test_an_answer_speaks_for_one_fault_and_against_another():
    findings = told((READING, "low"), (VALVE, "no"))

    for_empty, for_shut = (sample_case().explain(findings, fault)[1] for fault in (EMPTY, SHUT))

    assert for_empty > 0.0 > for_shut


def test_no_answers_have_no_weights_and_one_answer_has_no_conflict():
    case = sample_case()

    assert case.explain((), EMPTY) == ()
    assert case.conflict(()).suspect is None
    assert case.conflict(told((READING, "low"))).suspect is None
    assert case.conflict(told((READING, "low"))).bits == pytest.approx(0.0, abs=1e-9)


def test_answers_that_support_each_other_do_not_conflict():
    conflict = sample_case().conflict(told((FLAT, "present"), (READING, "low")))

    assert conflict.bits < 0.0
    assert conflict.suspect is None


def test_the_conflict_measure_is_the_log_of_single_over_joint_probabilities():
    """conf(x, y) = log [P(x) P(y) / P(x, y)].

    Jensen, F. V., Chamberlain, B., Nordahl, T. and Jensen, F. (1990). Analysis in HUGIN of data
    conflict. UAI 6. The probabilities come from every hypothesis written out.
    """
    case = sample_case()
    dense = Dense.of(case.tables, 2)
    findings = told((FLAT, "present"), (READING, "high"), (VALVE, "yes"))
    slip = case.machine.settings.slips["technician"]
    own = [case.tables.slip_own[case.position(f.check)] for f in findings]
    plain = [
        Answer(case.position(f.check), f.weights, slip if np.isnan(s) else float(s))
        for f, s in zip(findings, own, strict=True)
    ]

    single = np.prod([dense.weigh([answer]).sum() for answer in plain])
    bits = float(np.log2(single / dense.weigh(plain).sum()))

    assert case.conflict(findings).bits == pytest.approx(bits, abs=1e-9)


def test_the_suspect_is_the_answer_whose_removal_helps_most():
    """Flat drinks speak for lost gas, the reading against it, and no fault is raised by as much."""
    case = sample_case()
    findings = told((READING, "in_window"), ("safety.room", "no"), (FLAT, "present"))

    conflict = case.conflict(findings)
    without = [case.conflict(findings[:i] + findings[i + 1 :]).bits for i in range(3)]

    assert conflict.bits > 0.0
    assert conflict.suspect == int(np.argmin(without))


def test_an_answer_that_carries_nothing_changes_nothing():
    """A finding with equal weight on every outcome is "not sure"."""
    case = sample_case()
    unsure = Finding(READING, (1.0, 1.0, 1.0), "technician")

    assert dict(case.believe((unsure,)).causes) == pytest.approx(dict(case.believe(()).causes))


def test_surprise_that_the_leading_fault_explains_is_no_conflict():
    """Jensen et al. (1990), on rare cases: two answers that only a rare fault brings together."""
    case = sample_case()
    findings = told((FLAT, "present"), (VALVE, "yes"), (READING, "high"))

    assert case.conflict(findings).bits > 0.0
    assert case.conflict(findings).suspect is None
