"""What cannot wait: a danger or an order told at the very start, and what holds while it is not over."""

from __future__ import annotations

import pytest
from casts import Told, shipped_case
from hearing import heard

from assistant.engine import Stage
from assistant.engine.effects import Warn
from assistant.engine.events import Said
from assistant.facts import Fact

CHEMICAL = Fact("symptom", "product.chemical_taste", "S16", words="smells of chemicals")
RIVALS = (
    Fact("symptom", "product.chemical_taste", "S16", certain=False, words="tasting of cleaner"),
    Fact("symptom", "history.after_cleaning", "S59", certain=False, words="tasting of cleaner"),
)
FLAT = Fact("symptom", "product.flat_all", certain=False, words="kind of flat")


@pytest.fixture
def opened():
    return Told(shipped_case()).began("", site="")


def warned(told):
    return [effect.id for effect in told.all_shown if isinstance(effect, Warn)]


def test_a_taste_of_chemicals_told_first_stops_the_sale_before_who_and_where(opened):
    told = opened.said("smells of chemicals", CHEMICAL)

    assert "Stop selling" in told.said_back()
    assert "caution.food_safety" in warned(told)
    assert told.ask.id == "secured"
    told = told.chose("yes")
    assert told.ask.id == "role"
    assert told.state.secured[0][1] == "yes"


def test_where_it_was_told_with_the_role_only_the_site_is_asked_after_the_stop(opened):
    told = opened.said("technician here, it smells of chemicals", CHEMICAL).chose("no")

    assert (told.state.role, told.ask.id) == ("technician", "site")
    assert "Nothing from this machine is sold" in told.said_back()


def test_a_doubt_about_what_stops_the_sale_is_asked_before_who_and_where(opened):
    told = opened.said("its tasting of cleaner", *RIVALS)

    assert (told.ask.about, told.ask.id) == ("confirm", "product.chemical_taste")
    assert told.chose("1").ask.id == "secured"
    assert told.chose("no").ask.id == "role"


def test_any_other_doubt_waits_until_who_and_where_are_told(opened):
    told = opened.said("kind of flat", FLAT)
    assert told.ask.id == "role"
    told = told.chose("operator")
    assert told.ask.id == "site"
    told = told.said("Gull Point, foyer")

    assert told.state.site == "Gull Point, foyer"
    assert told.ask.id == "product.flat_all"


def test_a_taste_that_was_told_is_not_asked_for_by_the_safety_screen(opened):
    told = opened.said("smells of chemicals", CHEMICAL).chose("yes", "operator").said("Gull Point")
    asked = []
    while told.state.stage is Stage.SAFETY:
        asked.append(told.ask.id)
        told = told.chose("1")

    assert asked == [name for name in told.case.machine.safety if name in asked]
    assert "safety.gas_hiss" in asked
    assert "safety.worrying_taste" not in asked


def test_the_taste_counts_once_whichever_way_it_is_told(opened):
    told = opened.said("smells of chemicals", CHEMICAL)
    told = told.said("bleach", Fact("answer", "safety.worrying_taste", "K006", "chemical"))

    assert [answer.finding.check for answer in told.state.answers] == ["product.chemical_taste"]


def halted(words, check, outcome):
    return Told(shipped_case()).began("", site="").said(words, Fact("danger", check, value=outcome))


@pytest.mark.parametrize(
    ("check", "outcome", "holds"),
    [
        ("safety.gas_hiss", "alarm_or_unwell", "Nobody goes in"),
        ("safety.burning_or_shock", "burning", "Nobody touches the machine"),
        ("safety.wet_floor", "wet_near_electrics", "Nobody steps into the wet"),
        ("safety.anyone_unwell", "after_drinking", "Nothing from this machine is sold"),
    ],
)
def test_a_danger_stops_everything_before_who_and_where_and_says_what_holds_for_it(check, outcome, holds):
    told = halted("danger", check, outcome)
    assert (told.state.stage, told.ask.id) == (Stage.HALTED, "safe")
    told = told.chose("no")

    assert holds in told.said_back()
    assert ("Nobody goes in" in told.said_back()) == (holds == "Nobody goes in")


