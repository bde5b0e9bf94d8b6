"""Doubts about old lines: after a few turns nobody is asked any more what one meant."""

from __future__ import annotations

from casts import Told, parlour_case

from assistant.engine import confirming
from assistant.engine.confirming import PATIENCE
from assistant.facts import Fact

FLAT = Fact("symptom", "gas.flat", certain=False, words="sort of lifeless")
OTHERS = tuple(
    Fact("answer", name, value=value, certain=False, words=words)
    for name, value, words in (
        ("gas.valve_open", "open", "open i think"),
        ("gas.weight", "heavy", "weighs a lot"),
    )
)
DANGER = Fact("danger", "safety.room", value="alarm", certain=False, words="beeping")


def listening():
    return Told(parlour_case()).began("operator").chose("none", "dry")


def chatting(told, turns):
    for number in range(turns):
        told = told.said(f"mumble {number}")
    return told


def test_a_doubt_is_asked_about_at_once_and_the_next_one_after_it():
    told = listening().said("sort of lifeless, open i think", FLAT, OTHERS[0])
    assert (told.ask.about, told.ask.id) == ("confirm", "gas.flat")

    assert told.chose("no").ask.id == "gas.valve_open"


def test_a_doubt_about_a_line_that_is_long_past_is_dropped_without_a_word():
    told = listening().said("sort of lifeless, open i think, weighs a lot", FLAT, *OTHERS)
    told = chatting(told, PATIENCE).chose("no")

    assert told.ask.about != "confirm"
    assert told.state.doubts == ()
    assert "open i think" not in told.said_back()


def test_a_doubt_about_danger_is_never_dropped():
    told = listening().said("sort of lifeless, open i think, beeping", FLAT, OTHERS[0], DANGER)
    assert (told.ask.about, told.ask.id) == ("confirm", "safety.room")
    told = chatting(told, PATIENCE + 1)
    state = confirming.without_stale(told.case, told.state)

    assert [doubt.id for doubt in state.doubts] == ["safety.room"]


def test_a_doubt_that_comes_late_in_the_session_is_asked_about():
    told = chatting(listening(), PATIENCE + 3).said("the other one", Fact("symptom", "gas.flat"))
    told = told.said("barrel 1 is runny", Fact("symptom", "barrel.runny@1")).said(
        "no, 2", Fact("which", which=(2,))
    )

    assert told.ask.id == "moved"
