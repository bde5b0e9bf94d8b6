"""How many barrels the machine has: asked where it is unknown, taken from what is said, corrected."""

from __future__ import annotations

import pytest
from casts import Told
from hearing import heard

from assistant.engine import Stage, wanted
from assistant.engine.events import Said
from assistant.engine.placing import Wanted
from assistant.library import load_case
from assistant.live import UNKNOWN
from assistant.wording import barrels_said


@pytest.fixture(scope="module")
def unknown():
    return load_case(cache=False, flavours=UNKNOWN)


@pytest.fixture(scope="module")
def known():
    return load_case(cache=False)


def say(told, text):
    facts, rest = heard(text)
    return told.event(Said(text, facts, rest))


SAID = {
    "it's a two barrel": 2,
    "no its a 2 barrel machine": 2,
    "its a four barrel actually": 4,
    "the machine has four barrels": 4,
    "we've only got 2 barrels": 2,
    "twin barrel machine": 2,
    "ours is a 3 flavour one": 3,
    "it's got 2 barrels not three": 2,
}
NOT_SAID = (
    "two barrels are soup",
    "it's two barrels that wont freeze",
    "it's just the one barrel",
    "its the two barrels on the left",
    "only two barrels freeze",
    "we have two barrels out of order",
    "two barrel not freezing",
    "the other one is a two barrel",
    "it's not a two barrel",
    "is it a two barrel?",
    "both barrels",
    "it used to be a two barrel",
)


@pytest.mark.parametrize(("line", "number"), SAID.items())
def test_a_line_says_how_many_barrels_the_machine_has(line, number):
    said = barrels_said(line, asked=False)

    assert said is not None
    assert (said.number, said.rest) == (number, "")


@pytest.mark.parametrize("line", NOT_SAID)
def test_how_many_barrels_have_a_trouble_is_another_thing(line):
    assert barrels_said(line, asked=False) is None


IN_REPLY = {
    "just the two": 2,
    "4": 4,
    "three i think": 3,
    "er 3 i think": 3,
    "she says there's 2 handles": 2,
    "four different flavours": 4,
}


@pytest.mark.parametrize(("line", "number"), IN_REPLY.items())
def test_in_reply_a_bare_number_will_do(line, number):
    said = barrels_said(line, asked=True)

    assert said is not None
    assert said.number == number
    assert barrels_said(line, asked=False) is None


def test_what_else_a_line_says_is_left_of_it():
    said = barrels_said("Fisherman's Quay, it's a two barrel", asked=False)

    assert said is not None
    assert said.rest == "Fisherman's Quay"


def test_of_an_unknown_machine_the_number_is_asked_before_anything_of_the_machine(unknown):
    told = Told(unknown).began()

    assert (told.ask.about, told.ask.id) == ("intake", "barrels")
    assert [option.id for option in told.ask.options] == ["2", "3", "4", "unsure"]
    assert "three" not in told.said_back().casefold()


def test_of_a_known_machine_it_is_not_asked(known):
    assert Told(known).began().state.stage is Stage.SAFETY


def test_the_usual_number_stays_and_another_makes_it_another_machine(unknown):
    asked = Told(unknown).began()

    assert asked.chose("3").state.stage is Stage.SAFETY
    assert wanted(asked.chose("3").state) is None
    assert wanted(asked.chose("2").state) == Wanted("", "two_barrel")
    assert wanted(asked.chose("4").state) == Wanted("", "four_barrel")


def test_where_nobody_knows_the_number_is_said_as_an_assumption_and_how_to_put_it_right(unknown):
    told = Told(unknown).began().chose("unsure")

    assert told.state.stage is Stage.SAFETY
    assert "three barrels" in told.said_back()
    assert "it has two barrels" in told.said_back()
    assert wanted(say(told, "it has two barrels").state) == Wanted("", "two_barrel")


def test_said_before_it_is_not_asked(unknown):
    told = say(Told(unknown).began(site=""), "Gull Point, it's a two barrel")

    assert (told.state.site, told.state.stage) == ("Gull Point", Stage.SAFETY)
    assert wanted(told.state) == Wanted("", "two_barrel")


def test_beside_a_story_the_story_counts_too(unknown):
    told = say(Told(unknown).began().chose("unsure"), "it's a two barrel and all the drinks are flat")

    assert wanted(told.state) == Wanted("", "two_barrel")
    assert "flat" in told.state.complaint


def test_a_number_that_no_machine_has_is_said_to_be_unknown(unknown):
    told = say(Told(unknown).began(), "it has five barrels")

    assert "two, three or four barrels" in told.said_back()
    assert told.state.stage is Stage.SAFETY


def test_a_story_told_at_the_question_is_kept_and_no_site_is_spoken_of(unknown):
    told = say(Told(unknown).began(), "all the drinks are flat")

    assert "flat" in told.state.complaint
    assert told.ask.id == "barrels"
    assert "site" not in told.said_back()


def test_a_danger_at_the_question_comes_first(unknown):
    told = say(Told(unknown).began(), "hang on there's a gas alarm going")

    assert told.state.stage is Stage.HALTED


def test_another_number_than_that_of_a_known_machine_is_asked_about(known):
    told = say(Told(known).began(), "it's a two barrel")

    assert (told.ask.id, "three barrels" in told.ask.text) == ("barrels", True)
    assert wanted(told.state) is None
    assert wanted(told.chose("2").state) == Wanted("", "two_barrel")
    kept = told.chose("unsure")
    assert (wanted(kept.state), kept.ask.id) == (None, "safety.gas_hiss")


def test_the_known_number_said_again_changes_nothing(known):
    told = Told(known).began()
    again = say(told, "it's a three barrel")

    assert again.ask == told.ask
    assert wanted(again.state) is None