WANTS = (
    "can i nip in and turn the gas off",
    "I'll just pop in quickly",
    "is it safe to go in",
    "we will shut it ourselves then",
    "let me shut the bottle",
    "she'll go in and mop it up",
)


@pytest.mark.parametrize("words", WANTS)
def test_to_wanting_to_go_in_the_answer_is_a_plain_no(words):
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").said(words)

    assert "No. Nobody goes in, not even to shut the gas; from outside it may be shut." in told.said_back()


@pytest.mark.parametrize(
    "words", ["should I ring the fire brigade", "can we get everyone out", "what do I do"]
)
def test_what_the_caution_orders_is_not_refused(words):
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").said(words)

    assert "Leave the area now" in told.said_back()
    assert "No." not in told.said_back()


WHO = "emergency services, the gas supplier, a supervisor"
FITTING = {
    "how long does it take": "Nobody can say yet",
    "how long will this be?": "Nobody can say yet",
    "when can we open again": "Nobody can say yet",
    "will it be fixed today?": "Nobody can say yet",
    "what's the cause": "That has to wait",
    "how much will it cost": "That has to wait",
    "who is coming": "That has to wait",
    "is it dangerous": "Take it as dangerous",
    "what should I tell my manager": "Tell them that it stays shut",
}


@pytest.mark.parametrize(("words", "answer"), FITTING.items())
@pytest.mark.parametrize("asked", [(), ("yes",)])
def test_ordinary_questions_get_the_answer_that_fits_a_danger(words, answer, asked):
    """At the question who calls it over ("yes" to whether it is safe), a question says so of nobody."""
    facts, rest = heard(words)
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").chose(*asked)
    after = told.event(Said(words, facts, rest))

    assert answer in after.said_back()
    assert WHO in after.said_back()
    assert "Nobody goes in" in after.said_back()
    assert "needs no waiting" not in after.said_back()
    assert (after.state.stage, after.state.cleared) == (Stage.HALTED, ())


def test_where_a_thing_is_may_be_asked_but_what_holds_is_said_with_it():
    facts, rest = heard("where is the shut off")
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").event(
        Said("where is the shut off", facts, rest)
    )

    assert "Gas line shut-off" in told.said_back()
    assert "But for now: nobody goes in" in told.said_back()


@pytest.mark.parametrize(
    "words", ["the fire brigade is here", "fire service just arrived", "the gas man is looking"]
)
def test_that_somebody_has_come_is_not_yet_that_they_call_it_over(words):
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").chose("yes").said(words)

    assert (told.state.stage, told.state.cleared) == (Stage.HALTED, ())
    over = told.chose("yes").said("fire brigade is here and says it is safe")
    assert over.state.cleared[0][1] == "fire brigade is here and says it is safe"


@pytest.mark.parametrize(
    "words", ["should we close the foyer", "do I need to do anything else", "can I go home"]
)
def test_shutting_the_place_is_not_refused(words):
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").said(words)

    assert "Leave the area now" in told.said_back()
    assert "No." not in told.said_back()


def test_to_going_in_to_help_what_holds_is_said_with_what_is_to_be_done():
    told = halted("alarm", "safety.gas_hiss", "alarm_or_unwell").said("shall I go in and get him out")

    assert "Leave the area now" in told.said_back()
    assert "Nobody goes in, not even to shut the gas" in told.said_back()


def test_water_away_from_electrics_brings_one_caution_and_water_at_them_another():
    told = Told(shipped_case()).began("operator")
    while told.ask.id != "safety.wet_floor":
        told = told.chose("1")

    assert warned(told.chose("wet_away")) == ["caution.slips_and_pests"]
    assert warned(told.chose("wet_near_electrics")) == ["caution.water_near_electrics"]
