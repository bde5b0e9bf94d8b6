"""The same fact told twice in different words counts once, whichever came first."""

from dataclasses import replace

import pytest
from casts import shipped_case

from assistant.engine import complaint, evidence, open_state
from assistant.engine.state import Stage

DELIVERY, ASKED = ("history.after_delivery", "present"), ("scope.after_delivery", "gas_bottle")


def given(*answers):
    """Return the state of a technician's session after these answers."""
    case = shipped_case()
    state = replace(open_state(case), stage=Stage.NARROWING, role="technician", heard=True)
    for check, outcome in answers:
        state = evidence.answer(case, state, check, outcome)
    return state


def counted(state):
    return {answer.finding.check: answer.outcome for answer in state.answers}


@pytest.mark.parametrize("order", [(DELIVERY, ASKED), (ASKED, DELIVERY)])
def test_a_delivery_told_and_asked_about_counts_once(order):
    state = given(*order)

    assert counted(state) == dict([ASKED])
    assert shipped_case().believe(evidence.findings(state)) == shipped_case().believe(
        evidence.findings(given(ASKED))
    )
    assert {DELIVERY[0], ASKED[0]} <= set(state.settled)


def test_a_denied_delivery_does_not_cover_the_told_one():
    assert counted(given(DELIVERY, (ASKED[0], "no"))) == {**dict([DELIVERY]), ASKED[0]: "no"}


@pytest.mark.parametrize(
    ("told", "left"),
    [
        ([("scope.syrup_warning", "one"), ("warning.syrup_low_one@2", "present")], "warning.syrup_low_one@2"),
        ([("warning.syrup_low_one@2", "present"), ("scope.syrup_warning", "all")], "scope.syrup_warning"),
        (
            [
                *((f"warning.syrup_low_one@{n}", "present") for n in (1, 2, 3)),
                ("warning.syrup_low_all", "present"),
            ],
            "warning.syrup_low_all",
        ),
        ([("product.nothing_comes_out@3", "present"), ("product.solid@3", "present")], "product.solid@3"),
        ([("product.runny_all", "present"), ("product.runny_one@3", "present")], "product.runny_all"),
    ],
)
def test_a_warning_of_every_barrel_is_not_counted_for_each_of_them_too(told, left):
    assert list(counted(given(*told))) == [left]


def test_what_another_answer_says_too_is_not_taken_back():
    state = replace(given(DELIVERY, ASKED), story=(DELIVERY[0],), complaint="bad since the bottles came")

    assert complaint.standing(shipped_case(), state) == "bad since the bottles came"


def test_what_is_told_after_a_repair_is_no_repetition_of_what_was_told_before():
    case = shipped_case()
    state = replace(given(ASKED), stage=Stage.PROVING, remedy="gas_supply.change_cylinder")

    assert len(evidence.answer(case, state, *DELIVERY).answers) == 2
