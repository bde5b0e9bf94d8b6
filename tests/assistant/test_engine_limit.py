"""The limit on the interview: after so many questions what is known must do."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, parlour_case, shipped_case

from assistant.engine import deciding, evidence, open_state
from assistant.engine.effects import Decide
from assistant.engine.state import Stage
from assistant.facts import Fact

TUNE = "it hums a tune and the drinks come out striped"


def normal(ask, case):
    """Return the usual answer to a check, "no" to a symptom."""
    check = case.check(ask.id)
    usual = check.outcomes[check.usual].id if check.usual >= 0 else "unsure"
    return "no" if check.kind == "symptom" else usual


def interview(role, *facts):
    """Hold the interview in which everything is as it should be; return it with the checks asked."""
    told, asked = Told(shipped_case()).began(role), []
    while told.ask is not None and not any(isinstance(effect, Decide) for effect in told.shown):
        if told.ask.about in {"check", "symptom"}:
            asked += [told.ask.id] if told.ask.bits is not None else []
            told = told.chose(normal(told.ask, told.case))
        elif told.ask.id == "complaint":
            told = told.said(TUNE, *facts)
            told = told.said(TUNE) if told.ask.id == "complaint" else told
        else:
            told = told.chose("yes")
    return told, tuple(dict.fromkeys(asked))


@pytest.mark.parametrize("role", ["operator", "technician"])
def test_after_thirty_questions_it_is_decided_on_what_is_known_and_the_complaint_is_named(role):
    told, asked = interview(role)
    decision = next(effect for effect in told.shown if isinstance(effect, Decide))

    assert len(asked) <= told.case.machine.settings.stop["questions"] == 30
    assert decision.kind == "not_in_graph"
    assert any(TUNE in reason for reason in decision.reasons)


def test_the_reason_says_how_much_was_asked_where_that_ended_it():
    told, asked = interview("technician")
    decision = next(effect for effect in told.shown if isinstance(effect, Decide))

    assert len(asked) == 30
    assert "I have asked 30 questions" in decision.reasons[0]
    assert decision.probability == 0.0


def test_a_complaint_that_symptoms_cover_is_not_called_unexplained():
    told, _ = interview("technician", Fact("symptom", "product.flat_all"))
    decision = next(effect for effect in told.shown if isinstance(effect, Decide))

    assert not any("Nothing that I know explains" in reason for reason in decision.reasons)


def test_with_every_repair_refused_the_limit_still_ends_it():
    case = parlour_case()
    refused = tuple(remedy.id for remedy in case.machine.remedies)
    state = replace(open_state(case), stage=Stage.NARROWING, role="operator", open=None, declined=refused)
    after, shown = deciding.decide_now(case, state)

    assert shown[0].kind == "not_in_graph"
    assert after.stage is Stage.CLOSING


def test_at_the_limit_what_helps_more_likely_than_not_is_offered():
    case = parlour_case()
    state = replace(open_state(case), stage=Stage.NARROWING, role="operator", open=None)
    for check, outcome in (("gas.flat", "present"), ("gas.valve_open", "turns"), ("gas.weight", "heavy")):
        state = evidence.answer(case, state, check, outcome)
    after, shown = deciding.decide_now(case, state)

    assert (shown[0].kind, after.open.id) == ("phone_fix", "gas.open_valve")
    assert "Enough has been asked" in shown[0].reasons[-1]


def test_at_the_limit_a_try_that_costs_less_than_a_visit_is_offered_before_anyone_is_sent():
    case = shipped_case()
    state = replace(open_state(case), stage=Stage.NARROWING, role="operator", open=None, trained=True)
    for check, outcome in (("product.runny_all", "present"), ("refrigeration.room", "hot_neighbour")):
        state = evidence.answer(case, state, check, outcome)
    after, shown = deciding.decide_now(case, state)
    remedy, share = after.open.id, shown[0].probability

    assert shown[0].kind == "phone_fix"
    assert share < 0.5
    assert share * case.machine.settings.costs["visit"] > case.price(remedy, "operator")
    assert "costs less than sending somebody" in shown[0].reasons[-1]


def test_a_try_is_worth_it_where_its_chance_of_saving_the_visit_exceeds_its_cost():
    case = shipped_case()
    belief = case.believe((case.answer("product.nothing_comes_out@2", "present", "operator"),))
    visit, share = case.machine.settings.costs["visit"], dict(belief.remedies)
    tries = case.worth_a_try("operator", belief)
    left = [remedy.id for _, remedy in case.work_of("operator", belief) if remedy.id not in tries]

    assert tries
    assert all(share[name] * visit > case.price(name, "operator") for name in tries)
    assert all(
        share[name] * visit <= case.price(name, "operator")
        or share[name] <= max(belief.nothing, belief.unknown)
        for name in left
    )
    assert [share[name] for name in tries] == sorted((share[name] for name in tries), reverse=True)
