"""Doing, proving and closing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, parlour_case, shipped_case
from hazards import HazardWatch
from honest import session
from repairing import at_display, doing, offered, proving

from assistant.engine import Stage, asking, danger, open_state, procedure
from assistant.engine.effects import Closed, Decide, Warn
from assistant.engine.replies import REPLIES
from assistant.facts import Fact


def decided(told):
    return [effect for effect in told.shown if isinstance(effect, Decide)][-1]


# -- doing ---------------------------------------------------------------------------------------


def test_the_caution_of_a_repair_comes_first_and_must_be_understood():
    told = offered().chose("yes")

    assert [effect.id for effect in told.shown if isinstance(effect, Warn)] == ["caution.gas"]
    assert (told.ask.about, told.ask.id) == ("caution", "caution.gas")
    assert told.chose("no").ask.id == "stuck"


def test_a_gate_is_gone_through_step_by_step_before_the_step_it_guards():
    told = doing()
    seen = [(told.ask.about, told.ask.id)]
    told = told.read(0.1, "%")
    seen.append((told.ask.about, told.ask.id))
    told = told.chose("yes")
    seen.append((told.ask.about, told.ask.id))

    assert seen == [("gate", "gate.room#1"), ("gate", "gate.room#2"), ("step", "gas.open_valve#1")]
    assert told.ask.minutes == 2
    assert "Allow about 2 minutes for it." in told.ask.text


def test_a_gate_reading_out_of_limits_stops_the_work():
    told = doing().read(0.8, "%")

    assert told.ask.id == "stuck"
    assert told.chose("on").state.declined == ("gas.open_valve",)
    assert "at most 0.5 %" in told.said_back()
    assert "Leave the room shut and call the gas supplier." in told.said_back()


def test_a_number_that_has_limits_cannot_be_waved_through():
    told = doing().chose("yes")

    assert told.ask.id == "gate.room#1"
    assert told.topics()[0] == "ignored"


@pytest.mark.parametrize("reply", ["no", "unsure", "cannot"])
def test_anything_but_a_yes_to_a_gate_stops_the_work(reply):
    told = doing().read(0.1, "%").chose(reply)

    assert "Then this work is not begun, and everything stays as it is now." in told.said_back()
    assert (told.ask.about, told.ask.id) == ("confirm", "stuck")
    assert [option.id for option in told.ask.options] == ["send", "again", "on"]


def test_a_refused_gate_is_asked_again_only_where_the_person_wants_another_try():
    stuck = doing().read(0.1, "%").chose("no")
    gate = doing().read(0.1, "%").ask

    assert stuck.chose("again").ask == gate
    assert stuck.chose("yes").ask == stuck.ask
    assert "it could not be begun" in " ".join(decided(stuck.chose("send")).reasons).casefold()


def test_somebody_is_sent_for_work_that_could_not_be_begun_and_told_how_it_was_left():
    sent = doing().read(0.8, "%").chose("send")

    assert decided(sent).kind == "visit"
    assert decided(sent).remedy == "gas.open_valve"
    assert decided(sent).meanwhile[0] == "Leave the room shut and call the gas supplier."
    assert sent.state.stage is Stage.CLOSING


def test_what_lies_behind_a_refused_gate_is_not_begun_nor_offered_again_to_that_person():
    told = doing().read(0.1, "%").chose("no", "on")

    assert told.state.refused == ("gate.room",)
    while told.ask is not None:
        assert told.ask.id != "gas.open_valve"
        assert not told.ask.id.startswith("gate.room")
        told = told.chose("unsure" if told.ask.about in {"check", "symptom"} else told.ask.options[-1].id)


def test_that_work_could_not_be_begun_is_no_evidence_against_it():
    refused = doing().chose("no", "on")
    if refused.state.stage is not Stage.CLOSING:
        refused = refused.chose("unsure")

    assert decided(refused).remedy == "gas.open_valve"
    assert decided(refused).kind == "visit"


def test_the_person_may_ask_for_what_could_not_be_done():
    case = parlour_case()
    state = replace(
        open_state(case), stage=Stage.NARROWING, role="operator", declined=("x",), refused=("gate.room",)
    )
    again = Told(case, state).word("again")

    assert (again.state.declined, again.state.refused) == ((), ())
    assert again.topics()[0] == "taken"
    assert again.word("again").topics()[0] == "ignored"


def test_somebody_else_finds_no_gate_refused():
    told = doing().read(0.1, "%").chose("no", "on").word("handover", "technician Kim")

    assert (told.state.refused, told.state.unbegun, told.state.declined) == ((), (), ())


def test_a_step_that_stops_work_already_begun_leads_on_to_other_causes_first():
    stuck = doing().read(0.1, "%").chose("yes").chose("yes")
    assert stuck.ask.id == "gas.open_valve#2"
    stuck = stuck.said("the display is dead", Fact("cannot"))

    assert "Then the work stops here." in stuck.said_back()
    assert [option.id for option in stuck.ask.options] == ["on", "again", "send"]
    assert stuck.chose("on").state.unbegun == ()
    assert stuck.chose("again").ask.id == "gas.open_valve#2"


def test_what_cannot_be_done_is_answered_with_what_to_do_instead():
    told = doing().read(0.1, "%").chose("yes").said("too stiff", Fact("cannot"))

    assert "Call the gas supplier." in told.said_back()
    assert "everything stays as it is" in told.said_back()


def test_a_step_may_be_confirmed_in_everyday_words():
    told = doing().read(0.1, "%").chose("yes")

    for told_back in (told.said("done"), told.said("ok!"), told.said("yes", Fact("yes")), told.chose("1")):
        assert told_back.ask.id == "gas.open_valve#2"


def test_a_reading_out_of_limits_is_read_once_more_before_the_work_stops():
    once = at_display().read(40, "psi")
    assert once.ask.id == "gas.open_valve#2"
    assert "should be 65 to 72 psi" in once.said_back()

    assert once.read(70, "psi").state.stage is Stage.PROVING
    twice = once.read(41, "psi")
    assert twice.state.stage is not Stage.DOING
    assert "Shut the valve again." in twice.said_back()


def test_a_reading_in_another_unit_is_judged_in_the_packs_own():
    assert at_display().read(4.8, "bar").state.stage is Stage.PROVING
    assert at_display().read(2.8, "bar").ask.id == "gas.open_valve#2"


def test_a_number_without_its_unit_is_questioned_here_too_and_then_judged():
    told = at_display().read(4.8, "")
    while told.ask.about == "confirm":
        told = told.chose("bar")

    assert told.state.stage is Stage.PROVING


def test_a_step_that_is_not_theirs_is_never_shown_and_somebody_is_sent():
    told = session(parlour_case(), "barrel.drive.seized@1", "operator")

    assert [decision.kind for decision in told.decided] == ["phone_fix", "visit"]
    assert told.decided[-1].send == "Field technician"
    assert [ask.id for ask in told.asked if ask.id.startswith("barrel.free_drive@1#")] == [
        "barrel.free_drive@1#1"
    ]
    assert not any(ask.about == "gate" for ask in told.asked)


def test_something_volunteered_during_the_work_is_taken_and_the_step_stays():
    before = doing()
    told = before.said("paddle 2 turns", Fact("answer", "barrel.turns@2", value="yes"))

    assert told.ask.id == before.ask.id
    assert told.state.answers[-1].finding.check == "barrel.turns@2"


def test_after_danger_during_the_work_the_gates_are_passed_again():
    told = at_display().said("alarm!", Fact("symptom", "gas.alarm"))
    assert told.state.stage is Stage.HALTED

    told = told.called_over()
    assert told.state.stage is Stage.DOING
    assert [effect.id for effect in told.shown if isinstance(effect, Warn)] == ["caution.gas"]
    assert told.chose("yes").ask.id == "gate.room#1"


def test_after_danger_a_repair_goes_back_to_its_own_cautions_where_they_come_before_its_first_gate():
    case = parlour_case()
    items = procedure.of_remedy(case, case.remedy("barrel.recharge"))
    at_work = replace(
        open_state(case),
        stage=Stage.DOING,
        role="refrigeration",
        remedy="barrel.recharge",
        at=len(items) - 1,
        warned=("caution.refrigerant", "caution.power"),
    )
    after = danger.rewound(case, at_work)

    assert (items[after.at].kind, items[after.at].id) == ("caution", "caution.refrigerant")
    assert after.warned == ()


def test_a_slip_is_taken_back_at_once_but_after_other_questions_the_gates_come_again():
    step = doing().read(0.1, "%").chose("yes", "yes")
    assert step.ask.id == "gas.open_valve#2"
    stopped = step.chose("no")

    assert stopped.word("back").ask == step.ask
    left = stopped.chose("on")
    assert left.state.stage is Stage.NARROWING
    later = left.chose(left.ask.options[0].id).word("back").word("back")
    assert later.state.stage is Stage.DOING
    assert later.ask.about == "caution"
    assert later.chose("yes").ask.id == "gate.room#1"


def test_a_helpdesk_agent_reads_each_step_out():
    told = doing("helpdesk")

    assert told.ask.text == 'Read out: "Read the gas detector at the door."'


# -- proving -------------------------------------------------------------------------------------


def test_the_work_is_proved_item_by_item_and_then_by_the_complaint():
    told = proving()
    assert (told.ask.about, told.ask.id) == ("verification", "gas.pressure")

    told = told.chose("in_window")
    assert told.ask.text == "A cup tastes fizzy. Is that so?"
    told = told.chose("yes")
    assert told.ask.text == 'You said: "flat". Is it good again now?'
    told = told.chose("yes")
    assert told.state.outcome == "cured"
    assert told.state.answers[-1].finding.check == "work:gas.open_valve"
    assert told.state.answers[-1].finding.weights == (1.0, 0.0)


@pytest.mark.parametrize("replies", [("low",), ("in_window", "no"), ("in_window", "yes", "no")])
def test_a_repair_that_did_not_help_is_an_answer_and_narrowing_goes_on(replies):
    told = proving().chose(*replies)

    assert told.state.cured == ("gas.open_valve",)
    judged = "the complaint is not gone" if replies[2:] else "not yet as it should be after this repair"
    assert judged in told.said_back()
    work = next(a for a in told.state.answers if a.finding.check.startswith("work:"))
    assert work.finding.weights == (0.0, 1.0)
    assert told.state.stage in {Stage.NARROWING, Stage.DOING, Stage.CLOSING}
    before, after = (
        told.case.believe(tuple(a.finding for a in state.answers)) for state in (proving().state, told.state)
    )
    assert before.cause("gas.valve.shut") > after.cause("gas.valve.shut")
    assert before.unknown < after.unknown


def test_a_reading_taken_during_the_work_does_not_replace_the_one_before_it():
    told = proving()
    pressures = [
        (a.outcome, a.finding.cured) for a in told.state.answers if a.finding.check == "gas.pressure"
    ]

    assert pressures == [("low", ()), ("in_window", ("gas.open_valve",))]
    assert told.ask.id == "gas.pressure"  # it is read anew to prove the work


def test_checks_whose_answer_the_repair_may_have_changed_are_open_again():
    before = proving()
    told = before.chose("low")

    assert {"gas.valve_open", "gas.flat"} <= set(before.state.settled)
    assert not {"gas.valve_open", "gas.flat"} & set(told.state.settled)
    assert "barrel.runny@1" in told.state.settled


def test_what_cannot_be_proved_here_is_left_unproved():
    told = proving().chose("cannot").said("no taster here", Fact("cannot"))

    assert told.ask.id == "gone"
    assert told.topics().count("proving") == 1


def test_a_wrong_number_fails_a_verification():
    ended = session(parlour_case(), "gas.cylinder.empty", "operator")
    assert ended.closed.outcome == "cured"

    told = Told(parlour_case())
    for event in ended.events:
        told = told.event(event)
        if told.state.stage is Stage.PROVING:
            break
    assert told.ask.unit == "psi"
    assert told.read(50, "psi").state.cured == ("gas.change_cylinder",)


def test_too_early_to_say_closes_as_cured_for_now():
    told = proving().chose("in_window", "yes", "unsure")

    assert told.state.outcome == "cured_for_now"
    assert isinstance(told.shown[-1], Closed)
    assert "look again in about 45 minutes" in told.said_back()
    assert not any(a.finding.check.startswith("work:") for a in told.state.answers)


# -- closing -------------------------------------------------------------------------------------


def closing(role="operator"):
    return at_display(role).read(70, "psi").chose("in_window", "yes", "yes")


def test_a_session_closes_with_its_cause_a_note_and_what_to_watch_for():
    told = closing().said("Spare bottle is in the yard")
    end = told.shown[-1]

    assert isinstance(end, Closed)
    assert (end.outcome, end.cause, end.ref) == ("cured", "gas.valve.shut", "F2")
    assert "If it comes back" in end.text
    assert told.state.closing_note == "Spare bottle is in the yard"
    assert told.ask is None


def test_a_note_longer_than_600_characters_is_cut_and_said_so():
    told = closing().said("x" * 700)

    assert len(told.state.closing_note) == 600
    assert "600" in told.said_back()


def test_a_line_that_reads_like_a_reply_closes_without_a_note():
    assert closing().said("no", Fact("no")).state.stage is Stage.CLOSED
    assert closing().said("yes", Fact("yes")).ask.id == "note"


def test_a_closing_note_is_no_evidence():
    before = closing()
    told = before.said("gauge 70 psi before I left", Fact("reading", "gas_supply", value="70", unit="psi"))

    assert told.state.answers == before.state.answers
    assert told.state.stage is Stage.CLOSED


def test_hands_that_did_the_work_say_which_cause_they_found():
    ended = session(parlour_case(), "barrel.lead.wet@1", "technician")
    question = next(ask for ask in ended.asked if ask.id == "cause")

    assert {option.id for option in question.options} == {
        "barrel.lead.wet@1",
        "barrel.lead.broken@1",
        "other",
    }
    assert ended.closed.cause == question.options[0].id


def test_nothing_happens_after_the_end_but_help_and_a_handover_of_what_is_not_cured():
    over = closing().chose("no")

    assert over.chose("yes").state == over.state
    assert over.word("why").topics() == ["refused"]
    assert over.word("handover", "technician").topics() == ["refused"]
    sent = Told(parlour_case())
    for event in session(parlour_case(), "barrel.lead.wet@1", "operator").events:
        sent = sent.event(event)
    assert sent.state.outcome == "visit"
    assert sent.word("handover", "technician").ask.id == "safety.room"


# -- the shipped pack ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fault", "role"),
    [
        ("gas_supply.cylinder_valve.shut", "operator"),
        ("refrigeration.condenser.furred", "helpdesk"),
        ("sensors.lead.core_broken@syrup2", "technician"),
    ],
)
def test_whole_sessions_on_the_shipped_pack_end_with_the_right_repair(fault, role):
    case = shipped_case()
    watch = HazardWatch(case)
    ended = session(case, fault, role, watch=watch)

    assert ended.closed is not None
    assert case.fault(fault).remedy in {
        decision.remedy for decision in ended.decided if isinstance(decision, Decide)
    }
    assert watch.asked > 5


def test_every_kind_of_question_has_somebody_who_takes_the_reply():
    assert set(asking.KINDS) == set(REPLIES)
