"""A barrel named in an answer that is not about barrels counts only when that is confirmed."""

from __future__ import annotations

from dataclasses import replace

from casts import Told, shipped_case
from hearing import heard

from assistant.engine.events import Said
from assistant.engine.state import Question, Stage
from assistant.facts import Fact

VALVE = "gas_supply.cylinder_valve"
SAYS = "the cherry cup is under it but it was shut"


def asked_for_the_valve(barrels=()):
    """Return a session in which the valve of the gas bottle is asked about."""
    told = Told(shipped_case()).began("operator")
    open_now = Question("check", VALVE)
    return replace(
        told, state=replace(told.state, stage=Stage.NARROWING, open=open_now, doubts=(), barrels=barrels)
    )


def say(told, text):
    return told.event(Said(text, *heard(text, VALVE)))


def test_a_barrel_in_passing_is_asked_about_and_the_answer_stands():
    told = say(asked_for_the_valve(), SAYS)

    assert (told.ask.about, told.ask.id) == ("confirm", "aimed")
    assert told.ask.text == "You named barrel 2 (cherry). Is that where the trouble is?"
    assert any(answer.finding.check == VALVE for answer in told.state.answers)
    assert told.state.barrels == ()


def test_only_a_yes_makes_it_the_barrel_in_trouble():
    told = say(asked_for_the_valve(), SAYS)
    yes, no = told.chose("yes"), told.chose("no")

    assert (yes.state.barrels, no.state.barrels) == ((2,), ())
    assert not any(question.kind == "aimed" for each in (yes, no) for question in each.state.doubts)
    assert yes.ask.id != "aimed" != no.ask.id


def test_a_barrel_that_is_known_to_be_in_trouble_is_not_asked_about():
    told = say(asked_for_the_valve(barrels=(2,)), SAYS)

    assert told.ask.id != "aimed"
    assert told.state.barrels == (2,)


def test_what_cannot_be_done_at_one_barrel_is_not_asked_of_the_others():
    told = asked_for_the_valve()
    open_now = Question("check", "barrel.pressure_sag@1")
    told = replace(told, state=replace(told.state, open=open_now))
    cannot, unsure = told.chose("cannot"), told.chose("unsure")

    assert {f"barrel.pressure_sag@{barrel}" for barrel in (1, 2, 3)} <= set(cannot.state.settled)
    assert "barrel.pressure_sag@2" not in unsure.state.settled


def told_that_nothing_pours():
    told = Told(shipped_case()).began("operator")
    told = replace(
        told,
        state=replace(told.state, stage=Stage.LISTENING, open=Question("complaint", "complaint"), doubts=()),
    )
    guess = {"kind": "symptom", "certain": False, "score": 0.6, "words": "all three pour nothing"}
    every = Fact(id="product.nothing_comes_out", ref="S08", which=(1, 2, 3), **guess)
    return told.said("all three pour nothing", every, Fact(id="site.dead", ref="S48", **guess))


def test_the_same_at_every_barrel_is_said_once():
    told = told_that_nothing_pours()

    assert told.ask.options[0].label.endswith("and the barrel is not solid, every barrel")


def test_what_waits_behind_an_open_doubt_is_acknowledged_and_the_best_guess_comes_first():
    words = {"words": "gas valve on the cylinder is shut", "certain": False}
    shut = Fact("answer", VALVE, "K037", "shut", **words)
    told = told_that_nothing_pours().said(
        words["words"], shut, Fact("symptom", "warning.gas_low", "S19", **words)
    )

    assert "I come to that next" in told.said_back()
    asked = told.chose(told.ask.options[-1].id)
    assert "cylinder valve" in asked.ask.options[0].label
