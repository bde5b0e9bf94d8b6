"""Factors on rates and a site's own costs: what they change, and that they change nothing else."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_packs import GOOD
from strategies import sample_case

from graph import Case, OutOfRange
from graph.audit import audit_texts
from graph.audit.references import reference_remarks
from graph.compile import compile_tables
from graph.expand import expand
from graph.load import load_pack, load_texts, read_folder
from graph.pack import Recurrence, Repeat
from graph.store import dump, load
from graph.tables import Tables
from graph.weigh import reweighed, weighed

EMPTY, DEAD = "gas_supply.cylinder.empty", "sensors.sensor.dead_low"
NAMES = [fault.id for fault in sample_case().machine.faults]


def reweighed_case(factors, costs=None):
    case = sample_case()
    machine = weighed(case.machine, factors, costs or {})
    return Case(machine, reweighed(case.tables, machine))


def knowledge_with(**repeats):
    """Return the sample pack with rules about earlier calls."""
    known = load_texts(read_folder(GOOD))
    return known.model_copy(update={"pack": known.pack.model_copy(update={"repeats": repeats})})


def rule(**more):
    usual = {"title": "again", "of": (EMPTY,), "days": 30.0, "count": 2, "suspects": {EMPTY: 4.0}, "say": "!"}
    return Repeat.model_validate(usual | more)


@given(st.dictionaries(st.sampled_from(NAMES), st.floats(0.05, 20.0), max_size=6))
def test_weighed_again_is_the_same_as_compiled_anew(factors):
    case = reweighed_case(factors)
    anew = compile_tables(case.machine)

    for field in dataclasses.fields(Tables):
        again, fresh = getattr(case.tables, field.name), getattr(anew, field.name)
        np.testing.assert_allclose(again, fresh, rtol=1e-12, atol=1e-15, err_msg=field.name)


def test_a_factor_multiplies_the_rate_of_its_fault_and_of_no_other():
    before, after = (
        {fault.id: fault.rate for fault in machine.faults}
        for machine in (sample_case().machine, reweighed_case({EMPTY: 3.0}).machine)
    )

    assert after[EMPTY] == pytest.approx(3.0 * before[EMPTY])
    assert {name: rate for name, rate in after.items() if name != EMPTY} == {
        name: rate for name, rate in before.items() if name != EMPTY
    }


def test_odds_between_two_single_faults_move_by_the_factor():
    """The prior is proportional to odds and these to rates, so the ratio of two faults is multiplied."""
    position = [NAMES.index(EMPTY), NAMES.index(f"{DEAD}@barrel1")]
    before, after = (
        case.tables.odds[position] for case in (sample_case(), reweighed_case({f"{DEAD}@barrel1": 5.0}))
    )

    assert (after[1] / after[0]) == pytest.approx(5.0 * before[1] / before[0])


def test_a_likelier_fault_is_believed_more():
    before, after = (case.believe(()).cause(EMPTY) for case in (sample_case(), reweighed_case({EMPTY: 3.0})))

    assert after > before


def test_a_factor_on_a_fault_that_is_not_there_changes_nothing():
    assert weighed(sample_case().machine, {"nowhere.at_all": 9.0}, {}) == sample_case().machine


def test_a_site_s_own_cost_stands_in_for_the_pack_s():
    usual, dear = sample_case(), reweighed_case({}, {"visit": 500.0})

    assert dear.machine.settings.costs == {**usual.machine.settings.costs, "visit": 500.0}
    change = "sensors.change@barrel1"  # an operator may not do it, so somebody must come
    assert dear.price(change, "operator") - usual.price(change, "operator") == pytest.approx(
        500.0 - usual.machine.settings.costs["visit"]
    )


@pytest.mark.parametrize("factor", [0.0, -1.0, float("nan"), float("inf")])
def test_a_factor_that_is_none_is_refused(factor):
    with pytest.raises(OutOfRange, match=f'factor on "{EMPTY}" must be a number above 0'):
        weighed(sample_case().machine, {EMPTY: factor}, {})


@pytest.mark.parametrize("costs", [{"visit": -1.0}, {"visit": float("nan")}, {"vist": 90.0}])
def test_a_cost_that_is_none_is_refused(costs):
    with pytest.raises(OutOfRange, match="a number of 0 or more"):
        weighed(sample_case().machine, {}, costs)


def test_a_rule_is_expanded_to_the_instances_that_its_references_mean():
    machine = expand(
        knowledge_with(dead=rule(of=(f"{DEAD}@*",), suspects={f"{DEAD}@*": 2.0})), "two_barrel", ""
    )

    (found,) = machine.repeats

    assert found.of == tuple(f"{DEAD}@{where}" for where in ("gas_supply", "barrel1", "barrel2"))
    assert found.suspects == dict.fromkeys(found.of, 2.0)


def test_a_rule_for_every_channel_counts_each_by_itself():
    repeated = rule(each="channel", of=(DEAD,), suspects={DEAD: 2.0}, say="{channel}, {count} of {days}")
    machine = expand(knowledge_with(dead=repeated), "two_barrel", "")

    assert [(found.id, found.of, found.suspects) for found in machine.repeats] == [
        (f"dead@{where}", (f"{DEAD}@{where}",), {f"{DEAD}@{where}": 2.0})
        for where in ("gas_supply", "barrel1", "barrel2")
    ]
    assert machine.repeats[1].say == "barrel 1, {count} of {days}"


def test_a_rule_about_faults_that_this_machine_does_not_have_is_left_out():
    known = knowledge_with(empty=rule())
    never = {**known.faults, EMPTY: known.faults[EMPTY].model_copy(update={"rate": 0.0})}

    machine = expand(known.model_copy(update={"faults": never}), "two_barrel", "")

    assert EMPTY not in {fault.id for fault in machine.faults}
    assert machine.repeats == ()


def test_rules_come_through_the_archive_of_a_compiled_machine():
    known = knowledge_with(empty=rule(settles=("safety.room",)))
    general = Recurrence(days=14.0, factor=3.0, say="{fault} {ago}")
    known = known.model_copy(update={"pack": known.pack.model_copy(update={"recurrence": general})})
    machine = expand(known, "two_barrel", "")

    again, _ = load(dump(machine, sample_case().tables))

    assert (again.repeats, again.recurrence) == (machine.repeats, machine.recurrence)
    assert again.repeats[0].settles == ("safety.room",)


@pytest.mark.parametrize(
    ("change", "trail"),
    [
        ({"of": ("gas_supply.no_such",)}, ("repeats", "again", "of", 0)),
        ({"suspects": {"gas_supply.no_gas": 2.0}}, ("repeats", "again", "suspects", "gas_supply.no_gas")),
        ({"settles": ("safety.rom",)}, ("repeats", "again", "settles", 0)),
        ({"source": "hearsay"}, ("repeats", "again", "source")),
        ({"suspects": {f"{DEAD}@attic": 2.0}}, ("repeats", "again", "suspects", f"{DEAD}@attic")),
    ],
)
def test_a_rule_that_names_what_is_not_there_is_told_of(change, trail):
    """An event is no suspect either: only faults have rates."""
    assert [one.trail for one in reference_remarks(knowledge_with(again=rule(**change)))] == [trail]


def test_what_is_wrong_in_a_rule_is_told_with_its_line():
    texts = read_folder(GOOD)
    broken = "repeats:\n  again: {title: x, of: [gas_supply.nowhere], days: 30, count: 1, "
    head = f"{texts['pack.yaml']}{broken}suspects: {{{EMPTY}: 2}}, say: y}}\n"

    told = audit_texts(texts | {"pack.yaml": head}, ["two_barrel"]).errors

    assert [(one.file, one.line, one.where) for one in told] == [
        ("pack.yaml", head.count("\n"), "repeats.again.of[0]")
    ]


def test_the_shipped_pack_raises_leaks_when_gas_was_lost_twice():
    machine = expand(load_pack("frozen_drinks"), "three_barrel", "")
    gas = next(repeat for repeat in machine.repeats if repeat.id == "gas_lost_again")

    assert (gas.days, gas.count) == (30, 2)
    assert EMPTY in gas.of
    assert gas.suspects["gas_supply.site_line.leaking"] > 1
    assert machine.recurrence is not None
    assert (machine.recurrence.days, machine.recurrence.factor) == (14, 3)


def test_every_rule_of_the_shipped_pack_names_faults_of_the_machine():
    machine = expand(load_pack("frozen_drinks"), "four_barrel", "")
    faults, checks = {fault.id for fault in machine.faults}, {check.id for check in machine.checks}

    for repeat in machine.repeats:
        assert {*repeat.of, *repeat.suspects} <= faults
        assert set(repeat.settles) <= checks
        assert repeat.count >= 1
        assert all(factor > 1 for factor in repeat.suspects.values())
