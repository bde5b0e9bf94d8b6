"""Templates and a profile make a plain machine, and the machine its tables."""

import dataclasses

import numpy as np
import pytest
from oracles import drawn
from sample_packs import GOOD
from strategies import sample_case

from graph.compile import compile_tables
from graph.errors import PackMissing
from graph.expand import expand
from graph.load import digest, load_texts, read_folder
from graph.machine import Row
from graph.plan import class_of

EMPTY, SHUT = "gas_supply.cylinder.empty", "gas_supply.cylinder_valve.shut"
READING, SWAP = "gas_supply.reading", "sensors.swap"


def machine_of(profile="two_barrel", **options):
    texts = read_folder(GOOD)
    return expand(load_texts(texts), profile, digest(texts), **options)


def check(name, machine=None):
    return next(c for c in (machine or machine_of()).checks if c.id == name)


def row(name, key):
    return next(r.probabilities for r in check(name).rows if r.key == key)


def fault_index(name):
    return [fault.id for fault in sample_case().machine.faults].index(name)


def test_a_part_that_repeats_becomes_one_instance_a_channel():
    names = [fault.id for fault in machine_of().faults if fault.base == "sensors.sensor.dead_low"]

    assert names == [f"sensors.sensor.dead_low@{where}" for where in ("gas_supply", "barrel1", "barrel2")]


def test_every_instance_says_which_one_it_is():
    titles = {c.id: c.title for c in machine_of().components}

    assert titles["sensors.sensor@barrel2"] == "pressure sensor, barrel 2"
    assert titles["sensors.sensor@gas_supply"] == "pressure sensor, gas supply"
    assert titles["gas_supply.cylinder"] == "gas cylinder"


def test_what_people_typed_is_said_of_its_symptom_and_outcome_behind_what_the_author_wrote():
    heard = (
        "symptoms:\n  gas_supply.flat_drinks: [gone like squash]\n"
        "answers:\n  gas_supply.cylinder_valve:\n    yes: [somebody closed it]\n"
    )
    machine = expand(load_texts({**read_folder(GOOD), "heard.yaml": heard}), "two_barrel", "")

    assert check("gas_supply.flat_drinks", machine).say == (
        "flat",
        "no fizz",
        "no: bubbles",
        "gone like squash",
    )
    assert check("gas_supply.cylinder_valve", machine).outcomes[0].say == (
        "shut",
        "it was off",
        "somebody closed it",
    )


def test_rates_are_written_for_three_barrels_so_each_barrel_has_a_third():
    rates = {fault.id: fault.rate for fault in machine_of().faults}

    assert rates["sensors.sensor.dead_low@barrel1"] == pytest.approx(1.5 / 3)
    assert rates["sensors.sensor.dead_low@gas_supply"] == pytest.approx(2)
    assert rates[EMPTY] == pytest.approx(57)


def test_a_site_s_switch_multiplies_the_rates_it_names():
    usual, season = (
        {f.id: f.rate for f in machine_of(switches={"season": value}).faults} for value in ("off", "on")
    )

    assert season[EMPTY] == pytest.approx(1.5 * usual[EMPTY])
    assert season[SHUT] == usual[SHUT]


def test_a_site_s_own_flavours_stand_in_the_place_of_the_profile_s():
    assert machine_of().flavours == ("lime", "cherry")
    assert machine_of(flavours=("cola", "orange")).flavours == ("cola", "orange")


@pytest.mark.parametrize(
    ("profile", "options", "words"),
    [
        ("nine_barrel", {}, 'no machine profile "nine_barrel"; it has: two_barrel'),
        ("two_barrel", {"switches": {"season": "wet"}}, "season: wet"),
        ("two_barrel", {"switches": {"tide": "on"}}, "tide: on"),
    ],
)
def test_what_the_pack_does_not_have_is_refused(profile, options, words):
    with pytest.raises(PackMissing, match=words):
        machine_of(profile, **options)


def test_likelihood_words_become_rows():
    """Listed under "yes" with almost always (0.95): the rest goes to the other outcome."""
    assert row("gas_supply.cylinder_valve", SHUT) == pytest.approx((0.95, 0.05))
    assert row("gas_supply.flat_drinks", "gas_supply.no_gas") == pytest.approx((0.75, 0.25))


