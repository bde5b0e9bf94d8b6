"""A flavour that the machine is not known to have: which barrel it is, is asked and then kept."""

from __future__ import annotations

import pytest
from casts import Told, shipped_case
from hearing import heard

from assistant.conversation import Setup
from assistant.engine.events import Said
from assistant.live import Live


def asked_for_the_complaint():
    told = Told(shipped_case()).began("operator")
    while told.ask.id != "complaint":
        told = told.chose("1")
    return told


def say(told, text):
    asked = told.ask.id if told.ask.about in {"check", "symptom"} else None
    facts, rest = heard(text, asked)
    return told.event(Said(text, facts, rest))


def test_a_flavour_that_is_not_here_is_asked_about_with_those_that_are():
    told = say(asked_for_the_complaint(), "the lemon is flat")

    assert (told.ask.about, told.ask.id) == ("confirm", "called")
    assert "no lemon on this machine" in told.ask.text
    assert [option.label for option in told.ask.options][:2] == [
        "Flat on one barrel, barrel 1 (cola)",
        "Flat on one barrel, barrel 2 (cherry)",
    ]
    assert not any("flat" in answer.finding.check for answer in told.state.answers)


@pytest.mark.parametrize("reply", ["2", "the middle one"])
def test_the_barrel_that_is_picked_takes_what_was_told_and_the_complaint_is_not_asked_again(reply):
    told = say(say(asked_for_the_complaint(), "the lemon is flat"), reply)
    if reply == "2":
        told = say(asked_for_the_complaint(), "the lemon is flat").chose(reply)

    assert [answer.finding.check for answer in told.state.answers if "flat" in answer.finding.check] == [
        "product.flat_one@2"
    ]
    assert told.state.complaint == "the lemon is flat"
    assert told.ask.id != "complaint"


def test_once_told_the_name_means_that_barrel():
    told = say(asked_for_the_complaint(), "the lemon is flat").chose("2")
    told = say(told, "its only the lemon")

    assert told.ask.id != "called"
    assert told.state.barrels == (2,)


def test_a_strange_flavour_beside_a_known_one_makes_it_two_barrels():
    told = say(asked_for_the_complaint(), "cola and lemon are flat").chose("3")

    flat = [answer.finding.check for answer in told.state.answers if "flat" in answer.finding.check]
    assert flat == ["product.flat_one@1", "product.flat_one@3"]


def test_none_of_these_leaves_out_what_was_told():
    told = say(asked_for_the_complaint(), "the lemon is flat").chose("no")

    assert not any("flat" in answer.finding.check for answer in told.state.answers)
    assert told.state.called == ()
    assert "the lemon is flat" in told.state.unheard


def test_a_strange_flavour_said_to_a_question_about_one_barrel_is_no_answer_for_it():
    told = asked_for_the_complaint().chose("skip")
    assert told.ask.id == "syrup.number_at_rest@1"
    told = say(told, "the lemon is flat")

    assert told.ask.id == "called"
    assert not any(answer.finding.check == "syrup.number_at_rest@1" for answer in told.state.answers)


def test_a_label_may_name_any_flavour():
    facts, _ = heard("lemon", "syrup.bag_label@1")

    assert not [fact for fact in facts if fact.kind == "which"]


def test_where_nobody_has_said_which_machine_it_is_no_flavour_is_invented():
    live = Live.of(Setup())
    texts = [check.title + " ".join(check.ask.values()) for check in live.machine.checks]

    assert not [text for text in texts if "cola" in text or "cherry" in text]
    assert any("barrel 2" in text for text in texts)
    facts, _ = live.hear("cherry is flat", "")
    assert ("which", "cherry", False) in [(fact.kind, fact.value, fact.certain) for fact in facts]
    assert live.header("0", "").flavours == live.setup.flavours != ()


def test_the_flavours_of_a_machine_that_is_named_stand():
    assert Live.of(Setup(profile="two_barrel")).machine.flavours == ("cola", "cherry")
    assert Live.of(Setup(flavours=("lime", "mango", "tea"))).machine.flavours == ("lime", "mango", "tea")
