"""After a gas danger nobody is sent to the gas by phone, on the shipped pack, however the danger was told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import shipped_case

from assistant.engine import deciding, evidence, open_state, step
from assistant.engine.candidates import allowed, askable, candidates
from assistant.engine.effects import Decide, Warn
from assistant.engine.events import Asked
from assistant.engine.state import Stage
from assistant.shell_wording import decision_text
from graph import Advice

GAS = "caution.co2_build_up"


def after_danger(role, *hazards):
    return replace(open_state(shipped_case()), stage=Stage.NARROWING, role=role, hazards=hazards)


@pytest.mark.parametrize("role", ["operator", "helpdesk"])
def test_no_check_where_the_gas_stands_is_asked_by_phone_after_a_gas_danger(role):
    case = shipped_case()
    before = candidates(case, after_danger(role))
    after = candidates(case, after_danger(role, GAS))

    assert any(case.check(name).place == "back_room" for name in before)
    assert not any(case.check(name).place == "back_room" for name in after)
    assert not askable(case, after_danger(role, GAS), case.check("gas_supply.cylinder_valve"))


@pytest.mark.parametrize("role", ["operator", "helpdesk"])
def test_no_repair_at_the_gas_is_guided_by_phone_after_a_gas_danger(role):
    case = shipped_case()
    remedy = case.remedy("gas_supply.open_valve")

    assert allowed(case, after_danger(role), remedy)
    assert not allowed(case, after_danger(role, GAS), remedy)


@pytest.mark.parametrize("role", ["operator", "helpdesk"])
@pytest.mark.parametrize(
    "remedy",
    [
        "syrup.change_bag@1",
        "syrup.close_connector@2",
        "gas_supply.switch_changeover",
        "people.reopen_utilities",
    ],
)
def test_no_work_where_the_gas_stands_is_guided_by_phone_syrup_included(role, remedy):
    case = shipped_case()

    assert allowed(case, after_danger(role), case.remedy(remedy))
    assert not allowed(case, after_danger(role, GAS), case.remedy(remedy))
    assert allowed(case, after_danger("technician", GAS), case.remedy("syrup.change_bag@1"))


@pytest.mark.parametrize("role", ["operator", "helpdesk"])
def test_nobody_is_sent_back_to_read_the_gas_detector(role):
    case = shipped_case()
    check = case.check("safety.gas_place")

    assert askable(case, after_danger(role), check)
    assert not askable(case, after_danger(role, GAS), check)


def ordered(role):
    """Return the decision of a session in which a relief has blown beside the bottle, danger not told yet."""
    case = shipped_case()
    faults = ("gas_supply.cylinder.relief_discharged",)
    state = evidence.answer(case, replace(after_danger(role), open=None), "danger.gas_alarm", "present")
    advice = Advice(True, case.fault(faults[0]).remedy, 0.9, 1.0, 2.0, "certain")  # noqa: FBT003 - act
    return deciding.decide(case, state, advice)


@pytest.mark.parametrize("role", ["operator", "helpdesk", "technician"])
def test_leaving_the_gas_area_is_an_order_and_not_an_offer(role):
    state, shown = ordered(role)
    decision = next(effect for effect in shown if isinstance(effect, Decide))

    assert decision.kind == "make_safe"
    assert decision.send == "Gas supplier"
    assert decision.probability == 0.0
    assert decision.meanwhile[0].startswith("Leave the area now")
    assert [effect.id for effect in shown if isinstance(effect, Warn)] == [GAS]
    assert (state.stage, state.open, state.outcome) == (Stage.CLOSING, None, "made_safe")
    assert "Shall we" not in decision_text(decision)
    assert "Do now: Leave the area now" in decision_text(decision)


def test_an_order_to_leave_holds_for_whoever_takes_over():
    case = shipped_case()
    state, _ = ordered("operator")
    state, shown = step(case, state, Asked("handover", "technician"))

    assert state.stage is Stage.HALTED
    assert shown[-1].id == "safe"


def test_a_danger_that_was_called_over_is_no_order_to_whoever_waits():
    case = shipped_case()
    remedy = case.remedy("gas_supply.open_valve")
    held, over = (
        after_danger("helpdesk", GAS),
        replace(after_danger("helpdesk", GAS), cleared=((GAS, "Gas supplier"),)),
    )
    told = [deciding.send(case, state, remedy, "certain")[1][0].meanwhile for state in (held, over)]

    assert any(text.startswith("Leave the area now") for text in told[0])
    assert not any(text.startswith("Leave the area now") for text in told[1])


def test_work_at_the_machine_itself_is_still_guided_by_phone():
    case = shipped_case()

    assert allowed(case, after_danger("operator", GAS), case.remedy("people.restart_barrel@1"))


def test_a_technician_on_site_may_still_look():
    case = shipped_case()

    assert askable(case, after_danger("technician", GAS), case.check("gas_supply.cylinder_valve"))
