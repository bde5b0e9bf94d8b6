"""Numbers given by mistake: corrected without a name, or typed for an answer out of habit."""

from dataclasses import replace

from casts import Told, parlour_case, shipped_case
from repairing import at_display, proving

from assistant.engine.events import Measured
from assistant.engine.state import Question, Stage
from assistant.facts import Fact

CORRECT = Fact("correct", value="number", words="no sorry")


def readings(told):
    return {each.quantity: each.value for each in told.state.readings}


def to_supply():
    """Return a conversation where the gas supply reading is open."""
    told = Told(shipped_case()).began("technician")
    while told.ask.id != "gas_supply.reading_at_rest":
        quiet = next((o.id for o in told.ask.options if o.id in {"none", "open_air", "no", "dry"}), "")
        told = told.chose(quiet or ("yes" if told.ask.about in {"caution", "gate"} else "unsure"))
        if told.ask.id == "complaint":
            told = told.said("low gas", Fact("symptom", "warning.gas_low", words="low gas"))
    return told


def test_a_number_that_corrects_is_about_the_number_just_given():
    told = to_supply().event(Measured(39.0, "psi", "", "39 psi"))
    asked = told.ask.id
    told = told.said("no sorry, 38", CORRECT, Fact("reading", "syrup", value="38", words="38"))

    assert readings(told) == {"gas_supply": 38.0}
    assert told.ask.id == asked


def test_a_number_that_names_nothing_corrects_what_was_read_last():
    told = to_supply().event(Measured(39.0, "psi", "", "39 psi"))
    told = told.said("no sorry, 38", CORRECT, Fact("reading", value="38", words="38"))

    assert readings(told) == {"gas_supply": 38.0}


def test_a_number_that_corrects_a_doubted_one_takes_its_place():
    told = to_supply().event(Measured(390.0, "", "", "390"))
    told = told.said("no sorry, 39", CORRECT, Fact("reading", value="39", unit="psi", words="39"))

    assert readings(told) == {"gas_supply": 39.0}
    assert told.state.doubts == ()


def test_a_number_that_corrects_nothing_is_left_out():
    before = Told(parlour_case()).began("technician")
    told = before.said("sorry, 38", CORRECT, Fact("reading", value="38", words="38"))

    assert readings(told) == {}


def test_a_line_that_takes_back_its_own_words_reopens_nothing():
    told = to_supply().event(Measured(39.0, "psi", "", "39 psi"))
    again = told.said("70, scratch that", Fact("correct", value="line", words="70, scratch that"))

    assert (again.ask.id, readings(again)) == (told.ask.id, {"gas_supply": 39.0})


def test_a_digit_typed_where_answers_have_letters_is_asked_back():
    told = to_supply().event(Measured(1.0, "", "", "1"))

    assert told.ask.text == "Do you mean 1 psi, or the first answer?"
    assert readings(told.chose("reading")) == {"gas_supply": 1.0}
    first = told.chose("answer").state.answers[-1]
    assert (first.finding.check, first.outcome) == ("gas_supply.reading_at_rest", "in_window")


def test_a_digit_with_its_unit_or_near_what_is_usual_is_a_reading():
    told = to_supply()

    assert readings(told.event(Measured(1.0, "psi", "", "1 psi"))) == {"gas_supply": 1.0}
    assert readings(told.event(Measured(60.0, "", "", "60"))) == {"gas_supply": 60.0}


def test_a_number_far_off_in_a_proof_is_asked_back_before_the_repair_fails():
    before = new_bag_fitted()
    told = before.read(1.0)

    assert (told.state.stage, readings(told)) == (Stage.PROVING, {})
    assert told.ask.text.startswith(
        "Syrup pressure 2: 1 psi, have I got that right? I would expect 55 to 72 psi"
    )
    assert told.chose("no").ask == before.ask
    assert told.chose("psi").state.stage is Stage.NARROWING
    assert before.read(1.0, "psi").state.stage is Stage.NARROWING


def test_a_number_far_off_in_a_proof_by_a_check_is_asked_back_too():
    before = new_bag_fitted()
    proof = Question("proof", "gas_supply.reading_at_rest")
    asked = Told(before.case, replace(before.state, open=proof))

    assert asked.read(1.0).ask.text == "Do you mean 1 psi, or the first answer?"
    assert asked.read(11.0).ask.text.startswith("Gas supply pressure: 11 psi, have I got that right?")


def test_a_number_far_off_in_a_step_is_asked_back_before_the_work_stops():
    told = at_display().read(2.0)

    assert told.ask.about == "confirm"
    assert told.chose("no").ask == at_display().ask
    assert "out" not in told.topics()


def test_a_number_in_a_proof_is_judged_in_the_unit_that_the_instrument_shows():
    before = proving()
    in_bar = replace(before, state=replace(before.state, units=(("gas_supply", "bar"),)))

    assert readings(in_bar.read(4.6))["gas_supply"] == 4.6


def new_bag_fitted():
    """Return a conversation where the syrup pressure after a new bag is open."""
    begun = Told(shipped_case()).began("technician")
    state = replace(begun.state, stage=Stage.PROVING, remedy="syrup.change_bag@2", open=None)
    return Told(begun.case, replace(state, open=Question("proof", "syrup.change_bag@2#1"))).word("causes")


def test_a_number_far_off_in_a_proof_may_be_in_another_unit():
    told = new_bag_fitted().read(4.2)

    assert [option.label for option in told.ask.options] == ["4.2 psi", "4.2 bar", "None of these"]
    assert told.chose("bar").state.units == (("syrup", "bar"),)
    assert [(each.value, each.unit) for each in told.chose("bar").state.readings] == [(4.2, "bar")]


def brix_asked():
    """Return a conversation where the Brix against the flavour card is open."""
    begun = Told(shipped_case()).began("technician")
    check = "blending.brix_against_target@1"
    state = replace(begun.state, stage=Stage.NARROWING, guarding=check, open=Question("check", check))
    return Told(begun.case, state).word("causes")


def test_what_the_refractometer_shows_is_not_taken_for_the_distance_from_the_card():
    told = brix_asked().read(27.0)

    assert told.ask.text.startswith("27 Brix would be a lot for brix above the flavour card 1.")
    assert [option.id for option in told.ask.options] == ["brix_offset@1", "drink_brix", "no"]
    shown = told.chose("drink_brix")
    assert (readings(shown), shown.state.answers) == ({"drink_brix": 27.0}, brix_asked().state.answers)
    assert shown.ask == brix_asked().ask
    assert readings(told.chose("brix_offset@1")) == {"brix_offset@1": 27.0}
    assert readings(brix_asked().read(2.0)) == {"brix_offset@1": 2.0}


def test_a_yes_that_was_meant_to_be_a_no_is_put_right_at_once():
    told = Told(shipped_case()).began("helpdesk").chose(*"11111")
    told = told.said("barrel 2 runny", Fact("symptom", "product.runny_one@2", words="barrel 2 runny"))
    asked = told.ask.id
    told = told.chose("present").said("sorry i meant no", Fact("correct", words="sorry i meant no"))

    last = [answer for answer in told.state.answers if answer.finding.check == asked][-1]
    assert last.outcome == "absent"
    assert told.ask.id != asked
    assert "No" in told.said_back()


def test_a_number_that_was_meant_to_be_a_no_is_asked_again():
    told = to_supply().event(Measured(39.0, "psi", "", "39 psi"))
    told = told.said("sorry i meant no", Fact("correct", words="sorry i meant no"))

    assert told.ask.id == "gas_supply.reading_at_rest"
