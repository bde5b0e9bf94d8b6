"""What a report says of a session, against the session itself and against arithmetic done here."""

from __future__ import annotations

from math import isclose, log10

import pytest
from casts import PARLOUR, parlour_case
from reported import SHUT, SITE, Held, at_work, cured, live, offered
from walks import walk

from assistant.engine.evidence import findings
from assistant.errors import WrongUse
from assistant.facts import Fact
from assistant.record import Entry, Record
from assistant.report.evidence import proof
from assistant.report.exchanges import exchanges, standing
from assistant.report.gather import gather
from assistant.report.hazards import uncleared
from assistant.report.model import Cause
from assistant.report.paper import paper
from assistant.report.plain import plain
from assistant.report.told import told


@pytest.fixture
def report():
    return cured().report()


# -- who, where, what ------------------------------------------------------------------------------


def test_who_where_and_the_words_that_were_said(report):
    assert (report.site, report.unit, report.complaint) == (SITE, "foyer, left", "the drinks are flat")
    assert [(person.name, person.role) for person in report.people] == [("Rosa", "operator")]
    assert report.machine.flavours == ("lime", "cherry")
    assert report.started == "2026-11-25T09:15:30+01:00"


def test_a_session_that_ended_well_names_its_cause_as_found(report):
    assert report.outcome == "cured"
    assert (report.cause.id, report.cause.confirmed, report.cause.rank) == ("gas.valve.shut", True, 1)
    assert report.cause.predicted < report.cause.probability
    assert report.decided.remedy == "gas.open_valve"


def test_a_session_without_any_answer_names_no_cause():
    report = Held().report()

    assert report.outcome == "open"
    assert report.cause == Cause("", "", "", 0.0, confirmed=False, rank=0, predicted=0.0)
    assert report.findings == ()


def test_a_record_without_any_event_is_an_empty_report():
    held = Held()
    empty = Record(held.record.path, held.record.header, ())
    report = gather(told(empty, held.live))

    assert (report.people, report.findings, report.work, report.time.minutes) == ((), (), (), 0.0)
    assert report.ended == report.started


# -- evidence --------------------------------------------------------------------------------------


def test_findings_stand_in_the_order_in_which_they_were_given_with_who_gave_them(report):
    assert [found.check for found in report.findings] == [
        "safety.room", "safety.floor", "gas.flat", "barrel.runny@1", "barrel.runny@2", "gas.valve_open",
        "gas.weight", "gas.pressure", "gas.pressure", "work:gas.open_valve",
    ]  # fmt: skip
    assert {found.person for found in report.findings} == {"Rosa"}
    assert [found.asked for found in report.findings if found.safety] == [True, True]
    assert not next(found for found in report.findings if found.check == "gas.valve_open").asked


def test_a_reading_stands_in_both_systems(report):
    """5 psi are 0.345 bar: 1 psi = 6894.757 Pa, NIST Special Publication 811 (2008), Appendix B.8."""
    first = next(found for found in report.findings if found.check == "gas.pressure")

    assert (first.value, first.unit, first.text) == (5.0, "psi", "5 psi (0.3 bar)")
    assert round(5 * 6894.757 / 1e5, 1) == 0.3


def test_weights_add_up_from_the_prior_to_the_posterior(report):
    """Ten times the log10 of the odds: I. J. Good, Probability and the Weighing of Evidence (1950), from memory."""
    assert isclose(
        report.prior + sum(found.decibans for found in report.findings), report.posterior, abs_tol=1e-6
    )

    case = live().case
    p = dict(case.believe(findings(cured().told().end)).causes)["gas.valve.shut"]

    assert isclose(report.posterior, 10 * log10(p / (1 - p)), abs_tol=1e-6)


def test_what_is_ruled_out_was_likely_once_and_names_what_spoke_most_against_it(report):
    empty = next(each for each in report.ruled_out if each.id == "gas.cylinder.empty")
    weights = live().case.explain(findings(cured().told().end), "gas.cylinder.empty")

    assert empty.peak >= 0.05
    assert empty.probability < 0.01
    assert isclose(empty.decibans, min(weights))
    assert empty.because == "Open the cylinder valve: It helped"


def test_a_question_without_an_answer_is_left_out_and_a_safety_question_is_then_not_cleared():
    report = Held().chose("none", "unsure", "unsure").said("flat", SHUT[0]).chose("yes", "unsure").report()

    assert [(each.check, each.safety) for each in report.left_out] == [
        ("safety.floor", True),
        ("gas.valve_open", False),
    ]
    assert [hazard.id for hazard in report.hazards if hazard.holds] == ["caution.power"]


