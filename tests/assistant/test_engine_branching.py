"""Steps that cannot be done as they stand: the valve will not shut, the screw is stripped, it will not bleed off."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import shipped_case
from hazards import HazardWatch
from reported import repairing

from assistant.engine import Stage, deciding, procedure
from assistant.engine.effects import Warn
from assistant.report.markdown import markdown
from assistant.report.paper import paper
from assistant.report.plain import plain
from assistant.report.sheet import sheet
from graph import Advice

SEAL, PORT, EMPTY = "barrel.front_seal.leaking@1", "sensors.port.blocked@water", "gas_supply.cylinder.empty"
SCREW = "sensors.clean_port@water#4"


def at(until, fault=SEAL, role="technician"):
    """Return a repair at one of its steps."""
    held = repairing(fault, until, role)
    assert held.ask.id == until
    return held


def said(held):
    return " ".join(getattr(effect, "text", "") for effect in held.entries[-1].shown)


WALKS = (
    ("gate.fluids#1", SEAL, "stuck", "Shut the site's stop valve instead"),
    ("gate.fluids#2", SEAL, "stuck", "Shut the gas further up instead"),
    ("gate.fluids#3", SEAL, "stuck", "Shut the gas before the pump panel instead"),
    ("gate.fluids#5", SEAL, "blocked", "A blocked point is no zero."),
    ("gate.fluids#5", SEAL, "fed", "Shut one valve further up after the other"),
    (SCREW, PORT, "stripped", "No drill and no lever"),
    (SCREW, PORT, "pushed", "It is still under pressure."),
)
IDS = [f"{step.partition('@')[0]}-{way}" for step, _, way, _ in WALKS]


@pytest.mark.parametrize(("step", "fault", "way", "words"), WALKS, ids=IDS)
def test_what_keeps_a_step_from_being_done_is_an_answer_and_leads_to_another_way(step, fault, way, words):
    held = at(step, fault)
    assert way in [option.id for option in held.ask.options]
    held.chose(way)

    assert (held.ask.about, held.ask.id) == ("confirm", "instead")
    assert words in held.ask.text
    assert held.state.stage is Stage.DOING


@pytest.mark.parametrize(("step", "fault", "way", "words"), WALKS, ids=IDS)
def test_after_the_other_way_the_step_itself_comes_again_and_must_be_confirmed(step, fault, way, words):
    del words
    held = at(step, fault)
    before = (held.state.at, held.ask)
    held.chose(way, "yes")

    assert (held.state.at, held.ask) == before
    assert held.chose("yes").state.at > before[0]


@pytest.mark.parametrize(("step", "fault", "way", "words"), WALKS, ids=IDS)
@pytest.mark.parametrize("answer", ["no", "unsure"])
def test_where_the_other_way_does_not_help_the_work_stops_and_the_search_goes_on(
    step, fault, way, words, answer
):
    del words
    held = at(step, fault)
    remedy, cannot = (
        held.state.remedy,
        procedure.step_named(shipped_case(), step).cannot,
    )
    held.chose(way, answer)

    assert held.ask.id == "stuck"
    assert cannot
    assert cannot[:40] in said(held)
    held.chose("on")
    assert held.state.stage in {Stage.NARROWING, Stage.CLOSING}
    assert remedy in held.state.declined


DEAD = "sensors.sensor.dead_low@barrel1"


def test_an_isolation_refused_after_the_first_steps_bars_the_work_and_is_no_evidence_against_it():
    held = at("sensors.replace_sensor@barrel1#2", DEAD).chose("yes")
    while held.ask.about == "caution":
        held.chose("yes")
    assert held.ask.id == "gate.electrical#1"
    held.chose("no")

    assert [option.id for option in held.ask.options] == ["send", "again", "on"]
    held.chose("on")
    assert "gate.electrical" in held.state.refused
    assert held.state.unbegun == ("sensors.replace_sensor@barrel1",)


def test_cleaning_that_is_refused_at_the_end_bars_nothing_else():
    held = at("gate.sanitation#1").chose("no")
    assert [option.id for option in held.ask.options] == ["on", "again", "send"]
    held.chose("on")

    assert held.state.refused == ()
    assert held.state.unbegun == ()


def test_work_that_was_left_half_done_is_sent_for_before_anything_unlikely_is_decided_on():
    case, left = shipped_case(), at("gate.sanitation#1").chose("no", "on").state
    remedy = left.declined[0]
    advice = Advice(
        act=True,
        remedy="barrel.sanitise",
        probability=0.001,
        cost_act=1.0,
        cost_ask=1.0,
        reason="no_check_changes_it",
    )
    decision = deciding.decide(case, replace(left, open=None, stage=Stage.NARROWING), advice)[1][0]

    assert (decision.kind, decision.remedy) == ("visit", remedy)
    assert "could not be finished" in decision.reasons[-1]


def test_the_caution_of_another_way_stands_before_it():
    held = at(SCREW, PORT).chose("stripped")

    assert [each.id for each in held.entries[-1].shown[:-1] if isinstance(each, Warn)] == [
        "caution.fragile_plastic"
    ]


def test_a_way_may_be_called_by_its_name():
    held = at("gate.fluids#1").said("the valve will not turn, or does not shut")

    assert held.ask.id == "instead"


def test_a_slip_on_the_other_way_is_taken_back():
    held = at("gate.fluids#1")
    before = held.ask

    assert held.chose("stuck").word("back").ask == before


def test_an_operator_is_told_to_use_no_tool_on_a_wheel_that_is_stuck():
    held = at("gas_supply.change_cylinder#3", EMPTY, "operator").chose("stuck")

    assert "no tool goes on the wheel" in held.ask.text
    assert "theirs to take away" in said(held.chose("no"))


def test_no_step_is_shown_to_a_role_that_may_not_do_it_whatever_ways_are_gone():
    """The hazard rule, watched from outside through every branch of the gate."""
    held = at("gate.fluids#1")
    watch = HazardWatch(held.live.case)
    state = held.live.open()
    for way in ("stuck", "yes", "yes", "stuck", "yes", "yes", "stuck", "yes", "yes", "yes", "blocked", "yes"):
        held.chose(way)
    for entry in held.entries:
        after, shown = held.live.step(state, entry.event, entry.at)
        watch(state, entry.event, after, shown)
        state = after

    assert held.ask.id == "gate.fluids#5"


def test_the_report_says_what_was_tried_instead_and_whether_it_helped():
    report = at("gate.fluids#1").chose("stuck", "yes", "yes", "stuck", "no").report()
    tried = [
        (item.kind, item.text[:20], item.done) for item in report.work[0].items if item.kind == "instead"
    ]

    assert tried == [("instead", "Don't force it: a sp", True), ("instead", "Don't force it. Shut", False)]
    assert "**Instead**" in markdown(paper(report))
    assert report.work[0].result == "stopped"


def test_the_work_sheet_says_what_to_do_where_a_step_cannot_be_done_as_it_stands():
    case = shipped_case()
    text = " ".join(plain(sheet(case, case.remedy("sensors.clean_port@water"), "technician")).split())

    assert "A screw is stripped or will not turn: No drill and no lever" in text
    assert "Nothing comes out at the sample point: A blocked point is no zero." in text
