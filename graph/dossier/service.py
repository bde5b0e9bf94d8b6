"""The dossier of a piece of regular work."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from graph.dossier.cause import source_title
from graph.dossier.model import Section, dossier

if TYPE_CHECKING:
    from graph.audit.view import View
    from graph.dossier.find import Match
    from graph.dossier.model import Cell, Dossier
    from graph.machine import Service


def of_service(view: View, match: Match) -> Dossier:
    """Return how often a piece of service is due, by whom, and which repairs and switches hang on it."""
    item, machine = cast("Service", match.element), view.machine
    facts: dict[str, Cell] = {
        "ref": item.ref,
        "component": item.component,
        "due after": f"{item.from_days:g} days",
        "overdue after": f"{item.days:g} days",
        "earlier": item.also,
        "by": ", ".join(item.by),
        "source": source_title(machine, item.source),
    }
    done = tuple((each.id, each.title) for each in machine.remedies if each.base in item.remedies)
    ageing = tuple(
        (each.switch, value, f"{days:g}")
        for each in machine.ageing
        if each.since == item.id
        for value, days in each.after
    )
    sections = (
        Section("counts as done after", ("remedy", "title"), done),
        Section("sets the switch", ("switch", "value", "after days"), ageing),
    )
    return dossier("service", item.id, item.title, facts, sections)