def test_a_safety_question_that_was_not_cleared_stays_so_after_a_handover():
    report = Held().chose("none", "unsure", "unsure").word("handover", "technician Kim").report()

    assert [(each.check, each.answer) for each in report.left_out] == [("safety.floor", "Not sure")]


def test_the_safety_answers_of_everybody_stand_in_the_report():
    held = Held().chose("none", "dry").word("handover", "technician Kim").chose("none", "dry")
    page = plain(paper(held.report()))
    answers = [each for each in (*held.report().screened_before, *held.report().findings) if each.safety]

    assert [(each.check, each.role) for each in answers] == [
        ("safety.room", "operator"),
        ("safety.floor", "operator"),
        ("safety.room", "technician"),
        ("safety.floor", "technician"),
    ]
    assert page.count("Counter staff") > 2
    assert Held().chose("none", "dry").report().screened_before == ()


def test_an_answer_taken_back_does_not_stand():
    held = Held().chose("none", "dry").said("flat", SHUT[0])
    before = held.report()
    held.said("5 psi", SHUT[2])

    assert [row.value for row in held.report().readings] == [5.0]

    after = held.word("back").report()

    assert (after.findings, after.readings, after.causes) == (before.findings, (), before.causes)


# -- readings --------------------------------------------------------------------------------------


def test_readings_say_when_they_were_read_and_whether_they_were_within_limits(report):
    rows = [(row.quantity, row.value, row.phase, row.within) for row in report.readings]

    assert rows == [
        ("gas_supply", 5.0, "before", False),
        ("room_co2", 0.1, "during", True),
        ("gas_supply", 70.0, "during", True),
        ("gas_supply", 69.0, "after", True),
    ]
    assert report.readings[0].limits == "65 to 72 psi"


def test_the_same_number_read_again_is_a_reading_of_its_own():
    held = at_work().read(0.1, "%").chose("yes", "yes").read(70, "psi").read(70, "psi")

    assert [row.value for row in held.report().readings if row.quantity == "gas_supply"] == [5.0, 70.0, 70.0]


# -- work ------------------------------------------------------------------------------------------


def test_work_is_listed_step_by_step_with_its_gate_and_its_verification(report):
    (work,) = report.work

    assert [(item.kind, item.id, item.gate) for item in work.items] == [
        ("caution", "caution.gas", ""),
        ("gate", "gate.room#1", "Before work in the gas room"),
        ("gate", "gate.room#2", "Before work in the gas room"),
        ("step", "gas.open_valve#1", ""),
        ("step", "gas.open_valve#2", ""),
    ]
    assert all(item.done for item in work.items)
    assert work.items[1].answer == "0.1 %"
    assert [(each.answer, each.wanted, each.passed) for each in work.verified] == [
        ("69 psi", "in the window", True),
        ("Yes", "", True),
    ]
    assert work.result == "helped"


def test_a_step_that_cannot_be_done_stops_the_work_and_stands_there_as_not_done():
    (work,) = at_work().read(0.1, "%").chose("no").report().work

    assert work.result == "stopped"
    assert [item.done for item in work.items] == [True, True, False]


def test_a_number_out_of_limits_at_a_gate_stops_the_work():
    (work,) = at_work().read(0.9, "%").report().work

    assert (work.result, work.items[-1].id, work.items[-1].done) == ("stopped", "gate.room#1", False)


def test_work_that_did_not_help_says_so_and_the_session_goes_on():
    held = at_work().read(0.1, "%").chose("yes", "yes").read(70, "psi").read(69, "psi").chose("yes", "no")
    report = held.report()

    assert [work.result for work in report.work] == ["did_not_help"]
    assert report.outcome == "open"
    assert "work:gas.open_valve" in [found.check for found in report.findings]


def test_work_helped_even_if_something_else_is_left_to_look_for():
    runny = Fact("symptom", "barrel.runny@2", words="2 is runny")
    held = at_work().read(0.1, "%").chose("yes", "yes").read(70, "psi").said("2 is runny", runny)
    held = held.read(69, "psi").chose("yes", "yes")
    assert held.entries[-1].shown[-1].id == "left"
    report = held.chose("yes").report()

    assert [(work.result, [each.passed for each in work.verified]) for work in report.work] == [
        ("helped", [True, True])
    ]


def test_a_verification_that_fails_says_so():
    held = at_work().read(0.1, "%").chose("yes", "yes").read(70, "psi").read(20, "psi")
    (work,) = held.report().work

    assert [each.passed for each in work.verified] == [False]
    assert work.result == "did_not_help"


def test_a_verification_that_nobody_could_make_stays_unproved():
    held = at_work().read(0.1, "%").chose("yes", "yes").read(70, "psi").chose("cannot", "yes", "unsure", "no")
    report = held.report()

    assert [each.passed for each in report.work[0].verified] == [None, True]
    assert (report.work[0].result, report.outcome) == ("for_now", "cured_for_now")


