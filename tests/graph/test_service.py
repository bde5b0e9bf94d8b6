"""Regular service: what the pack says of it, what is due when, which switches follow from dates."""

from __future__ import annotations

import pytest
from casts import shipped_case
from sample_packs import GOOD

from graph.audit.view import view_machine
from graph.dossier import dossiers
from graph.expand import expand
from graph.load import load_pack
from graph.machine import Ageing, Service
from graph.service import aged_switches, done_by, standings

# Maintenance intervals in days; common practice, no source.
INTERVALS = {
    "wipe_down": (1, 1),
    "condenser_filter": (7, 7),
    "sanitising": (14, 28),
    "brix": (30, 30),
    "gas_alarm": (30, 30),
    "condenser_coil": (91, 91),
    "front_parts": (91, 183),
    "water_filter": (183, 183),
    "leak_test": (183, 183),
    "rear_seals": (365, 365),
    "backflow_preventer": (365, 365),
    "sensor_zeros": (365, 365),
    "earth_and_insulation": (365, 365),
}


def item(name, days, from_days=0.0, remedies=()):
    return Service(name, "", name, "c", days, from_days or days, "", ("technician",), remedies, "s")


FILTER, WIPE, SEALS = item("filter", 183), item("wipe", 1), item("seals", 183, 91, ("renew",))


def test_the_shipped_pack_states_every_interval():
    services = shipped_case().machine.services

    assert {each.id: (each.from_days, each.days) for each in services} == INTERVALS


def test_an_interval_without_an_earlier_date_is_due_when_it_is_over():
    (leak,) = expand(load_pack(GOOD), "two_barrel", "").services

    assert (leak.from_days, leak.days, leak.remedies) == (150, 183, ("gas_supply.open_valve",))
    assert expand(load_pack("frozen_drinks"), "two_barrel", "").services[0].from_days == 1


def test_the_longest_overdue_comes_first_then_what_falls_due_next():
    known = standings((FILTER, WIPE, SEALS), {"filter": 200.0, "wipe": 3.0, "seals": 80.0})

    assert [each.item.id for each in known] == ["filter", "wipe", "seals"]
    assert [each.over for each in known] == [17.0, 2.0, -103.0]
    assert known[-1].left == 11.0


def test_what_has_no_date_is_not_known_and_a_date_ahead_counts_as_today():
    (only,) = standings((FILTER, WIPE), {"filter": -5.0, "other": 900.0})

    assert (only.item.id, only.age, only.left) == ("filter", 0.0, 183.0)


@pytest.mark.parametrize(("age", "over"), [(183.0, False), (184.0, True)])
def test_it_is_overdue_the_day_after_its_last_day(age, over):
    (only,) = standings((FILTER,), {"filter": age})

    assert (only.over > 0) is over


def test_a_repair_counts_as_service_where_the_pack_says_so():
    assert done_by((FILTER, SEALS), ("renew", "else")) == ("seals",)
    assert done_by((FILTER, SEALS), ()) == ()


@pytest.mark.parametrize(
    ("ages", "switches"),
    [
        ({"installed": 2556.0}, (("age", "young"),)),
        ({"installed": 2557.0}, (("age", "old"),)),  # 7 years of 365.25 days, rounded up
        ({"filter": 3.0}, ()),
        ({"installed": -1.0}, ()),
    ],
)
def test_the_value_with_the_most_days_that_are_over_holds(ages, switches):
    rule = Ageing("age", "installed", (("old", 2557.0), ("young", 0.0)))

    assert aged_switches((rule,), ages) == switches


def test_the_shipped_pack_ages_the_machine_the_filter_and_the_last_clean():
    machine = shipped_case().machine
    ages = {"installed": 3000.0, "water_filter": 200.0, "sanitising": 0.5}

    assert dict(aged_switches(machine.ageing, ages)) == {
        "machine_age": "over_7_years",
        "filter_age": "over_6_months",
        "last_clean": "within_a_day",
    }


def test_a_piece_of_service_explains_itself():
    (found,) = dossiers(view_machine(shipped_case().machine), "water_filter")
    rows = {section.title: section.rows for section in found.sections}

    assert dict(found.facts)["overdue after"] == "183 days"
    assert ("site_water.change_filter", "Change the water filter cartridge") in rows["counts as done after"]
    assert ("filter_age", "over_12_months", "365") in rows["sets the switch"]
