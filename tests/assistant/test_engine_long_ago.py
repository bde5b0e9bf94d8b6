"""Changes of long ago are none just before the trouble."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, shipped_case
from hearing import heard

from assistant.engine.events import Said
from assistant.engine.state import Question, Stage
from assistant.facts import Fact


def listening():
    told = Told(shipped_case()).began("operator")
    while told.ask.id != "complaint":
        told = told.chose("1")
    return told


def say(told, text, asked=None):
    facts, rest = heard(text, asked)
    return told.event(Said(text, facts, rest))


def answers(told):
    return {answer.finding.check: answer.outcome for answer in told.state.answers}


@pytest.mark.parametrize(
    "line",
    ["filter changed last year", "they changed the gas bottle two years ago", "it was cleaned last month"],
)
def test_told_by_itself_it_is_a_note_and_no_evidence(line):
    told = say(listening(), line)

    assert "long before" in told.said_back()
    assert line in told.state.unheard
    assert not any(name.startswith("history.") for name in answers(told))
    assert not told.state.doubts
    assert told.ask.id == "complaint"


def test_what_else_the_line_tells_counts():
    told = say(listening(), "we changed the filter last year and the drinks are flat")

    assert answers(told)["product.flat_all"] == "present"


@pytest.mark.parametrize(
    ("line", "outcome"), [("the filter was changed last year", "no"), ("the filter was changed", "filter")]
)
def test_asked_what_was_changed_just_before_an_old_change_is_none(line, outcome):
    told = listening().chose("skip")
    asked = Told(told.case, replace(told.state, open=Question("check", "scope.after_delivery")), told.shown)
    told = say(asked, line, "scope.after_delivery")

    assert answers(told)["scope.after_delivery"] == outcome


def test_a_trouble_that_is_as_old_as_the_change_began_with_it():
    told = say(listening(), "everything is flat since the filter was changed last year")

    assert "long before" not in told.said_back()


def test_that_it_came_last_year_too_is_no_change():
    said = Fact("answer", "scope.happened_before", "K021", "seasonal", words="we had this last year")
    told = listening().said("we had this last year", said)

    assert answers(told)["scope.happened_before"] == "seasonal"


def test_a_closing_note_may_tell_of_an_old_change():
    told = listening()
    told = Told(
        told.case, replace(told.state, stage=Stage.CLOSING, open=Question("note", "note")), told.shown
    )
    told = say(told, "filter changed last year")

    assert told.state.closing_note == "filter changed last year"
