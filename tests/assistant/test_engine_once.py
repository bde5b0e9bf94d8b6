"""Nothing is confirmed twice: cautions of this visit, gates that are all of a step, proof that is there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from casts import Told, parlour_case, shipped_case
from repairing import SHUT, offered

from assistant.engine import evidence, open_state, procedure
from assistant.engine.candidates import candidates, still_needed
from assistant.engine.effects import Warn
from assistant.engine.state import Stage
from assistant.facts import Fact


def warned(told):
    return [effect.id for effect in told.all_shown if isinstance(effect, Warn)]


def test_a_caution_that_this_person_has_acknowledged_is_not_sworn_again_for_the_repair():
    told = (
        Told(parlour_case()).began("operator").chose("none", "dry").said("flat", Fact("symptom", "gas.flat"))
    )
    while (told.ask.about, told.ask.id) != ("caution", "caution.gas"):
        told = told.chose("unsure")
    told = told.chose("yes").said("it turns", *SHUT)
    assert told.ask.id == "gas.open_valve"
    told = told.chose("yes")

    assert told.ask.id == "gate.room#1"  # the gate itself is passed anew
    assert [effect.id for effect in told.shown if isinstance(effect, Warn)] == [
        "caution.gas"
    ]  # shown, not sworn
    assert warned(told).count("caution.gas") == 2


def test_another_person_acknowledges_it_again():
    told = offered().chose("yes", "yes").word("handover", "technician")

    assert told.state.warned == ()


# -- gates that are all of a step ----------------------------------------------------------------


def items(remedy):
    case = shipped_case()
    return procedure.of_remedy(case, case.remedy(remedy))


def test_a_step_that_only_carries_a_gate_is_not_asked_after_the_gate():
    remedy = shipped_case().remedy("gas_supply.change_cylinder")
    carried = [n for n, step in enumerate(remedy.steps, start=1) if step.by_gate]
    ids = [item.id for item in items(remedy.id)]

    assert carried
    assert not any(f"{remedy.id}#{n}" in ids for n in carried)
    assert "gate.gas_room#1" in ids


def test_what_the_step_says_heads_its_gate():
    case = shipped_case()
    found = items("gas_supply.change_cylinder")
    at = next(n for n, item in enumerate(found) if item.kind == "title")
    state = replace(open_state(case), stage=Stage.DOING, role="technician")
    _, _, shown = procedure.walk(case, state, found, at)

    assert shown[0].text.startswith(
        "Make sure that the gas area is safe to enter. Step by step: before entering"
    )


def test_work_behind_a_gate_is_still_confirmed():
    assert any(item.id == "gas.open_valve#1" for item in _parlour("gas.open_valve"))


def _parlour(remedy):
    case = parlour_case()
    return procedure.of_remedy(case, case.remedy(remedy))


@pytest.mark.parametrize("remedy", shipped_case().machine.remedies, ids=lambda remedy: remedy.id)
def test_a_step_that_is_its_gate_has_nothing_of_its_own_to_confirm_or_read(remedy):
    for step in remedy.steps:
        if step.by_gate:
            assert step.gate
            assert (step.confirm, step.reads, step.wait, step.cannot) == ("", (), 0.0, "")


# -- proof ---------------------------------------------------------------------------------------


def seen(*answers):
    case, state = (
        shipped_case(),
        replace(open_state(shipped_case()), role="technician", stage=Stage.NARROWING),
    )
    for check, outcome in answers:
        state = evidence.answer(case, state, check, outcome)
    return state


def test_one_answer_that_speaks_for_the_fault_is_proof_enough():
    case = shipped_case()
    remedy = case.remedy("gas_supply.open_valve")
    assert len(remedy.proof) > 1

    assert set(still_needed(case, seen(), remedy)) == set(remedy.proof)
    assert still_needed(case, seen(("gas_supply.cylinder_valve", "shut")), remedy) == ()


def test_a_usual_answer_proves_nothing_and_the_rest_is_still_asked():
    case = shipped_case()
    remedy = case.remedy("gas_supply.open_valve")
    rest = still_needed(case, seen(("gas_supply.cylinder_valve", "open")), remedy)

    assert rest == tuple(name for name in remedy.proof if name != "gas_supply.cylinder_valve")


def test_a_proof_that_stands_at_every_channel_is_recorded_at_one_of_them_where_it_tells_most():
    case = shipped_case()
    remedy = case.remedy("electrics.replace_board_or_supply")
    assert sum(name.startswith("sensors.supply_voltage@") for name in remedy.proof) > 1
    told = seen(("sensors.does_it_move@barrel2", "stuck_zero"))
    needed = still_needed(case, told, remedy)
    supplies = [name for name in remedy.proof if name.startswith("sensors.supply_voltage@")]
    best = case.rank(evidence.findings(told), supplies, role="technician", by="bits")[0].check

    assert [name.partition("@")[0] for name in needed] == list(
        dict.fromkeys(name.partition("@")[0] for name in remedy.proof)
    )
    assert best in needed


def test_a_proof_recorded_at_one_place_is_not_asked_for_at_the_others():
    case = shipped_case()
    remedy = case.remedy("electrics.replace_board_or_supply")
    check = case.check("sensors.simulate_input@water")
    needed = still_needed(case, seen((check.id, check.outcomes[check.usual].id)), remedy)

    assert not any(name.startswith("sensors.simulate_input") for name in needed)


@pytest.mark.parametrize("channel", ["gas_supply", "gas_regulated"])
def test_before_a_regulator_is_set_the_sensor_of_its_own_reading_is_zeroed_and_no_other(channel):
    which = "primary" if channel == "gas_supply" else "secondary"
    zeroed = [
        name
        for name in shipped_case().remedy(f"{channel}.set_{which}_regulator").proof
        if name.startswith("sensors.zero_check")
    ]

    assert zeroed == [f"sensors.zero_check@{channel}"]


# -- what comes before a check -------------------------------------------------------------------


def at_gate():
    """Return a conversation at the first caution on the way to a check."""
    told = (
        Told(parlour_case()).began("operator").chose("none", "dry").said("flat", Fact("symptom", "gas.flat"))
    )
    while told.ask.about != "caution":
        told = told.chose("unsure")
    return told


def test_a_check_is_named_before_the_cautions_and_gates_on_the_way_to_it():
    told = at_gate()
    check = told.case.check(told.state.guarding)
    named, caution = told.shown[-3], told.shown[-2]

    assert (named.topic, named.id) == ("next", check.id)
    assert named.text == "Next: Cylinder valve open?"
    assert isinstance(caution, Warn)


def test_again_goes_back_at_once_to_the_check_that_was_not_begun():
    gate = at_gate()
    refused = gate.chose("no")
    assert refused.ask != gate.ask
    again = refused.word("again")

    assert again.ask == gate.ask
    assert again.state.guarding == gate.state.guarding
    assert again.chose("yes").state.refused == ()


# -- what was told is not asked for --------------------------------------------------------------


@pytest.mark.parametrize(
    ("told", "pointless"),
    [
        ("product.flat_all", "scope.one_or_all"),
        ("product.runny_all", "scope.one_or_all"),
        ("warning.gas_low", "scope.display_words"),
        ("warning.syrup_low_one@2", "scope.display_words"),
    ],
)
def test_the_reach_and_the_words_of_the_display_are_not_asked_for_once_told(told, pointless):
    case = shipped_case()
    state = replace(open_state(case), stage=Stage.NARROWING, role="operator", open=None, heard=True)
    assert pointless in candidates(case, state)

    assert pointless not in candidates(case, evidence.answer(case, state, told, "present"))