def test_work_goes_on_after_a_stop_and_its_gate_is_passed_again():
    held = at_work().read(0.1, "%").chose("yes").word("stop").wait(600).word("resume")
    assert held.report().work[0].result == "open"
    (work,) = held.chose("yes").read(0.1, "%").chose("yes", "yes").report().work

    assert [item.id for item in work.items] == [
        "caution.gas", "gate.room#1", "gate.room#2", "caution.gas", "gate.room#1", "gate.room#2", "gas.open_valve#1",
    ]  # fmt: skip


def test_a_step_taken_back_is_not_done():
    held = at_work().read(0.1, "%").chose("yes").word("back")
    (work,) = held.report().work

    assert [item.id for item in work.items] == ["caution.gas", "gate.room#1"]


def test_danger_in_the_middle_of_a_step_does_not_tick_it():
    held = at_work().read(0.1, "%").said("the alarm sounds", Fact("danger", "caution.gas"))
    report = held.report()

    assert [item.id for item in report.work[0].items] == ["caution.gas", "gate.room#1"]
    assert [(hazard.id, hazard.stop, hazard.holds) for hazard in report.hazards] == [
        ("caution.gas", True, True)
    ]


def test_who_called_a_danger_over_stands_in_the_report():
    held = at_work().read(0.1, "%").said("the alarm sounds", Fact("danger", "caution.gas"))
    report = held.chose("yes", "gas_supplier").report()

    assert [hazard.safe_by for hazard in report.hazards] == ["Gas supplier"]
    assert "called safe by: Gas supplier" in plain(paper(report))


def test_work_left_to_somebody_else_says_so_and_both_are_named():
    report = at_work().read(0.1, "%").word("handover", "technician Kim").report()

    assert report.work[0].result == "handed_over"
    assert [(person.name, person.role) for person in report.people] == [
        ("Rosa", "operator"),
        ("Kim", "technician"),
    ]


def test_what_a_check_needed_is_listed_apart_from_repairs():
    held = Held("technician").chose("none", "dry").said("runny", Fact("symptom", "barrel.runny", which=(1,)))
    while held.state.guarding != "barrel.volts@1":
        held.chose("cannot")
    held.chose("yes", "yes", "yes")
    report = held.report()

    assert report.work == ()
    assert [item.id for item in report.made_safe if item.kind == "gate"] == ["gate.power#1", "gate.power#2"]
    assert {item.gate for item in report.made_safe if item.kind == "gate"} == {"Isolate, lock and prove dead"}


def test_a_repair_names_the_proof_that_stands_on_record_and_the_one_that_it_lacks():
    told = Held("technician").said("", Fact("reading", "sensor_volts@1", value="0.1", unit="V")).told()
    recorded, lacking = proof(told, "barrel.change_lead@1"), proof(told, "barrel.change_lead@2")

    assert [(each.check, each.answer, each.text) for each in recorded] == [
        ("barrel.volts@1", "no signal", "0.1 V")
    ]
    assert [(each.check, each.answer, each.text) for each in lacking] == [("barrel.volts@2", "", "")]


# -- danger, hand-over, end ------------------------------------------------------------------------


def test_a_session_stopped_in_danger_is_made_safe_and_waiting():
    report = Held().chose("alarm").word("stop").report()

    assert (report.outcome, report.decided.kind) == ("made_safe", "make_safe")
    assert [(hazard.id, hazard.stop, hazard.holds) for hazard in report.hazards] == [
        ("caution.gas", True, True)
    ]


def test_work_that_is_not_for_the_person_here_ends_in_a_visit_with_what_to_bring():
    held = Held().chose("none", "dry").said("flat", SHUT[0], SHUT[2], SHUT[4])
    held.said(
        "",
        Fact("answer", "gas.valve_open", value="open"),
        Fact("answer", "gas.weight", value="light"),
    )
    held.chose("no")
    report = held.report()

    assert report.decisions[-1].remedy == "gas.change_cylinder"
    assert report.decisions[-1].send
    assert "washer" in report.decisions[-1].parts


def test_a_note_that_names_the_next_service_sets_it(report):
    assert report.next_service == "March 2027"
    assert report.notes == ("next service: March 2027",)
    assert cured().word("note", "key is at the bar").report().next_service == "March 2027"
    assert offered().report().next_service == "not set in this session"


# -- time ------------------------------------------------------------------------------------------


