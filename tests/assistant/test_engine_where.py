"""The site's question: times, corrections and questions back are no site's name."""

from __future__ import annotations

import pytest
from casts import Told, shipped_case
from hearing import heard

from assistant.engine import Stage
from assistant.reply import reply


def at_site():
    return Told(shipped_case()).began("", site="").chose("operator")


class Hears:
    """The hearing of the shipped machine, as a shell has it."""

    def hear(self, text, asked):
        return heard(text, asked or None)

    def words(self):
        return ()


def say(told, text):
    return told.event(reply(text, told.ask, Hears()))


TIMES = (
    *("since this morning", "its about 3 oclock", "3pm", "yesterday afternoon", "monday", "half past two"),
    *("it's just gone 3 o'clock", "14:30ish", "an hour ago", "about lunchtime", "at 9.15"),
)


@pytest.mark.parametrize("line", TIMES)
def test_a_time_is_no_site_and_the_site_is_asked_again(line):
    told = say(at_site(), line)

    assert (told.state.site, told.ask.id) == ("", "site")
    assert told.state.began


def test_beside_a_time_the_site_is_what_is_left():
    told = say(at_site(), "Gull Point, since this morning")

    assert (told.state.site, told.state.began) == ("Gull Point", "this morning")
    assert told.state.stage is Stage.SAFETY


@pytest.mark.parametrize(
    "line", ["do you need the site?", "what site", "why do you want to know?", "dont know what you mean"]
)
def test_a_question_is_answered_and_is_no_site(line):
    told = say(at_site(), line)

    assert (told.state.site, told.ask.id) == ("", "site")
    assert "record" in told.said_back()


def test_a_correction_puts_the_role_right():
    told = say(at_site(), "sorry i meant the helpdesk")
    assert (told.state.role, told.state.site, told.ask.id) == ("helpdesk", "", "site")
    told = say(at_site(), "no sorry that was wrong")
    assert (told.state.role, told.state.site, told.ask.id) == ("", "", "role")


@pytest.mark.parametrize(
    ("line", "site"),
    [
        ("sorry, Gull Point I mean", "Gull Point"),
        ("Sunday Street", "Sunday Street"),
        ("Which Way Inn", "Which Way Inn"),
        ("the foyer one at gull point", "the foyer one at gull point"),
        ("Noon Street, bar 2", "Noon Street, bar 2"),
        ("Golden Years", "Golden Years"),
        ("Easter", "Easter"),
    ],
)
def test_a_name_stays_a_name(line, site):
    assert say(at_site(), line).state.site == site
