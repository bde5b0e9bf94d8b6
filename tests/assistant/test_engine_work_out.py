"""Checks that are answered with the numbers a person can read, which the program works out."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, shipped_case

from assistant.engine.effects import Tell
from assistant.engine.state import Question, Stage
from assistant.reply import reply
from assistant.work_outs import told
from graph.physics import WORKOUTS

WEIGHED = "gas_supply.cylinder_weight"
ASKED_FOR_NUMBERS = {
    "gas_supply.cylinder_weight": ("gas_left", "22 kg, tare 12, full 10", "over_fifth"),
    "gas_supply.high_side_dial": ("cylinder_dial", "dial 250 psi, temperature 20 C", "falling"),
    "gas_supply.pressure_decay": ("pressure_lost", "first 70, second 60", "leak"),
    "gas_supply.creep_rate": ("regulator_creep", "70 then 79 after 10 minutes", "climbs"),
    "gas_regulated.creep_rate": ("regulator_creep", "60 psi, 61 psi", "holds"),
    "sensors.signal_voltage@gas_supply": ("signal_error", "2.9 volts, gauge 70", "signal_wrong"),
    "refrigeration.barrel_temperature@1": ("probe_error", "33600 ohms, thermometer 5", "off"),
    "blending.brix_against_target@2": ("brix_off_card", "sample 14.2, card 13", "rich"),
    "blending.catch_test@2": ("catch_brix", "water 0.6, syrup 0.08, brix 62", "syrup_low"),
    "site_water.booster_stall": ("stall_shortfall", "drive 60, inlet 20, outlet 45", "stalls_low"),
}


def asked(check, role="technician"):
    """Return a conversation of which that check is the open question."""
    case = shipped_case()
    begun = Told(case).began(role)
    state = replace(begun.state, stage=Stage.NARROWING, open=Question("check", check))
    return Told(case, state).word("causes")


def answers(conversation):
    return {answer.finding.check: answer.outcome for answer in conversation.state.answers}


def lines(conversation):
    return [each.text for each in conversation.shown if isinstance(each, Tell) and each.topic == "worked_out"]


@pytest.mark.parametrize("check", ASKED_FOR_NUMBERS)
def test_a_question_says_which_numbers_would_do(check):
    name, _, _ = ASKED_FOR_NUMBERS[check]
    text = asked(check).ask.text

    assert "Or give me the numbers" in text
    assert all(each.name in text for each in WORKOUTS[name].asks if each.default is None)


@pytest.mark.parametrize("check", ASKED_FOR_NUMBERS)
def test_numbers_in_plain_words_become_the_answer(check):
    name, line, outcome = ASKED_FOR_NUMBERS[check]
    before = asked(check)
    after = before.said(line)

    assert answers(after)[check] == outcome
    assert lines(after)[0].startswith(WORKOUTS[name].title)
    assert lines(after)[-1].startswith("So: ")


def test_the_slash_word_works_the_open_check_out():
    after = asked(WEIGHED).word("work-out", "gross=22 tare=12 fill=10")

    assert answers(after)[WEIGHED] == "over_fifth"
    assert any("leaves 10.00 kg" in line for line in lines(after))


def test_pounds_are_turned_into_kilograms():
    after = asked(WEIGHED).said("27.5 lb, tare 26.5 lb, full 20 lb")

    assert answers(after)[WEIGHED] == "under_tenth"


def test_a_typed_line_of_several_numbers_reaches_the_engine_as_words():
    class Deaf:
        def hear(self, text, _asked):
            return (), text

        def words(self):
            return ()

    conversation = asked(WEIGHED)
    event = reply("22 kg, tare 12, full 10", conversation.ask, Deaf())

    assert answers(conversation.event(event))[WEIGHED] == "over_fifth"


@pytest.mark.parametrize(
    ("argument", "said"),
    [
        ("gross=22", "gas_left still needs tare"),
        ("gross=heavy tare=12", '"heavy" is no number'),
        ("weight=22 tare=12", 'gas_left knows no "weight"'),
        ("gross=12 tare=22", "cannot weigh less than its tare"),
        ("cylinder_presure temperature=20", "Did you mean cylinder_pressure?"),
    ],
)
def test_numbers_that_cannot_be_are_refused_and_change_nothing(argument, said):
    before = asked(WEIGHED)
    after = before.word("work-out", argument)

    assert after.state.answers == before.state.answers
    assert after.ask.id == WEIGHED
    assert said in after.said_back()


def test_a_calculation_asked_for_by_name_is_no_answer():
    before = asked(WEIGHED)
    after = before.word("work-out", "cylinder_pressure temperature=20")

    assert after.state.answers == before.state.answers
    assert any("816" in line for line in lines(after))


def test_a_question_without_a_calculation_names_those_there_are():
    after = asked("gas_supply.cylinder_valve").word("work-out", "gross=22 tare=12")

    assert "nothing to work out" in after.said_back()
    assert "gas_left" in after.said_back()


def test_an_answer_worked_out_is_taken_back_like_any_other():
    before = asked(WEIGHED)

    assert before.word("work-out", "gross=22 tare=12").word("back").state.answers == before.state.answers


@pytest.mark.parametrize(
    "line",
    ["about 22 kg", "I have 2 bottles", "800 or 850", "22 kg, tare 12, full 10, and 3 more", "no idea"],
)
def test_a_line_that_leaves_a_doubt_is_not_worked_out(line):
    assert told(WORKOUTS["gas_left"], line) is None


@pytest.mark.parametrize(
    ("name", "line", "values"),
    [
        ("gas_left", "weighs 22,5 kg and stamped 12.3", {"gross": 22.5, "tare": 12.3}),
        ("gas_left", "22 and 12", {"gross": 22, "tare": 12}),
        ("cylinder_dial", "55 bar at 5 C", {"dial": pytest.approx(797.7, abs=0.1), "temperature": 5}),
        ("signal_error", "2.9 V 60 psi", {"volts": 2.9, "gauge": 60}),
        ("catch_brix", "water 500 mL, syrup 100 mL, brix 65", {"water": 0.5, "syrup": 0.1, "brix": 65}),
    ],
)
def test_numbers_find_their_place_by_name_then_by_unit(name, line, values):
    assert told(WORKOUTS[name], line) == values
