"""What `pack explain` says of the causes of an event: cut sets, probability, importance."""

from __future__ import annotations

from itertools import product
from math import prod

import pytest
from casts import shipped_case

from graph.audit.view import view_machine
from graph.dossier import dossiers
from graph.dossier.causes import causes_of
from graph.tree import truth


@pytest.fixture(scope="module")
def view():
    return view_machine(shipped_case().machine)


def test_probability_and_importance_are_those_of_the_truth_table(view):
    """Birnbaum (1969): q with the fault there less q without it, over all combinations of faults."""
    event = next(e for e in view.machine.events if e.base == "barrel.relief_needed_and_stuck")
    names = {f.id for f in view.machine.faults}
    below = sorted({n for n in _below(view, event.id) if n in names})
    odds = dict(zip([f.id for f in view.machine.faults], view.tables.odds, strict=True))
    chance = {n: float(odds[n] / (1.0 + odds[n])) for n in below}

    facts, sections = causes_of(view, event.id)

    assert len(below) <= 14
    exact = _q(view, event.id, below, chance)
    assert facts["probability in a call"] == f"{exact:.4g} exactly"
    for fault, birnbaum, _ in sections[-1].rows:
        there, gone = (_q(view, event.id, below, {**chance, fault: sure}) for sure in (1.0, 0.0))
        assert birnbaum == pytest.approx(there - gone, abs=6e-5)


def test_an_event_of_several_faults_lists_them_and_every_event_can_be_explained(view):
    [found] = dossiers(view, "blending.both_valves_shut@1")
    tables = {section.title: section.rows for section in found.sections}

    assert all(" and " in row[0] for row in tables["minimal cut sets of several faults"])
    assert "of order 2" in dict(found.facts)["minimal cut sets"]
    for event in view.tree.events:
        facts, sections = causes_of(view, event)
        assert facts
        assert sections


def test_what_stands_in_no_tree_has_no_causes(view):
    assert causes_of(view, "gas_supply.low_side_dial") == ({}, ())


def _below(view, event):
    found = set()
    for name in view.tree.inputs(event):
        found |= {name} | (_below(view, name) if name in view.tree.events else set())
    return found


def _q(view, event, below, chance):
    """Return the probability of the event by adding up all combinations of the faults below it."""
    total = 0.0
    for there in product((False, True), repeat=len(below)):
        present = [name for name, is_there in zip(below, there, strict=True) if is_there]
        if event in truth(view.tree, present):
            total += prod(chance[n] if t else 1.0 - chance[n] for n, t in zip(below, there, strict=True))
    return total
