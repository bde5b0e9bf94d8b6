"""Dossiers of what is done and what it rests on: remedies, gates, cautions, sources."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from graph.dossier.cause import source_title
from graph.dossier.model import Section, dossier

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from graph.audit.view import View
    from graph.dossier.find import Match
    from graph.dossier.model import Cell, Dossier
    from graph.machine import Caution, Gate, Limits, Machine, Remedy, Source, Step, Verification

Rows = tuple[tuple["Cell", ...], ...]


def of_remedy(view: View, match: Match) -> Dossier:
    """Return who may do a remedy, its steps, what proves it, and the faults that call for it."""
    remedy, machine = cast("Remedy", match.element), view.machine
    facts: dict[str, Cell] = {
        "ref": remedy.ref,
        "in plain words": remedy.plain,
        "who may do it": ", ".join(remedy.by) + (" (operators only if trained)" if remedy.trained else ""),
        "else send": remedy.send,
        "minutes": f"{remedy.minutes:g}",
        "parts": ", ".join(remedy.parts),
        "tools": ", ".join(remedy.tools),
        "cautions": ", ".join(remedy.cautions),
        "isolates": ", ".join(remedy.isolates),
        "opens the product path": "yes" if remedy.opens_product_path else "",
        "proof before": ", ".join(remedy.proof),
        "meanwhile": remedy.serve,
        "source": source_title(machine, remedy.source),
        "also at": ", ".join(match.others),
    }
    faults = tuple((f.id, round(f.rate, 4), f.title) for f in machine.faults if f.remedy == remedy.id)
    sections = (
        Section("cures", ("fault", "per 1000 calls", "title"), faults),
        Section("steps", ("step", "gate", "cautions", "what to do"), _steps(remedy.steps)),
        Section("verification", ("what", "must be"), tuple(_verified(item) for item in remedy.verify)),
    )
    return dossier("remedy", remedy.id, remedy.title, facts, sections)


def _steps(steps: Iterable[Step]) -> Rows:
    return tuple(
        (str(number), step.gate, ", ".join(step.cautions), step.do)
        for number, step in enumerate(steps, start=1)
    )


def _verified(item: Verification) -> tuple[Cell, ...]:
    if item.check:
        return item.check, " or ".join(item.outcomes)
    return (item.read or item.text, _between(item.limits)) if item.read else (item.text, "")


def _between(limits: Limits | None) -> str:
    low, high = limits or (None, None)
    words = [f"at least {low:g}"] if low is not None else []
    words += [f"at most {high:g}"] if high is not None else []
    return ", ".join(words)


def of_gate(view: View, match: Match) -> Dossier:
    """Return the steps of a gate, and where it must be passed."""
    gate, machine = cast("Gate", match.element), view.machine
    used: list[tuple[Cell, ...]] = [
        (check.id, "before it") for check in machine.checks if gate.id in check.gates
    ]
    used += [
        (owner, f"step {number}")
        for owner, steps in _procedures(machine)
        for number, step in enumerate(steps, start=1)
        if step.gate == gate.id
    ]
    facts: dict[str, Cell] = {"ref": gate.ref, "cautions": ", ".join(gate.cautions), "put back": gate.undo}
    sections = (
        Section("steps", ("step", "gate", "cautions", "what to do"), _steps(gate.steps)),
        Section("passed at", ("element", "where"), tuple(used)),
    )
    return dossier("gate", gate.id, gate.title, facts, sections)


def _procedures(machine: Machine) -> Iterator[tuple[str, tuple[Step, ...]]]:
    yield from ((remedy.id, remedy.steps) for remedy in machine.remedies)
    yield from ((gate.id, gate.steps) for gate in machine.gates)


def of_caution(view: View, match: Match) -> Dossier:
    """Return what a caution says, and everything that shows it."""
    caution, machine = cast("Caution", match.element), view.machine
    shown: list[tuple[Cell, ...]] = []
    for kind in (machine.checks, machine.remedies, machine.gates):
        shown += [(element.id, "before it") for element in kind if caution.id in element.cautions]
    shown += [
        (owner, f"step {number}")
        for owner, steps in _procedures(machine)
        for number, step in enumerate(steps, start=1)
        if caution.id in step.cautions
    ]
    shown += [
        (check.id, f"at the answer {outcome.id}")
        for check in machine.checks
        for outcome in check.outcomes
        if outcome.danger == caution.id
    ]
    facts: dict[str, Cell] = {
        "ref": caution.ref,
        "do": caution.do,
        "do not": caution.do_not,
        "who": caution.who,
        "must be acknowledged": "yes" if caution.acknowledge else "",
        "source": source_title(machine, caution.source),
    }
    return dossier(
        "caution",
        caution.id,
        caution.title,
        facts,
        (Section("shown at", ("element", "where"), tuple(shown)),),
    )


def of_source(view: View, match: Match) -> Dossier:
    """Return a source, and everything that rests on it."""
    source, machine = cast("Source", match.element), view.machine
    facts: dict[str, Cell] = {
        "kind": source.kind.replace("_", " "),
        "edition": source.edition,
        "place in it": source.place,
        "note": source.note,
    }
    rests: Rows = tuple(
        (element.id, element.title)
        for kind in (machine.faults, machine.checks, machine.remedies, machine.cautions, machine.services)
        for element in kind
        if element.source == source.id
    )
    return dossier(
        "source", source.id, source.title, facts, (Section("rests on it", ("element", "title"), rests),)
    )
