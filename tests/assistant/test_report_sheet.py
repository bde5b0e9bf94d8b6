"""Work sheets: cautions before what needs them, nothing for a role that may not do it."""

from __future__ import annotations

import pytest
from casts import parlour_case, shipped_case
from reported import at_work, offered

from assistant.engine import procedure
from assistant.errors import AssistantError, WrongUse
from assistant.report.asked_sheet import named
from assistant.report.document import Alert, Ticks
from assistant.report.plain import WIDTH, plain
from assistant.report.render import rendered
from assistant.report.sheet import sheet
from graph.candidates import may_do


def made(remedy, role="technician", case=None, **more):
    case = case or parlour_case()
    return sheet(case, case.remedy(remedy), role, **more)


def steps(document):
    return next(each.blocks for each in document.sections if each.title == "Steps")


def ticks(document):
    return [tick.text for block in steps(document) if isinstance(block, Ticks) for tick in block.items]


def test_a_sheet_goes_through_cautions_gate_and_steps_in_their_order():
    blocks = [block.title for block in steps(made("gas.open_valve"))]

    assert blocks == ["Carbon dioxide can build up", "Gate: Before work in the gas room", ""]
    assert ticks(made("gas.open_valve")) == [
        "Read the gas detector at the door.", "Wedge the door open.", "Open the valve slowly.", "Look at the display.",
    ]  # fmt: skip


def test_a_sheet_has_room_for_every_reading_with_its_limits_in_both_systems():
    """65 and 72 psi are 4.5 and 5.0 bar: 1 psi = 6894.757 Pa, NIST SP 811 (2008), Appendix B.8."""
    text = plain(made("gas.open_valve"))

    assert "Gas supply pressure: ________ psi (65 psi (4.5 bar) to 72 psi (5 bar))" in " ".join(text.split())
    assert "CO2 in the room: ________ % (at most 0.5 %)" in text
    assert (round(65 * 0.06894757, 1), round(72 * 0.06894757, 1)) == (4.5, 5.0)


def test_a_sheet_says_how_long_to_wait_and_what_to_do_if_it_does_not_work():
    text = plain(made("gas.open_valve"))

    assert "Wait about 2 minutes." in text
    assert "If not: Call the gas supplier." in text


def test_a_sheet_ends_with_verification_and_signatures():
    titles = [section.title for section in made("gas.open_valve").sections]

    assert titles == ["Steps", "Verification", "Signed"]
    assert "Must be: in the window" in plain(made("gas.open_valve"))


@pytest.mark.parametrize(
    ("remedy", "role"),
    [
        ("barrel.recharge", "technician"),
        ("barrel.change_lead@1", "operator"),
        ("barrel.change_lead@1", "helpdesk"),
    ],
)
def test_work_that_a_role_may_not_do_is_refused_with_whom_to_send(remedy, role):
    with pytest.raises(AssistantError, match="send the") as refused:
        made(remedy, role)

    assert refused.value.exit_code == 1


def test_work_for_trained_hands_is_printed_for_an_operator_only_if_trained():
    with pytest.raises(AssistantError, match="for trained people only"):
        made("gas.change_cylinder", "operator")

    assert "Shut the old valve." in ticks(made("gas.change_cylinder", "operator", trained=True))
    assert "Shut the old valve." in ticks(made("gas.change_cylinder"))


def test_a_sheet_ends_before_the_first_step_that_belongs_to_somebody_else():
    document = made("barrel.free_drive@1", "operator")

    assert ticks(document) == ["Switch that barrel off at the front."]
    assert steps(document)[-1] == Alert("stop", steps(document)[-1].title)
    assert steps(document)[-1].title.endswith("The next step is for the field technician.")


@pytest.mark.parametrize("role", ["operator", "helpdesk", "technician", "refrigeration", "electrician"])
def test_no_sheet_of_the_shipped_pack_shows_a_step_to_a_role_that_may_not_do_it(role):
    case = shipped_case()
    printed = 0
    for remedy in case.machine.remedies:
        if not may_do(role, remedy.by):
            continue
        document = sheet(case, remedy, role, trained=True)
        items = procedure.of_remedy(case, remedy)
        first = next((n for n, item in enumerate(items) if not may_do(role, item.roles)), len(items))
        wanted = [item.step.do for item in items[:first] if item.step is not None and item.kind != "title"]
        assert ticks(document) == wanted
        printed += 1

    assert printed > 0


def test_every_caution_of_the_shipped_pack_stands_before_what_needs_it():
    case = shipped_case()
    for remedy in case.machine.remedies:
        role = next(iter(remedy.by))
        blocks = steps(sheet(case, remedy, role, trained=True))
        shown = set()
        at = 0
        items = [item for item in procedure.of_remedy(case, remedy) if item.kind != "title"]
        for block in blocks:
            if isinstance(block, Alert):
                shown.add(block.title)
                continue
            for _ in block.items:
                while items[at].kind == "caution":
                    assert case.caution(items[at].id).title in shown
                    at += 1
                at += 1


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_every_sheet_can_be_printed_in_every_form(form):
    case = shipped_case()
    for remedy in case.machine.remedies:
        text = rendered(sheet(case, remedy, next(iter(remedy.by)), trained=True), form)
        assert remedy.steps[0].do[:20].split(" ")[0] in text
        if form == "text":
            assert all(len(line) <= WIDTH for line in text.split("\n"))


def test_a_sheet_of_a_session_brings_what_is_known():
    held = at_work()
    text = " ".join(plain(made("gas.open_valve", report=held.report())).split())

    assert "session 2026-11-25-091530-westhaven of 2026-11-25 09:15 +01:00" in text
    assert "Complaint: the drinks are flat" in text
    assert "Last readings: Gas supply pressure 5 psi (0.3 bar)" in text
    assert "Cylinder valve shut (97 %)" in text


def test_a_sheet_ticks_the_proof_that_stands_in_the_record():
    case = parlour_case()
    bare = sheet(case, case.remedy("barrel.change_lead@1"), "technician")
    known = sheet(case, case.remedy("barrel.change_lead@1"), "technician", report=offered().report())

    for document in (bare, known):
        (tick,) = document.sections[0].blocks[0].items
        assert (document.sections[0].title, tick.text, tick.done) == (
            "On record before this work",
            "Signal at the sensor plug, barrel 1 (lime)",
            None,
        )


def test_a_remedy_is_found_by_id_ref_or_title():
    machine = parlour_case().machine

    for name in ("gas.open_valve", "R2", "r2", "Open the cylinder valve"):
        assert named(machine, name).id == "gas.open_valve"


def test_a_name_that_means_several_remedies_or_none_is_answered_with_those_there_are():
    machine = parlour_case().machine

    with pytest.raises(WrongUse, match=r"name one of barrel.change_lead@1, barrel.change_lead@2"):
        named(machine, "R3")
    with pytest.raises(WrongUse, match=r"did you mean gas.open_valve"):
        named(machine, "gas.open_valves")
