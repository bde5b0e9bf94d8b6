"""After a gas danger nobody is sent to the gas by phone, on the shipped pack, however the danger was told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import shipped_case

from assistant.engine import open_state
from assistant.engine.candidates import allowed, askable, candidates
from assistant.engine.state import Stage

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


def test_a_technician_on_site_may_still_look():
    case = shipped_case()

    assert askable(case, after_danger("technician", GAS), case.check("gas_supply.cylinder_valve"))
