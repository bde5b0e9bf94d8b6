"""Replies to a step that is to be confirmed: a yes must be plain, since people work on the strength of it."""

import pytest
from hearing import heard
from stand_in import StandIn

from assistant.engine.effects import Ask, Option
from assistant.engine.events import Chose, Said
from assistant.hear.confirmed import confirmed
from assistant.reply import reply
from assistant.wording.options import CONFIRMED, DONE

SHUT = "Shut the gas at the machine's valve. Is the gas shut?"
GONE = "Open it slowly. Is the pressure gone?"
LOCKED = "Isolator off, plug out. Is it locked?"
TOLD = "Other equipment may share them: tell the operator. Has the operator been told?"
ZERO = "Prove it with a gauge. Does the gauge read 0 and does nothing flow?"
AGREE = "Read both. Do they agree within 2 psi?"
AIR = "Does it show less than 0.5 percent CO2, or is the place open to fresh air?"
EVEN = "Watch it for a minute. Is the spray even?"


@pytest.mark.parametrize(
    ("question", "line"),
    [
        (SHUT, "shut"),
        (SHUT, "yes shut"),
        (SHUT, "its shut"),
        (SHUT, "closed"),
        (SHUT, "yh"),
        (GONE, "bled to zero"),
        (GONE, "all gone"),
        (LOCKED, "locked"),
        (LOCKED, "locked and tagged"),
        (TOLD, "told sam"),
        (ZERO, "reads zero, nothing flows"),
        (SHUT, "yup all done"),
        (AIR, "open to fresh air"),
    ],
)
def test_yes_in_the_words_of_the_question(question, line):
    assert confirmed(question, line) == "yes"


@pytest.mark.parametrize(
    ("question", "line", "kind"),
    [
        (SHUT, "no its open", "no"),
        (SHUT, "not shut", "no"),
        (SHUT, "still open", "no"),
        (SHUT, "cant shut it", "cannot"),
        (SHUT, "it wont close", "cannot"),
        (SHUT, "the valve is stuck", "cannot"),
        (ZERO, "its flowing", "no"),
        (GONE, "still hissing", "no"),
    ],
)
def test_no_and_cannot(question, line, kind):
    assert confirmed(question, line) == kind


@pytest.mark.parametrize(
    ("question", "line"),
    [
        (SHUT, "almost shut"),
        (SHUT, "shut but hissing"),
        (SHUT, "yes but it still hisses"),
        (SHUT, "no its shut"),
        (SHUT, "is it the red one?"),
        (GONE, "still 20 psi"),
        (ZERO, "zero"),  # and does nothing flow?
        ("Bleed it. Is everything that will be opened bled?", "its shut"),
        (AGREE, "done"),
        (EVEN, "ok"),
    ],
)
def test_what_is_not_plain_is_asked_again(question, line):
    assert confirmed(question, line) is None


def asked(text, options=CONFIRMED, about="gate"):
    return Ask(about, "step", "", text, options)


@pytest.mark.parametrize("line", ["done", "ok", "finished", "all done"])
def test_done_answers_what_asks_for_a_deed_and_not_what_is_to_be_judged(line):
    assert reply(line, asked("Shut the water."), StandIn()) == Said(line, (), line)
    assert reply(line, asked("Shut the water.", DONE), StandIn()) == Chose("yes", line)
    assert reply(line, asked("Shut the water. Is the water shut?"), StandIn()) == Chose("yes", line)
    for judged in (AGREE, EVEN, "Hold a dry tissue to it. Is it dry?"):
        assert reply(line, asked(judged), StandIn()) == Said(line, (), line)


def test_ok_confirms_no_doubt():
    doubt = Ask(
        "confirm", "gas.flat", "S10", "Do you mean: flat?", (Option("yes", "Yes"), Option("no", "No"))
    )

    assert reply("ok", doubt, StandIn()) == Said("ok", (), "ok")


def test_done_is_no_outcome_of_a_check():
    assert reply("done", asked(AGREE, about="check"), StandIn()) == Said("done", (), "done")


def test_a_step_confirmed_in_other_words_is_a_yes():
    said = reply("its shut now", asked(SHUT), StandIn())

    assert [fact.kind for fact in said.facts] == ["yes"]


def test_one_of_two_things_denied_is_asked_again():
    assert confirmed(AIR, "there's no meter, the door's open") is None


def test_all_quiet_names_no_barrels():
    class Ears(StandIn):
        def hear(self, text, asked):
            assert not asked
            return heard(text)

    ask = Ask("gate", "step", "", "Ask and listen at the door. Is it quiet, and is everyone well?", CONFIRMED)
    said = reply("yes all quiet", ask, Ears())

    assert {fact.kind for fact in said.facts} == {"yes"}


def test_a_number_that_is_no_answer_to_a_doubt_is_no_reading():
    doubt = Ask("confirm", "barrel.number_at_rest@2", "K097", "Which do you mean?", (Option("a", "this"),))

    assert isinstance(reply("5", doubt, StandIn()), Chose)
