"""Dossiers of what can be asked or noticed: checks and symptoms."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from graph.dossier.cause import place_title, source_title
from graph.dossier.causes import causes_of
from graph.dossier.model import Section, dossier
from graph.dossier.rows import speaking_row, spread

if TYPE_CHECKING:
    from graph.audit.view import View
    from graph.dossier.find import Match
    from graph.dossier.model import Cell, Dossier
    from graph.machine import Check, Machine, Outcome


def of_check(view: View, match: Match) -> Dossier:
    """Return the wording, outcomes and likelihood table of a check or symptom, and what it speaks of."""
    check, machine = cast("Check", match.element), view.machine
    rows = [("otherwise", spread(check, check.otherwise))]
    rows += [(row.key, spread(check, row.probabilities)) for row in check.rows]
    outcomes = tuple(_outcome(outcome) for outcome in check.outcomes)
    told, tables = causes_of(view, check.id)
    sections = (
        Section("outcomes", ("outcome", "label", "band", "said as"), outcomes),
        Section("likelihood rows", ("given", "outcomes"), tuple(rows)),
        Section("speaks of", ("fault", "by the row of"), _speaks_of(view, check)),
        Section("used by", ("element", "how"), _used_by(machine, check)),
        *tables,
    )
    facts = {**_facts(machine, check, match), **told}
    return dossier(check.kind, check.id, check.title, facts, sections)


def _facts(machine: Machine, check: Check, match: Match) -> dict[str, Cell]:
    wording = {f"asked of {role}": text for role, text in check.ask.items()}
    return {
        "ref": check.ref,
        **wording,
        "why": check.why,
        "said as": "; ".join(check.say),
        "who may do it": ", ".join(check.roles),
        "minutes": f"{check.minutes:g}",
        "place": place_title(machine, check.place),
        "component": check.component,
        "tools": ", ".join(check.tools),
        "cautions": ", ".join(check.cautions),
        "gates": ", ".join(check.gates),
        "only if": "; ".join(f"{name} is {' or '.join(outcomes)}" for name, outcomes in check.needs),
        "not if": "; ".join(f"{name} is {' or '.join(outcomes)}" for name, outcomes in check.unless),
        "reading": check.reading,
        "calculation": check.work_out,
        "shows what the machine displays": "yes" if check.displayed else "",
        "usual outcome": check.outcomes[check.usual].id if check.usual >= 0 else "none",
        "phase": check.phase,
        "source": source_title(machine, check.source),
        "also at": ", ".join(match.others),
    }


def _outcome(outcome: Outcome) -> tuple[Cell, ...]:
    low, high = outcome.band or (None, None)
    if outcome.band is None:
        band = ""
    elif low is None or high is None:
        band = f"from {low:g}" if low is not None else f"to {high:g}" if high is not None else "any"
    else:
        band = f"{low:g} to {high:g}"
    danger = f"DANGER {outcome.danger}: " if outcome.danger else ""
    return outcome.id, f"{danger}{outcome.label}", band, "; ".join(outcome.say)


def _speaks_of(view: View, check: Check) -> tuple[tuple[Cell, ...], ...]:
    found = ((fault.id, speaking_row(view, check, fault.id)) for fault in view.machine.faults)
    return tuple((name, "its own" if row[0] == name else row[0]) for name, row in found if row is not None)


def _used_by(machine: Machine, check: Check) -> tuple[tuple[Cell, ...], ...]:
    used: list[tuple[Cell, ...]] = []
    for other in machine.checks:
        used += [(other.id, "needs it") for name, _ in other.needs if name == check.id]
        used += [(other.id, "not after some answers") for name, _ in other.unless if name == check.id]
    for remedy in machine.remedies:
        used += [(remedy.id, "proof before") for name in remedy.proof if name == check.id]
        used += [(remedy.id, "verification after") for item in remedy.verify if item.check == check.id]
    used += [("every session", "opens it")] if check.id in machine.safety else []
    return tuple(used)
