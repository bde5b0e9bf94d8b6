"""Every look-alike of the trade brief is told apart by the check that the brief names for it.

A likelihood ratio of at least 5 in both directions, slips of the person included: the brief's own rule for
the pack. Faults and checks are given by ref, the channel behind a dot; a check that the pack adds for a
pair by id. A motor that is dead turns freely by hand, so its current tells it from ice, not the hand.
"""

from __future__ import annotations

import pytest
from casts import shipped_case
from look_alikes import PAIRS
from truthful import fault_at

from graph.audit.view import view_machine

FEWEST = 5.0


@pytest.fixture(scope="module")
def view():
    return view_machine(shipped_case().machine)


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
