"""What is out of service and what may be served: it follows from the answers, and nothing else is claimed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import shipped_case

from assistant.engine import Stage, deciding, evidence, open_state, serving

SHARED, AT_ONE = "gas_regulated.secondary_regulator.set_low", "blending.syrup_solenoid.not_opening@2"


def told(*answers, **more):
    """Return a state with some answers to checks of the shipped pack."""
    case = shipped_case()
    state = replace(open_state(case), stage=Stage.NARROWING, role="operator", open=None, **more)
    for check, outcome in answers:
        state = evidence.answer(case, state, check, outcome)
    return state


def decided(state, fault):
    case = shipped_case()
    return deciding.send(case, state, case.remedy(case.fault(fault).remedy), "certain")[1][0]


@pytest.mark.parametrize(
    ("outcome", "how_soon", "serve"),
    [
        ("all", "every barrel is affected", "Serve nothing that does not come out right."),
        ("one", "not every barrel is affected", "Leave the barrels off that are affected"),
        ("some", "not every barrel is affected", "Leave the barrels off that are affected"),
        ("only_numbers", "a number is wrong, but the drinks are not", "The drinks may be served"),
    ],
)
def test_how_many_barrels_are_affected_is_as_it_was_answered(outcome, how_soon, serve):
    state = told(("scope.one_or_all", outcome))

    assert how_soon in decided(state, SHARED).urgency
    assert decided(state, SHARED).meanwhile[0].startswith(serve)


def test_a_barrel_that_was_named_is_left_off_and_the_others_may_go_on():
    state = told(("product.pale@2", "present"))

    assert decided(state, AT_ONE).urgency == "soon: barrel 2 (cherry) is affected, as far as is told"
    assert serving.may_serve(shipped_case(), state) == (
        "Leave barrel 2 (cherry) off; the others may go on as long as their drink is right."
    )


def test_every_barrel_named_by_itself_is_every_barrel():
    state = told(*((f"product.pale@{number}", "present") for number in (1, 2, 3)))

    assert serving.affected(shipped_case(), state).how_many == "all"


def test_nothing_is_said_to_be_down_where_nobody_said_so():
    state = told(("scope.syrup_warning", "none"))

    assert decided(state, SHARED).urgency == "today: the cause may touch every barrel"
    assert serving.may_serve(shipped_case(), state) == ""


def test_an_answer_that_was_changed_counts_as_it_stands():
    state = told(("scope.one_or_all", "all"), ("scope.one_or_all", "only_numbers"))

    assert serving.affected(shipped_case(), state).how_many == "none"


def test_after_a_danger_nothing_is_said_to_be_fit_to_serve():
    state = told(("scope.one_or_all", "only_numbers"), hazards=("caution.co2_build_up",))

    assert serving.may_serve(shipped_case(), state) == ""
    assert decided(state, SHARED).urgency == "at once: safety"


def test_what_the_repair_itself_says_of_serving_goes_first():
    state = told(("scope.one_or_all", "all"))
    sent = decided(state, "gas_supply.cylinder.empty")

    assert sent.meanwhile[0].startswith("Drinks that still come out fizzy and firm may be served")
