"""Time: how long a step takes by the clock, done too early, and when to look again."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, shipped_case
from repairing import doing, proving

from assistant.clock import clock_after, minutes_between
from assistant.engine import step
from assistant.engine.effects import Closed
from assistant.engine.events import Asked, Chose
from assistant.engine.state import Stage

NOON = "2026-11-25T12:00:00+00:00"


def at(told, event, time):
    """Return the conversation after an event that happened at a time of that day."""
    state, shown = step(told.case, told.state, event, f"2026-11-25T{time}+00:00")
    return Told(told.case, state, shown, (*told.all_shown, *shown), (*told.events, event))


def opening(time="12:00:00"):
    """Return the repair at the step that takes two minutes, first shown at a time."""
    return at(doing().read(0.1, "%"), Chose("yes"), time)


# -- the clock -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("start", "minutes", "shown"),
    [
        (NOON, 30, "12:30"),
        ("2026-07-01T23:50:00+01:00", 20, "00:10 tomorrow"),
        ("2026-07-01T09:00:00", 5, "09:05"),
        ("", 5, ""),
        ("no time", 5, ""),
        (NOON, 1e18, ""),
    ],
)
def test_the_clock_on_the_wall_later_on(start, minutes, shown):
    assert clock_after(start, minutes) == shown


@pytest.mark.parametrize(
    ("zone", "shown"),
    [
        ("2026-11-25T09:00:00+00:00", "12:30"),
        ("2026-11-25T10:00:00+01:00", "13:30 by the clock at the site"),
        ("2026-11-25T22:00:00+13:00", "01:30 by the clock at the site"),
        ("2026-11-25T09:00:00", "12:30"),
        ("", "12:30"),
    ],
)
def test_the_clock_that_is_told_hangs_at_the_site(zone, shown):
    assert clock_after(NOON, 30, zone) == shown


def test_who_goes_on_in_another_zone_is_told_the_time_of_the_site():
    begun = opening()
    elsewhere, shown = step(begun.case, begun.state, Asked("why"), "2026-11-25T13:00:30+01:00")

    assert "until 12:02." in begun.ask.text
    assert "until 12:02." in shown[-1].text
    assert elsewhere.zone == begun.state.zone


def test_minutes_between_two_times_count_across_zones_and_only_between_times():
    assert minutes_between(NOON, "2026-11-25T14:30:00+02:00") == 30
    assert minutes_between(NOON, "") is None
    assert minutes_between("2026-11-25T12:00:00", NOON) is None


# -- a step that takes its time ------------------------------------------------------------------


def test_a_step_with_a_wait_says_until_when_by_the_clock():
    assert "Allow about 2 minutes for it, until 12:02." in opening().ask.text


def test_the_time_is_counted_from_when_the_step_was_first_shown():
    told = at(opening(), Asked("note", "still here"), "12:01:30")

    assert "until 12:02" in told.ask.text


def test_without_a_clock_no_clock_time_is_told_and_nothing_is_too_early():
    told = doing().read(0.1, "%").chose("yes")

    assert "Allow about 2 minutes for it." in told.ask.text
    assert told.chose("yes").ask.id == "gas.open_valve#2"


def test_done_much_too_early_is_asked_about_once_and_kept():
    told = at(opening(), Chose("yes"), "12:00:20")
    assert (told.ask.about, told.ask.id) == ("confirm", "early")
    assert told.ask.text == "That took less than the 2 minutes that it needs. Is it really done?"

    done = at(told, Chose("yes"), "12:00:30")
    assert done.ask.id == "gas.open_valve#2"
    assert done.state.hurried == ("gas.open_valve#1",)
    assert "Done in less than about 2 minutes" in done.word("facts").said_back()


def test_who_waits_on_is_asked_for_the_same_step_with_the_same_time():
    told = at(at(opening(), Chose("yes"), "12:00:20"), Chose("no"), "12:00:30")

    assert told.ask.id == "gas.open_valve#1"
    assert "until 12:02" in told.ask.text
    assert at(told, Chose("yes"), "12:02:10").ask.id == "gas.open_valve#2"


def test_done_in_good_time_is_taken_without_a_word():
    assert at(opening(), Chose("yes"), "12:01:40").ask.id == "gas.open_valve#2"


@pytest.mark.parametrize(
    ("role", "hint"), [("operator", "You need not sit by it"), ("helpdesk", "Let them call back at")]
)
def test_a_long_wait_says_when_to_come_back(role, hint):
    told = Told(shipped_case(), replace(opening().state, role=role, remedy="", at=0, open=None, guarding=""))
    state = replace(told.state, stage=Stage.DOING, remedy="people.restart_barrel@1", at=0, step="")
    told = Told(shipped_case(), state)
    told = at(told, Asked("note", "begin"), "12:00:00")
    while "Allow" not in told.ask.text:
        told = at(told, Chose("yes"), "12:00:00")

    assert "until 12:30" in told.ask.text
    assert hint in told.ask.text
    assert "12:30" in told.ask.text.partition(hint.partition(" ")[0])[2]


# -- too early to say ----------------------------------------------------------------------------


def test_too_early_to_say_pauses_with_a_time_to_look_again_and_goes_on_there():
    asked = proving().chose("in_window", "yes")
    assert asked.ask.id == "gone"

    paused = at(asked, Chose("unsure"), "18:00:00")
    assert "Then look again at 18:45." in paused.said_back()
    assert isinstance(paused.shown[-1], Closed)

    again = at(paused, Asked("resume"), "18:50:00")
    assert (again.state.stage, again.ask.id) == (Stage.PROVING, "gone")
    assert at(again, Chose("yes"), "18:51:00").state.outcome == "cured"