def test_a_gap_of_fifteen_minutes_counts_and_a_longer_one_is_a_pause():
    whole = Held(pace=0).wait(15).chose("none").wait(15.5).chose("dry").wait(2).said("flat").report().time

    assert whole.minutes == 17.0
    assert whole.elapsed == 32.5
    assert [(pause.minutes, pause.why) for pause in whole.pauses] == [(15.5, "gap")]


def test_the_time_between_a_stop_and_going_on_is_a_pause_however_short():
    time = Held(pace=1).chose("none").word("stop").wait(4).word("resume").chose("dry").report().time

    assert [(pause.minutes, pause.why) for pause in time.pauses] == [(5.0, "stopped")]
    assert time.minutes == 3.0


def test_minutes_are_counted_for_the_role_that_spent_them():
    time = (
        Held(pace=2)
        .chose("none", "dry")
        .word("handover", "technician Kim")
        .chose("none", "dry")
        .report()
        .time
    )

    assert [(each.role, each.minutes) for each in time.roles] == [("operator", 6.0), ("technician", 4.0)]


def test_times_that_are_none_and_clocks_set_back_count_for_nothing():
    held = cured()
    first, second, *rest = held.entries
    held.entries = [first, Entry(2, "yesterday", second.event, second.shown), *rest]
    held.entries[-1] = Entry(
        len(held.entries), "2020-01-01T00:00:00+00:00", held.entries[-1].event, held.entries[-1].shown
    )
    report = held.report()

    assert report.time.minutes == 10.0  # thirteen minutes less the two at the odd entry and the one set back
    assert report.outcome == "cured"


@pytest.mark.parametrize("seed", range(12))
def test_hazards_that_hold_are_those_that_the_conversation_keeps(seed):
    """Read off the record alone and off the state of the conversation, on random walks."""
    held = Held()
    held.entries, held.state = [], held.live.open()
    for event in walk(parlour_case(), seed, 40):
        held.event(event)
    told = held.told()

    assert set(uncleared(standing(exchanges(told.record)))) == {*told.end.hazards, *told.end.halts}


# -- a pack that changed ---------------------------------------------------------------------------


@pytest.fixture
def changed(tmp_path):
    """Return a function that copies the parlour pack with one text replaced by another."""

    def copied(file, old, new):
        folder = tmp_path / "changed"
        folder.mkdir()
        for each in PARLOUR.glob("*.yaml"):
            text = each.read_text(encoding="utf-8")
            assert each.name != file or old in text
            (folder / each.name).write_text(
                text.replace(old, new) if each.name == file else text, encoding="utf-8"
            )
        return folder

    return copied


def test_a_pack_that_only_reads_differently_says_so_in_one_line_and_keeps_the_session(changed):
    report = cured().report(changed("gas.yaml", "The tall steel bottle", "The long steel bottle"))

    assert len(report.remarks) == 1
    assert report.remarks[0].startswith("The session was recorded with pack parlour 1 (")
    assert report.findings == cured().report().findings


def test_under_a_pack_that_asks_otherwise_what_was_said_and_done_stands_as_recorded(changed):
    was, now = cured().report(), cured().report(changed("gas.yaml", "rate: 40", "rate: 2"))

    assert len(now.remarks) == 1
    assert now.remarks[0].endswith("beliefs and weights are reckoned anew.")
    assert (now.outcome, now.closing, now.decisions, now.notes) == (
        was.outcome,
        was.closing,
        was.decisions,
        was.notes,
    )
    assert [(work.result, work.items) for work in now.work] == [
        (work.result, work.items) for work in was.work
    ]
    assert now.time.minutes == was.time.minutes
    assert now.prior < was.prior


def test_a_hazard_holds_under_any_pack(changed):
    held = Held().chose("none", "unsure", "unsure").said("flat", SHUT[0]).word("handover", "technician Kim")
    report = held.report(changed("safety.yaml", "safety.floor", "safety.ground"))

    assert [hazard.id for hazard in report.hazards if hazard.holds] == ["caution.power"]


def test_readings_of_steps_that_are_not_gone_through_again_still_stand(changed):
    folder = changed("gas.yaml", "rate: 40", "rate: 0.001")
    now = cured().report(folder)

    assert [row.value for row in now.readings if row.quantity == "gas_supply"] == [5.0, 70.0, 69.0]


def test_a_fault_that_the_pack_no_longer_has_is_named_by_its_id(changed):
    held = cured()
    folder = changed("gas.yaml", "gas.valve.shut", "gas.valve.closed")
    report = held.report(folder)

    assert report.outcome == "cured"
    assert report.cause.title == "gas.valve.shut"
    assert report.weighed == ""


def test_another_pack_is_refused():
    with pytest.raises(WrongUse, match="belongs to pack parlour"):
        told(cured().record, live("", "three_barrel"))
