"""Dossiers of what can be wrong: faults, events, components."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from graph.dossier.causes import causes_of
from graph.dossier.lookalikes import look_alikes
from graph.dossier.model import Section, dossier
from graph.dossier.rows import rows_of, spread

if TYPE_CHECKING:
    from graph.audit.view import View
    from graph.dossier.find import Match
    from graph.dossier.model import Dossier
    from graph.machine import Component, Event, Fault, Machine


def of_fault(view: View, match: Match) -> Dossier:
    """Return what leads from a fault to everything that shows it, and its look-alikes."""
    fault, machine = cast("Fault", match.element), view.machine
    part = next(c for c in machine.components if c.id == fault.component)
    remedy = next(r for r in machine.remedies if r.id == fault.remedy)
    facts = {
        "ref": fault.ref,
        "in plain words": fault.plain,
        "rate": f"{fault.rate:.4g} per 1000 calls",
        "source": source_title(machine, fault.source),
        "component": f"{part.id} ({part.title})",
        "place": place_title(machine, part.place),
        "remedy": f"{remedy.id} ({remedy.title})",
        "falsifies the reading": "yes" if fault.falsifies_reading else "",
        "also at": ", ".join(match.others),
    }
    titles = {event.id: event.title for event in machine.events}
    events = tuple((event, titles.get(event, "")) for event in view.above[fault.id] if event in titles)
    alike = tuple(
        (a.fault, round(a.decibans, 1), a.best_check, "same" if a.remedy == fault.remedy else a.remedy)
        for a in look_alikes(view, fault.id)
    )
    sections = (
        Section("makes true, nearest first", ("event", "title"), events),
        Section("noticed as", ("symptom", "present", "by its row"), rows_of(view, fault.id, symptoms=True)),
        Section("checks", ("check", "outcomes", "by its row"), rows_of(view, fault.id, symptoms=False)),
        Section("look-alikes", ("fault", "decibans", "best check", "remedy"), alike),
    )
    return dossier("fault", fault.id, fault.title, facts, sections)


def of_event(view: View, match: Match) -> Dossier:
    """Return what makes an event true, what it feeds and which rows speak of it."""
    event, machine = cast("Event", match.element), view.machine
    gate = {"any": "any of them (or)", "all": "all of them (and)"}.get(event.gate, f"at least {event.k}")
    kinds = {fault.id: fault.title for fault in machine.faults}
    kinds |= {other.id: other.title for other in machine.events}
    alone = tuple((f.id, f.title) for f in machine.faults if event.id in view.above[f.id])
    feeds = tuple((other.id, other.title) for other in machine.events if event.id in other.of)
    asked = tuple(
        (check.id, spread(check, row.probabilities), check.kind)
        for check in machine.checks
        for row in check.rows
        if row.key == event.id
    )
    told, tables = causes_of(view, event.id)
    facts = {"ref": event.ref, "gate": gate, **told, "also at": ", ".join(match.others)}
    sections = (
        Section("made of", ("cause", "title"), tuple((name, kinds[name]) for name in event.of)),
        Section("true by one fault alone", ("fault", "title"), alone),
        Section("feeds", ("event", "title"), feeds),
        Section("rows", ("check", "outcomes", "kind"), asked),
        *tables,
    )
    return dossier("event", event.id, event.title, facts, sections)


def of_component(view: View, match: Match) -> Dossier:
    """Return where a component is, its parts, its faults and its checks."""
    part, machine = cast("Component", match.element), view.machine
    facts = {
        "ref": part.ref,
        "what it is": part.explain,
        "place": place_title(machine, part.place),
        "part of": part.part_of,
        "also at": ", ".join(match.others),
    }
    faults = tuple((f.id, round(f.rate, 4), f.title) for f in machine.faults if f.component == part.id)
    inside = tuple((c.id, c.title) for c in machine.components if c.part_of in (part.id, part.base))
    checks = tuple((c.id, c.title) for c in machine.checks if c.component == part.id)
    service = tuple((s.id, f"{s.days:g}", s.title) for s in machine.services if s.component == part.base)
    sections = (
        Section("faults", ("fault", "per 1000 calls", "title"), faults),
        Section("parts", ("component", "title"), inside),
        Section("checks", ("check", "title"), checks),
        Section("service", ("service", "at least every ... days", "title"), service),
    )
    return dossier("component", part.id, part.title, facts, sections)


def source_title(machine: Machine, name: str) -> str:
    """Return what a source is, with its kind."""
    source = next((s for s in machine.sources if s.id == name), None)
    return name if source is None else f"{source.id}: {source.title} ({source.kind.replace('_', ' ')})"


def place_title(machine: Machine, name: str) -> str:
    """Return a place in plain words."""
    return next((place.title for place in machine.places if place.id == name), name)
