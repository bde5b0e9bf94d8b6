"""What a typed line means while a question is open."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from event_strategies import texts
from hypothesis import example, given
from hypothesis import strategies as st
from stand_in import ASKS, StandIn

from assistant.engine.effects import Ask, Option
from assistant.engine.events import Asked, Chose, Measured, Said
from assistant.facts import Fact
from assistant.reply import reply
from assistant.visible import STEERING, visible
from assistant.wording.options import NONE_OF_THESE

ROLE, SUPPLY, DRIP = ASKS
COLD = Ask("check", "cold", "", "How cold is the drink?", (), unit="C")
FREE = Ask("intake", "site", "", "Where?", ())


def meant(line, ask):
    return reply(line, ask, StandIn())


@pytest.mark.parametrize(
    ("line", "value", "unit"),
    [
        ("70", 70, ""),  # which unit is for the conversation to ask, where it can be doubted
        ("70 psi", 70, "psi"),
        ("70PSI", 70, "psi"),
        ("70 psi.", 70, "psi"),
        ("4.8 bar", 4.8, "bar"),
        ("4,8 bar", 4.8, "bar"),
        ("480 kPa", 480, "kPa"),
        ("70 pounds", 70, "psi"),
        ("-2", -2, ""),
        ("1", 1, ""),
    ],
)
def test_a_number_is_a_reading_where_one_is_welcome(line, value, unit):
    assert meant(line, SUPPLY) == Measured(value, unit, "", line)


@pytest.mark.parametrize(
    ("line", "value", "unit"), [("-2", -2, ""), ("28 F", 28, "F"), ("-1.5 °C", -1.5, "C")]
)
def test_a_temperature_is_a_reading_too(line, value, unit):
    assert meant(line, COLD) == Measured(value, unit, "", line)


@pytest.mark.parametrize(
    "line",
    [
        "70 C",
        "70 furlongs",
        "about 70",
        "70 psi at rest",
        "70-80",
        "1e3",
        "nan",
        "inf",
        "1.2.3",
        "9999999999999 psi",
        "-400 psia",
    ],
)
def test_what_is_no_plain_reading_is_heard_as_words(line):
    assert meant(line, SUPPLY) == Said(line, (), line)


def test_a_temperature_below_absolute_zero_is_heard_as_words():
    assert meant("-300", COLD) == Said("-300", (), "-300")


@pytest.mark.parametrize(
    ("line", "option"),
    [
        ("a", "low"),
        ("B", "good"),
        ("c)", "unsure"),
        ("too low", "low"),
        ("Too  low.", "low"),
        ("good", "good"),
        ("unsure", "unsure"),
    ],
)
def test_where_a_reading_is_welcome_an_option_is_picked_by_letter_label_or_id(line, option):
    assert meant(line, SUPPLY) == Chose(option, line)


@pytest.mark.parametrize(
    ("line", "option"),
    [("1", "yes"), ("2.", "no"), ("y", "yes"), ("N", "no"), ("YES!", "yes")],
)
def test_elsewhere_by_number(line, option):
    assert meant(line, DRIP) == Chose(option, line)


@pytest.mark.parametrize("line", ["3", "0", "-1", "10", "a", "yes and no", "ye", "70 psi"])
def test_what_picks_no_option_is_heard_as_words(line):
    assert meant(line, DRIP) == Said(line, (), line)


def test_two_options_of_one_name_are_not_told_apart_by_it():
    twins = Ask("check", "k", "", "Which?", (Option("a1", "left"), Option("a2", "Left")))

    assert meant("left", twins) == Said("left", (), "left")
    assert meant("2", twins) == Chose("a2", "2")


@pytest.mark.parametrize(
    ("line", "event"),
    [
        ("/why", Asked("why")),
        ("  /WHY ", Asked("why")),
        ("/w", Asked("why")),  # nothing else begins so
        ("/", Asked("")),
        ("/note bring  gloves ", Asked("note", "bring  gloves")),
        ("/no", Asked("note")),
        ("/nonsense 1", Asked("nonsense", "1")),
    ],
)
def test_a_slash_makes_a_word_with_its_argument(line, event):
    assert meant(line, DRIP) == event


@pytest.mark.parametrize("line", ["", "   ", "\n\t\n"])
def test_a_blank_line_is_nothing(line):
    assert meant(line, DRIP) is None


def test_a_paste_of_several_lines_is_one_answer_and_no_slash_word():
    assert meant("/why\nyes\n", DRIP) == Said("/why\nyes", (), "/why\nyes")
    assert meant("yes\n", DRIP) == Chose("yes", "yes")


def test_without_a_question_a_line_is_words():
    assert meant("1", None) == Said("1", (), "1")


def test_words_are_heard_with_the_check_that_is_open():
    asked = []

    class Ears(StandIn):
        def hear(self, text, asked_now):
            asked.append(asked_now)
            return (), text

    for ask in (DRIP, FREE, None):
        reply("well", ask, Ears())

    assert asked == ["drip", "", ""]


@given(st.text(max_size=30) | texts, st.sampled_from([ROLE, SUPPLY, DRIP, COLD, FREE, None]))
@example("\ud800", DRIP)
@example("٣ psi", SUPPLY)
@example("²", SUPPLY)
def test_any_line_is_an_event_or_blank(line, ask):
    event = meant(line, ask)

    assert (event is None) == (not line.strip())
    if isinstance(event, Measured):
        assert math.isfinite(event.value)


@given(st.floats(-10, 400, allow_nan=False))
def test_a_number_written_out_is_that_number(value):
    line = f"{value:.6f}"

    assert meant(line, SUPPLY) == Measured(float(line), "", "", line)


@given(st.text(st.characters(), max_size=30))
def test_nothing_shown_can_steer_the_terminal(text):
    shown = visible(text)

    assert STEERING.search(shown) is None
    assert visible(shown) == shown


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[2J", "\\x1b[2J"),
        ("a\r\nb\tc\x7f\x9b", "a\\x0d\\x0ab\\x09c\\x7f\\x9b"),
        ("\u202etxt.exe", "\\u202etxt.exe"),
        ("\ud800\ufeff", "\\ud800\\ufeff"),
        ("café 冷 😀 -1.5 °C", "café 冷 😀 -1.5 °C"),
    ],
)
def test_what_would_steer_is_written_out_and_letters_stay(text, shown):
    assert visible(text) == shown


class Keen(StandIn):
    """Understands "no" and "nope", and says what it was told to have been asked."""

    def hear(self, text, asked):
        if text == "nope":
            return (Fact("no", words=text),), ""
        return (Fact("answer", asked, value="x", words=text),) if asked else (), text


def test_to_a_doubt_about_a_check_other_words_may_answer_the_check_itself():
    doubt = Ask("confirm", "cold", "K1", "Do you mean: cold?", ())

    assert reply("quite warm", doubt, Keen()).facts == (
        Fact("answer", "cold", value="x", words="quite warm"),
    )
    assert reply("nope", doubt, Keen()).facts == (Fact("no", words="nope"),)
    assert reply("quite warm", replace(doubt, ref=""), Keen()).facts == ()


def test_to_a_doubt_a_line_about_something_else_is_heard_for_itself():
    """Heard as an answer to the check it is a mere guess; as it stands it is sure."""
    doubt = Ask("confirm", "cold", "K1", "Do you mean: cold?", ())
    flat = Fact("symptom", "flat", "S1", words="all flat")

    class Sure(StandIn):
        def hear(self, _text, asked):
            return (replace(flat, certain=not asked),), ""

    assert reply("all flat", doubt, Sure()).facts == (flat,)


@pytest.mark.parametrize("line", ["none of them", "None of em.", "nah none of those", "neither"])
def test_none_of_them_is_none_of_these(line):
    which = Ask("confirm", "cold", "", "Which?", (Option("1", "Soft"), Option("2", "Flat"), NONE_OF_THESE))

    assert meant(line, which) == Chose("no", line)


SAFE = Ask(
    "confirm", "safe", "", "Is it safe now?", (Option("yes", "It is safe now"), Option("no", "Not yet"))
)


@pytest.mark.parametrize("ask", [ROLE, FREE, SAFE])
def test_a_mere_guess_at_a_trouble_is_nothing_where_no_complaint_is_asked_for(ask):
    faint = Fact("symptom", "cold", score=0.35, certain=False, words="shift lead")

    class Guesses(StandIn):
        def hear(self, _text, _asked):
            return (faint,), ""

    assert reply("shift lead", ask, Guesses()) == Said("shift lead", (), "shift lead")
    assert reply("shift lead", COLD, Guesses()) == Said("shift lead", (faint,), "")
