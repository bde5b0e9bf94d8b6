"""Narrowing: readings, conflict, conditions, roles, and what is decided."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, parlour_case, shipped_case
from honest import session

from assistant.engine import Question, Stage, guard, open_state, putting_back
from assistant.engine.candidates import candidates
from assistant.engine.effects import Decide
from assistant.facts import Fact

FLAT = Fact("symptom", "gas.flat", words="flat")
SHUT = (
    Fact("answer", "gas.valve_open", value="turns"),
    Fact("reading", "gas_supply", value="5", unit="psi"),
    Fact("answer", "gas.weight", value="heavy"),
    Fact("not_symptom", "barrel.runny"),
)


def narrowing(role="operator", **more):
    return Told(parlour_case()).began(role, **more).chose("none", "dry").said("flat", FLAT)


def at(told, name):
    """Return the conversation where `name` is asked, everything before it waved aside."""
    while told.ask.id != name:
        told = told.chose("yes" if told.ask.about in {"caution", "gate"} else "unsure")
    return told


def decision(told):
    return next((effect for effect in told.shown if isinstance(effect, Decide)), None)


def evidence(told):
    return {answer.finding.check: answer.outcome for answer in told.state.answers}


def evidence_of(told):
    return tuple(answer.finding for answer in told.state.answers)


def weights(told, check):
    return next(answer.finding.weights for answer in told.state.answers if answer.finding.check == check)


# -- readings ------------------------------------------------------------------------------------


def test_a_number_without_a_unit_is_questioned_where_the_pack_says_so_and_the_unit_is_remembered():
    told = narrowing().read(4.5, "", "gas_supply")
    assert [option.id for option in told.ask.options] == ["psi", "bar", "kPa", "no"]

    told = told.chose("bar")
    assert (told.state.answers[-1].value, told.state.answers[-1].unit) == (4.5, "bar")
    assert "4.5 bar (65.3 psi)" in told.said_back()

    told = told.read(4.6, "", "gas_supply")
    assert (told.state.answers[-1].value, told.state.answers[-1].unit) == (4.6, "bar")


def test_a_reading_near_an_edge_counts_for_both_sides():
    low, inside, _ = weights(narrowing().read(65.0, "psi", "gas_supply"), "gas.pressure")

    assert low == pytest.approx(0.5)  # a normal error is symmetric about the reading
    assert inside == pytest.approx(0.5)


def test_a_number_that_is_not_plausible_is_asked_back_and_counts_after_a_yes():
    told = narrowing().read(400, "psi", "gas_supply")
    assert (
        told.ask.text == "Gas supply pressure: 400 psi, have I got that right? I would expect 0 to 100 psi."
    )
    assert "gas.pressure" not in evidence(told)

    assert "gas.pressure" not in evidence(told.chose("no"))
    assert told.chose("yes").state.stage is Stage.HALTED  # above 90 psi is a danger


@pytest.mark.parametrize(
    ("value", "unit"), [(float("nan"), "psi"), (float("inf"), "psi"), (70, "furlong"), (70, "C")]
)
def test_a_number_that_cannot_be_is_refused_in_one_sentence(value, unit):
    before = narrowing()
    told = before.read(value, unit, "gas_supply")

    assert told.topics()[0] == "ignored"
    assert told.state == before.state


def test_a_reading_of_another_check_is_taken_for_that_check():
    told = narrowing("technician").read(0.1, "V", "sensor_volts@2")

    assert evidence(told)["barrel.volts@2"] == "none"


def test_the_same_quantity_read_again_replaces_the_earlier_reading():
    told = narrowing().read(40, "psi", "gas_supply").read(70, "psi", "gas_supply")

    assert [a.outcome for a in told.state.answers if a.finding.check == "gas.pressure"] == ["in_window"]


def test_a_range_is_taken_at_its_middle_and_a_reading_may_be_said():
    told = narrowing().said(
        "sixty to seventy psi", Fact("reading", "gas_supply", value="60", high="70", unit="psi")
    )

    assert told.state.answers[-1].value == 65


def test_a_reading_without_a_check_is_remembered_and_is_no_evidence():
    before = narrowing()
    told = before.read(4, "C", "barrel_temperature@1")

    assert told.state.answers == before.state.answers
    assert told.state.readings[-1].quantity == "barrel_temperature@1"


def test_a_number_that_nobody_asked_for_needs_a_name():
    told = Told(parlour_case()).began("operator").read(70, "psi")

    assert told.topics()[0] == "ignored"
    assert "needs no number" in told.said_back()


def test_a_quantity_that_this_machine_has_not_is_said_so():
    assert "fits nothing" in narrowing().read(70, "psi", "oil_pressure").said_back()


# -- answers -------------------------------------------------------------------------------------


def test_the_open_check_shows_its_gain_its_minutes_and_what_is_believed():
    ask = at(narrowing(), "gas.pressure").ask

    assert ask.about == "check"
    assert ask.bits > 0
    assert ask.minutes > 0
    assert ask.causes[0].title == "The gas bottle is empty"
    assert ask.bits_left > 0
    assert [option.id for option in ask.options[-2:]] == ["unsure", "cannot"]


@pytest.mark.parametrize("reply", ["unsure", "cannot"])
def test_not_sure_and_cannot_are_no_evidence_and_the_check_is_not_asked_again(reply):
    before = at(narrowing(), "gas.pressure")
    told = before.chose(reply)

    assert evidence(told) == evidence(before)
    assert before.ask.id in told.state.settled
    assert before.ask.id not in candidates(told.case, told.state)


def test_an_answer_may_be_given_by_number_ref_label_or_id():
    told = at(narrowing(), "gas.pressure")

    for option in ("low", "1", "a", "Below the window", "below the window."):
        assert evidence(told.chose(option))["gas.pressure"] == "low"


def test_a_bare_yes_to_a_question_with_other_answers_is_asked_back():
    told = at(narrowing(), "gas.pressure").said("yes", Fact("yes"))

    assert told.topics()[0] == "ignored"
    assert told.ask.id == "gas.pressure"


def test_an_answer_to_another_check_is_taken_and_what_to_ask_is_thought_over():
    before = narrowing()
    told = before.said("wheel turns", Fact("answer", "gas.valve_open", value="turns", words="wheel turns"))

    assert evidence(told)["gas.valve_open"] == "turns"
    assert "I take that as: cylinder valve open: it turns further." in told.said_back()
    assert "That may be it already." in told.said_back()


def test_a_corrected_answer_replaces_the_old_one():
    told = (
        at(narrowing(), "gas.pressure")
        .chose("low")
        .said("no wait, it is fine", Fact("correct"), Fact("answer", "gas.pressure", value="in_window"))
    )

    assert evidence(told)["gas.pressure"] == "in_window"
    assert len([a for a in told.state.answers if a.finding.check == "gas.pressure"]) == 1


def test_something_taken_back_without_a_better_answer_is_asked_again():
    told = narrowing().chose("unsure").said("flat, no", Fact("correct", "gas.flat"))

    assert told.ask.id == "gas.flat"


def test_what_is_said_to_be_fine_is_no_evidence():
    before = narrowing()
    told = before.said("gas is fine", Fact("fine", value="gas", words="gas is fine"))

    assert evidence(told) == evidence(before)
    assert told.topics()[0] == "taken"


def test_words_that_nothing_is_made_of_are_kept_and_the_question_stays():
    before = narrowing()
    told = before.said("the moon is full")

    assert told.ask == before.ask
    assert "the moon is full" in told.state.unheard


def test_when_it_began_is_noted():
    assert (
        narrowing().said("since the delivery", Fact("began", value="after the delivery")).state.began
        == "after the delivery"
    )


# -- conflict ------------------------------------------------------------------------------------


def test_when_answers_do_not_fit_one_of_them_is_asked_once_more_and_only_once():
    facts = (
        Fact("answer", "gas.valve_open", value="open"),
        Fact("answer", "gas.weight", value="heavy"),
        Fact("reading", "gas_supply", value="2", unit="psi"),
        Fact("symptom", "barrel.runny@1"),
        Fact("not_symptom", "barrel.runny@2"),
        Fact("answer", "barrel.turns@1", value="yes"),
    )
    told = narrowing().said("all at once", *facts)

    assert "conflict" in told.topics()
    suspect = told.ask.id
    assert suspect in evidence(told)
    again = told.chose(evidence(told)[suspect])
    assert again.ask is None or again.ask.id != suspect


def test_the_complaint_itself_is_never_asked_again_because_answers_do_not_fit():
    normal = (
        Fact("answer", "gas.valve_open", value="open"),
        Fact("answer", "gas.weight", value="heavy"),
        Fact("reading", "gas_supply", value="69", unit="psi"),
    )
    told = narrowing().said("all well there", *normal)

    found = told.case.conflict(evidence_of(told))
    assert found.bits > 1.0
    assert told.state.answers[found.suspect].finding.check == "gas.flat"
    assert told.state.story == ("gas.flat",)
    assert "conflict" not in told.topics()


# -- candidates ----------------------------------------------------------------------------------


def test_conditions_of_a_check_are_kept():
    fresh = Told(parlour_case()).began("operator").chose("hiss", "dry").said("flat", FLAT)
    assert "gas.valve_open" not in candidates(fresh.case, fresh.state)  # needs a quiet room
    assert "gas.valve_open" in candidates(fresh.case, narrowing().state)

    good = narrowing().read(70, "psi", "gas_supply")
    assert "gas.weight" in candidates(fresh.case, narrowing().state)
    assert "gas.weight" not in candidates(good.case, good.state)  # pointless with the pressure in its window


@pytest.mark.parametrize(
    ("role", "may"),
    [
        ("operator", set()),
        ("helpdesk", set()),
        ("technician", {"barrel.volts@1", "barrel.paddle_inside@1"}),
        ("refrigeration", {"barrel.volts@1", "barrel.gauge_set", "barrel.paddle_inside@1"}),
    ],
)
def test_hands_on_checks_are_for_those_whose_work_they_are(role, may):
    told = narrowing(role)
    hands_on = {"barrel.volts@1", "barrel.paddle_inside@1", "barrel.gauge_set"}

    assert hands_on & set(candidates(told.case, told.state)) == may


def test_a_missing_tool_leaves_its_checks_out():
    told = narrowing("technician").word("without", "multimeter")

    assert not any(name.startswith("barrel.volts") for name in candidates(told.case, told.state))
    assert told.word("without", "crystal ball").topics()[0] == "ignored"


# -- gates before a check ------------------------------------------------------------------------


def to_volts():
    """Return a technician about to be asked for the signal of barrel 1."""
    told = (
        Told(parlour_case())
        .began("technician")
        .chose("none", "dry")
        .said("runny", Fact("symptom", "barrel.runny@1"), Fact("not_symptom", "barrel.runny@2"))
    )
    while told.ask.id not in {"caution.power", "barrel.volts@1"}:
        told = told.chose("unsure")
    return told


def test_caution_and_gate_come_before_the_check_and_each_wants_an_answer():
    told = to_volts()
    assert told.shown[-2].id == "caution.power"
    assert told.ask.about == "caution"

    told = told.chose("yes")
    assert (told.ask.about, told.ask.id) == ("gate", "gate.power#1")
    told = told.chose("yes")
    assert told.ask.id == "gate.power#2"
    told = told.said("done")
    assert (told.ask.about, told.ask.id, told.ask.unit) == ("check", "barrel.volts@1", "V")


@pytest.mark.parametrize("reply", ["no", "unsure", "cannot"])
def test_a_gate_that_is_not_passed_leaves_the_check_out(reply):
    told = to_volts().chose("yes", reply)

    assert "stopped" in told.topics()
    assert "barrel.volts@1" not in candidates(told.case, told.state)
    assert "barrel.volts@1" not in evidence(told)


def test_a_gate_holds_for_the_next_check_that_needs_it_and_no_longer():
    passed = to_volts().chose("yes", "yes", "yes").state
    assert passed.passed == ("gate.power",)

    case = parlour_case()
    kept, shown = guard.ask_next(case, guard.start(passed, "barrel.volts@2"))
    assert (kept.passed, kept.open.id, shown) == (("gate.power",), "barrel.volts@2", ())
    left, shown = guard.ask_next(case, guard.start(passed, "gas.flat"))
    assert left.passed == ()
    assert [effect.text for effect in shown] == [BACK]


BACK = "Before you go on: take the lock off and switch the isolator on."


def test_what_a_check_needed_off_is_put_back_before_the_next_question_that_does_not():
    at_volts = to_volts().chose("yes", "yes", "yes")
    assert at_volts.state.passed == ("gate.power",)
    told = at_volts.word("without", "multimeter")

    assert BACK in told.said_back()
    assert told.state.passed == ()


@pytest.mark.parametrize(("word", "argument"), [("stop", ""), ("handover", "refrigeration Kim")])
def test_what_a_check_needed_off_is_put_back_by_whoever_leaves(word, argument):
    told = to_volts().chose("yes", "yes", "yes").word(word, argument)

    assert "Before you leave it: take the lock off and switch the isolator on." in told.said_back()
    assert told.state.passed == ()


def test_a_gate_that_is_not_passed_ends_what_earlier_ones_made_safe():
    passed = guard.start(to_volts().chose("yes", "yes", "yes").state, "barrel.paddle_inside@1")
    told = Told(parlour_case(), guard.ask_next(parlour_case(), passed)[0])
    assert (told.state.open.id, told.state.passed) == ("gate.power#1", ("gate.power",))
    told = told.chose("no")

    assert BACK in told.said_back()
    assert told.state.passed == ()


def test_what_a_check_needed_off_is_put_back_where_somebody_is_sent_but_not_before_work_that_needs_it_off():
    case, passed = parlour_case(), to_volts().chose("yes", "yes", "yes").state
    sent = replace(passed, stage=Stage.CLOSING, open=None)
    same = replace(passed, open=Question("remedy", "barrel.free_drive@1"))
    other = replace(passed, open=Question("remedy", "gas.open_valve"))

    assert [effect.text for effect in putting_back.after_checks(case, sent)[1]] == [BACK]
    assert [effect.text for effect in putting_back.after_checks(case, other)[1]] == [BACK]
    assert "gate.power" in [step.gate for step in case.remedy("barrel.change_lead@1").steps]
    same = replace(same, open=Question("remedy", "barrel.change_lead@1"))
    assert putting_back.after_checks(case, same) == (same, ())


@pytest.mark.parametrize(
    ("check", "outcome", "words"),
    [
        ("sensors.rail_unloaded", "good", "Before you go on: plug all sensors in again"),
        ("gas_supply.pressure_decay", "tight", "Before you go on: open the cylinder valve again, slowly"),
        ("blending.which_stops_rise@2", "syrup", "as far as barrel 2 (cherry) may fill"),
    ],
)
def test_what_a_check_itself_shut_or_unplugged_is_put_back_once_it_is_answered(check, outcome, words):
    case = shipped_case()
    state = replace(open_state(case), stage=Stage.NARROWING, role="technician", open=Question("check", check))

    assert words in Told(case, state).chose(outcome).said_back()
    assert words not in Told(case, state).chose("cannot").said_back()


def test_a_gate_inside_a_gate_comes_first():
    told = to_volts().said("is it the coupling", Fact("correct", "barrel.paddle_inside@1"))
    told = told.word("without", "multimeter")
    while told.ask.id not in {"caution.power", "gate.power#1"}:
        told = told.chose("unsure")
    seen = []
    while told.ask.about in {"caution", "gate"}:
        seen.append(told.ask.id)
        told = told.chose("yes")

    assert told.ask.id.startswith("barrel.paddle_inside")
    assert [name for name in seen if "#" in name][:4] == [
        "gate.power#1",
        "gate.power#2",
        "gate.motion#1",
        "gate.motion#2",
    ]


# -- decisions -----------------------------------------------------------------------------------


def test_a_repair_that_this_person_may_do_is_offered_with_reasons():
    told = narrowing().said("wheel turns, gas 5 psi", *SHUT)

    assert told.ask.about == "remedy"
    assert told.ask.id == "gas.open_valve"
    assert decision(told).kind == "phone_fix"
    assert decision(told).reasons[0] == "Most likely: the tap on the gas bottle is shut."
    assert told.ask.text == "Open the tap on the gas bottle. It takes about 5 minutes. Shall we do it now?"


def test_a_repair_that_is_declined_is_not_offered_again():
    told = narrowing().said("x", *SHUT).chose("no")

    assert told.state.declined == ("gas.open_valve",)
    while told.ask is not None:
        assert told.ask.id != "gas.open_valve"
        told = told.chose("unsure" if told.ask.about in {"check", "symptom"} else told.ask.options[-1].id)


def test_trained_work_is_offered_only_after_a_yes_to_being_trained():
    light = (
        Fact("answer", "gas.weight", value="light"),
        Fact("answer", "gas.valve_open", value="open"),
        Fact("reading", "gas_supply", value="5", unit="psi"),
    )
    told = narrowing().said("x", *light)
    assert told.ask.id == "trained"

    assert told.chose("yes").ask.id == "gas.change_cylinder"
    sent = told.chose("no")
    assert decision(sent).kind == "refer"
    assert decision(sent).send == "Gas supplier"
    assert narrowing(trained=True).said("x", *light).ask.id == "gas.change_cylinder"
    assert "Has the person at the machine" in narrowing("helpdesk").said("x", *light).ask.text


def test_work_for_somebody_else_ends_in_a_visit_with_parts_and_tools_worth_carrying():
    told = session(parlour_case(), "barrel.lead.broken@1", "helpdesk")
    sent = told.decided[-1]

    assert sent.kind == "visit"
    assert sent.remedy == "barrel.change_lead@1"
    assert sent.send == "Field technician"
    assert "lead" in sent.parts
    assert "multimeter" in sent.tools
    assert sent.urgency == "soon: the cause is at one barrel"
    assert told.closed.outcome == "visit"
    assert told.closed.ref in {"F3", "F4"}


def test_licensed_work_is_never_shown_to_a_technician():
    told = session(parlour_case(), "barrel.circuit.empty", "technician")

    assert told.decided[-1].send == "Refrigeration technician"
    assert not any(ask.id.startswith("barrel.recharge") for ask in told.asked)
    assert session(parlour_case(), "barrel.circuit.empty", "refrigeration").closed.outcome == "cured"


def test_proof_is_recorded_before_a_part_is_condemned():
    asked = [ask.id for ask in session(parlour_case(), "barrel.lead.broken@1", "technician").asked]

    assert asked.index("barrel.volts@1") < asked.index("barrel.change_lead@1")


def test_an_unknown_cause_is_said_to_be_unknown_with_what_was_ruled_out():
    told = narrowing("technician").said(
        "all well",
        Fact("not_symptom", "gas.flat"),
        Fact("not_symptom", "barrel.runny"),
        Fact("answer", "gas.valve_open", value="open"),
        Fact("answer", "gas.weight", value="heavy"),
        Fact("reading", "gas_supply", value="69", unit="psi"),
        Fact("answer", "barrel.turns", value="yes", which=(1, 2)),
    )
    while told.ask is not None and told.state.stage is Stage.NARROWING:
        well = {"barrel.volts": "good", "barrel.paddle_inside": "free", "gas.alarm": "absent"}
        told = told.chose(well.get(told.ask.id.partition("@")[0], told.ask.options[0].id))
    last = next(effect for effect in reversed(told.all_shown) if isinstance(effect, Decide))

    assert last.kind in {"not_in_graph", "nothing_wrong"}
    assert told.state.outcome == "not_found"
    assert told.state.stage is Stage.CLOSING


@pytest.mark.parametrize("role", ["operator", "helpdesk", "technician", "refrigeration"])
def test_an_honest_person_is_led_to_the_right_repair_for_every_fault(role):
    case = parlour_case()
    for fault in case.machine.faults:
        ended = session(case, fault.id, role)

        assert ended.decided[-1].remedy == fault.remedy
        assert ended.closed.outcome in {"cured", "visit", "referred"}
