"""What the fault tree says of an event or symptom: minimal cut sets, how likely it is, who matters."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from graph.cutsets import minimal_cut_sets
from graph.dossier.model import Section
from graph.importance import importances, min_cut_upper_bound, probability, rare_event_sum

if TYPE_CHECKING:
    from graph.audit.view import View
    from graph.dossier.model import Cell

MOST_SETS = 20  # cut sets of several faults that are listed
MOST_FAULTS = 10  # faults whose importance is listed


def causes_of(view: View, event: str) -> tuple[dict[str, Cell], tuple[Section, ...]]:
    """Return facts and tables about the causes of an event; nothing for what stands in no tree.

    Probabilities are those that the prior gives each fault, independently: odds / (1 + odds).
    """
    tree = view.tree
    if event not in tree.events:
        return {}, ()
    chance = {
        fault.id: float(o / (1.0 + o)) for fault, o in zip(view.machine.faults, view.tables.odds, strict=True)
    }
    found = minimal_cut_sets(tree, event)
    orders = Counter(len(one) for one in found)
    facts: dict[str, Cell] = {
        "minimal cut sets": ", ".join(f"{count} of order {order}" for order, count in sorted(orders.items())),
        "probability in a call": f"{probability(tree, event, chance):.4g} exactly",
        "approximations": f"{rare_event_sum(tree, event, chance):.4g} by the sum of rare events, "
        f"{min_cut_upper_bound(tree, event, chance):.4g} by the minimal cut upper bound",
    }
    several = tuple(
        (" and ".join(sorted(one, key=tree.position.__getitem__)),) for one in found if len(one) > 1
    )
    matter = sorted(importances(tree, event, chance), key=lambda one: -one.fussell_vesely)[:MOST_FAULTS]
    rows = tuple((i.fault, round(i.birnbaum, 4), round(i.fussell_vesely, 4)) for i in matter)
    return facts, (
        Section("minimal cut sets of several faults", ("faults",), several[:MOST_SETS]),
        Section("importance", ("fault", "Birnbaum", "Fussell-Vesely"), rows),
    )
