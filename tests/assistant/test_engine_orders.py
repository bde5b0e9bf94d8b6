"""What an answer orders at once: asked whether it is done, before anything else, and kept."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, shipped_case

from assistant.engine import open_state
from assistant.engine.state import Stage
from assistant.facts import Fact

LIFTING = Fact("answer", "gas_supply.relief_bubbles", value="lifts_over")


def narrowing(role="technician"):
    state = replace(open_state(shipped_case()), stage=Stage.NARROWING, role=role, open=None, heard=True)
    return Told(shipped_case(), state).word("note", "begin")


def lifting():
    case = shipped_case()
    check = case.check("gas_supply.relief_bubbles")
    outcome = next(each for each in check.outcomes if each.then.startswith("Shut the cylinder"))
    return narrowing().said("it lifts, 88 psi", replace(LIFTING, value=outcome.id))


def test_after_a_relief_that_lifts_it_is_asked_whether_the_cylinder_is_shut_before_going_on():
    told = lifting()

    assert "Shut the cylinder" in told.said_back()
    assert (told.ask.about, told.ask.id, told.ask.text) == ("confirm", "secured", "Is the cylinder shut now?")
    assert told.word("why").ask == told.ask


@pytest.mark.parametrize(
    ("reply", "kept", "told_back"),
    [
        ("yes", "yes", "I keep that it is done"),
        ("no", "no", "keep well clear"),
        ("unsure", "no", "keep well clear"),
    ],
)
def test_the_reply_is_kept_and_shown_among_the_facts(reply, kept, told_back):
    told = lifting().chose(reply)

    assert told.state.secured == (("Shut the cylinder. Never plug the relief.", kept),)
    assert told.state.securing == ()
    assert told_back in told.said_back()
    assert told.ask.id != "secured"
    assert "hut the cylinder" in told.word("facts").said_back()


def test_an_answer_that_is_taken_back_orders_nothing_any_more():
    told = lifting().word("back")

    assert told.ask.id != "secured"


@pytest.mark.parametrize(
    ("check", "start"),
    [
        ("gas_supply.low_side_dial", "Above 90 psi"),
        ("gas_supply.soapy_water", "Shut the bottle"),
        ("gas_supply.frost", "Shut the bottle"),
        ("barrel.", "Stand clear"),
        ("site_power.breaker", "Leave it off"),
    ],
)
def test_the_pack_asks_for_a_yes_wherever_it_orders_something_to_be_shut_or_switched_off(check, start):
    ordered = [
        outcome.confirm
        for each in shipped_case().machine.checks
        if each.id.startswith(check)
        for outcome in each.outcomes
        if outcome.then.startswith(start)
    ]

    assert ordered
    assert all(question.endswith("?") for question in ordered)
