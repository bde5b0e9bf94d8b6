"""Every look-alike of the trade brief is told apart by the check that the brief names for it.

A likelihood ratio of at least 5 in both directions, slips of the person included: the brief's own rule for
the pack. Faults and checks are given by ref, the channel behind a dot; a check that the pack adds for a
pair by id. A motor that is dead turns freely by hand, so its current tells it from ice, not the hand.
"""

from __future__ import annotations

import pytest
from casts import shipped_case

from graph.audit.view import view_machine

FEWEST = 5.0
CHANNELS = {"W": "water", "G": "gas_supply", "R": "gas_regulated", "S": "syrup1", "B": "barrel1"}
PAIRS = (
    ("D01", "GS01", "SE1.G", "K035"),
    ("D01", "GS01", "LD1.G", "K035"),
    ("D02", "GS01", "GS02", "K037"),
    ("D03", "GS02", "GS13", "K112"),
    ("D04", "GS13", "GS18", "K112"),
    ("D04", "GS13", "GS20", "K112"),
    ("D05", "GS10", "SE3.G", "K109"),
    ("D06", "GS12", "GS11", "K111"),
    ("D07", "GR01", "GR07", "K118"),
    ("D08", "GR01", "SE3.R", "K153"),
    ("D09", "SE3.R", "SE3.G", "K109"),
    ("D11", "LD2", "SE2", "K156"),
    ("D11", "LD2", "SE1", "K156"),
    ("D12", "LD2", "LD3", "K156"),
    ("D13", "LD1", "BC1", "K165"),
    ("D14", "LD1", "SE1", "K155"),
    ("D15", "EL02", "EL03", "K160"),
    ("D16", "EL02", "EL04", "K152"),
    ("D17", "EL01", "EL16", "K084"),
    ("D18", "GS01", "EL03", "K027"),
    ("D19", "SY05", "GS10", "K097"),
    ("D19", "SY09", "GS10", "K097"),
    ("D20", "SY01", "SY02", "K057 K058"),
    ("D21", "SY01", "SE1.S", "K028"),
    ("D21", "SY01", "LD1.S", "K028"),
    ("D22", "SY18", "SY04", "K061 syrup.bubbles_after_running"),
    ("D23", "SY04", "SY07", "K135"),
    ("D24", "SY06", "SY11", "K136"),
    ("D25", "SY12", "SY08", "K134"),
    ("D26", "UW05", "WA01", "K049 K124"),
    ("D27", "UW05", "UW01", "K047"),
    ("D28", "UW14", "UW13", "K052"),
    ("D29", "UW10", "SE2.W", "K123"),
    ("D29", "UW10", "SE3.W", "K123"),
    ("D30", "UW16", "WA05", "K120 K126"),
    ("D31", "BL13", "SE1.B", "K100"),
    ("D32", "BL12", "BL13", "K141"),
    ("D33", "DI01", "BL09", "K145"),
    ("D33", "BA01", "BL09", "K145"),
    ("D34", "GR11", "SE3.B", "K153"),
    ("D35", "BL04", "BL02", "K144"),
    ("D36", "BL05", "BL01", "K140 K148"),
    ("D37", "BL06", "RF07", "K147"),
    ("D38", "BL05", "BA05", "K173"),
    ("D38", "BL05", "BA07", "K175"),
    ("D38", "BA10", "BA05", "K175"),
    ("D38", "BA10", "BA07", "K175"),
    ("D39", "RF01", "RF07", "K179"),
    ("D40", "RF02", "RF01", "K087"),
    ("D41", "RF07", "RF08", "K184"),
    ("D42", "RF12", "RF10", "K187 K186"),
    ("D43", "BA16", "BA09", "K190"),
    ("D44", "HU02", "RF01", "K080 barrel.recovery_time"),
    ("D44", "HU02", "RF07", "K080 barrel.recovery_time"),
    ("D46", "GS05", "GR01", "K043"),
    ("D47", "GR10", "GR12", "K150"),
    ("D48", "BA14", "SE2.B", "K152"),
    ("D49", "HU03", "UW21", "K077"),
    ("D50", "UP03", "RF04", "K170"),
    ("D51", "GS17", "UW15", "K051 K126"),
    ("D52", "SE4", "EL16", "K108"),
    ("D10", "LD5.G", "SE1.G", "K163"),
    ("D10", "LD5.G", "SE3.G", "K163"),
    ("D45", "HU01", "RF07", "K032 K092"),
    ("D45", "EL14", "RF07", "K032 K092"),
    ("D53", "EL13", "GS10", "K168 K109"),
    ("D54", "GS21", "GS13", "K012 K100 gas_supply.dip_with_others_idle"),
)


@pytest.fixture(scope="module")
def view():
    return view_machine(shipped_case().machine)


def fault_at(machine, ref):
    """Return the position of a fault by ref: the instance of the channel, else the first one there is."""
    base, _, channel = ref.partition(".")
    found = [
        index
        for index, fault in enumerate(machine.faults)
        if fault.ref == base and (not channel or fault.id.endswith(f"@{CHANNELS[channel]}"))
    ]
    return found[0]


@pytest.mark.parametrize(("pair", "first", "second", "checks"), PAIRS, ids=["-".join(p[:3]) for p in PAIRS])
def test_a_look_alike_is_told_apart_by_its_check_in_both_directions(view, pair, first, second, checks):
    machine = view.machine
    a, b = fault_at(machine, first), fault_at(machine, second)
    ratios = {}
    for index, check in enumerate(machine.checks):
        if {check.ref, check.base} & set(checks.split()):
            p, q = (view.seen[view.member[fault, index], : len(check.outcomes)] for fault in (a, b))
            ratios[check.id] = (float((p / q).max()), float((q / p).max()))

    assert max(min(both) for both in ratios.values()) >= FEWEST, (pair, ratios)