def test_a_condition_keeps_a_row_to_the_channel_it_is_meant_for():
    keys = {name: {r.key for r in check(f"{SWAP}@{name}").rows} for name in ("gas_supply", "barrel1")}

    assert keys["gas_supply"] == {"sensors.sensor.dead_low@gas_supply", "gas_supply.no_gas"}
    assert keys["barrel1"] == {"sensors.sensor.dead_low@barrel1"}


def test_a_symptom_is_a_check_with_the_outcomes_present_and_absent():
    symptom = check("gas_supply.flat_drinks")

    assert (symptom.kind, [o.id for o in symptom.outcomes], symptom.usual) == (
        "symptom",
        ["present", "absent"],
        1,
    )


def test_only_the_remedies_that_faults_call_for_stand_in_the_machine():
    names = [remedy.id for remedy in machine_of().remedies]

    assert names[:2] == ["gas_supply.change_cylinder", "gas_supply.open_valve"]
    assert names[2:] == [f"sensors.change@{where}" for where in ("gas_supply", "barrel1", "barrel2")]


def test_counts_before_expansion_are_kept():
    written = machine_of().written

    assert (written["faults"], written["checks"], written["symptoms"]) == (3, 4, 1)


def test_two_compilations_are_equal_to_the_byte():
    first, second = (compile_tables(machine_of()) for _ in range(2))

    for field in dataclasses.fields(first):
        assert (
            np.asarray(getattr(first, field.name)).tobytes()
            == np.asarray(getattr(second, field.name)).tobytes()
        )


def test_a_fault_without_a_row_of_its_own_takes_that_of_the_nearest_event_it_makes_true():
    case = sample_case()
    tables, where = case.tables, case.position(READING)
    start = int(tables.class_start[where])

    classes = [class_of(tables, where, fault_index(name)) for name in (EMPTY, SHUT)]

    assert classes[0] == classes[1] != 0
    assert tables.rows[start + classes[0]].tolist() == pytest.approx([0.9, 0.1, 0.0])


def test_a_fault_that_no_row_speaks_of_shows_the_otherwise_row():
    case = sample_case()
    where = case.position(READING)

    assert class_of(case.tables, where, fault_index("sensors.sensor.dead_low@barrel1")) == 0
    assert case.tables.rows[case.tables.class_start[where]].tolist() == pytest.approx([0.05, 0.9, 0.05])


def test_an_event_that_two_faults_make_true_together_speaks_only_where_a_check_has_a_row_for_it():
    """The sample's `all` gate has no row anywhere, so no pair has a row of its own."""
    assert len(sample_case().tables.joint_check) == 0


def with_row(key, probabilities):
    """Return the tables of a machine whose pressure reading has one more row, and the number of that check."""
    machine = machine_of()
    changed = tuple(
        dataclasses.replace(c, rows=(*c.rows, Row(key, probabilities))) if c.id == READING else c
        for c in machine.checks
    )
    return compile_tables(dataclasses.replace(machine, checks=changed)), sample_case().position(READING)


def test_a_dead_sensor_s_row_on_its_own_display_masks_the_others():
    sensor = "sensors.sensor.dead_low@gas_supply"
    tables, where = with_row(sensor, (1.0, 0.0, 0.0))
    own, other = (class_of(tables, where, fault_index(name)) for name in (sensor, EMPTY))
    start = int(tables.class_start[where])

    assert tables.masks[start : start + tables.classes(where)].tolist().count(True) == 1
    assert tables.masks[start + own]
    assert tables.pair_block(where)[own, other].tolist() == pytest.approx([1.0, 0.0, 0.0])


def test_two_faults_that_make_an_event_true_together_show_its_row_beside_their_own():
    tables, where = with_row("gas_supply.shut_and_empty", (0.0, 0.0, 1.0))

    pair = {fault_index(EMPTY), fault_index(SHUT)}
    expected = drawn([(0.9, 0.1, 0.0), (0.9, 0.1, 0.0), (0.0, 0.0, 1.0)], 1, [False] * 3)

    assert tables.joint_check.tolist() == [where]
    assert {int(tables.joint_first[0]), int(tables.joint_second[0])} == pair
    assert tables.joint_rows[0].tolist() == pytest.approx(expected.tolist())
