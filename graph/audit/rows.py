"""Likelihood rows that never speak, outcomes that nothing raises, checks that tell nothing.

What repeats is told once, of the element as written: an element is idle only where every instance of it
is idle on every machine looked at.
"""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from graph.audit.remark import Remark
    from graph.audit.view import View
    from graph.machine import Check
    from graph.pack import Knowledge

RAISED = 1e-9  # a rise below this is rounding


def row_remarks(knowledge: Knowledge, views: Sequence[View]) -> Iterator[Remark]:
    """Yield remarks about rows, outcomes and checks that no machine in `views` makes use of."""
    rows, outcomes, told = _spoken(views)
    used = _needed_outcomes(knowledge)
    # A row about a fault that only another profile has is no flaw of the pack.
    here = _present(views) if len(views) < len(knowledge.profiles) else None
    for (kind, name), keys in rows.items():
        for key, speaks in keys.items():
            if not speaks and (here is None or key in here):
                yield remark("row_unreachable", kind, name, key=key)
        if not told[kind, name]:
            if _is_asked(knowledge, kind, name) and not any(check == name for check, _ in used):
                yield remark("tells_nothing", kind, name)
        elif kind == "checks":
            for outcome, raised in outcomes[name].items():
                if not raised and (name, outcome) not in used:
                    yield remark("outcome_unraised", kind, name, "outcomes", outcome)


def _present(views: Sequence[View]) -> frozenset[str]:
    """Return the faults and events, as written, that some machine in `views` has."""
    faults = (fault.base for view in views for fault in view.machine.faults)
    return frozenset((*faults, *(event.base for view in views for event in view.machine.events)))


def _spoken(
    views: Sequence[View],
) -> tuple[dict[tuple[str, str], dict[str, bool]], dict[str, dict[str, bool]], dict[tuple[str, str], bool]]:
    """Return by written element: which row keys apply, which outcomes are raised, whether any row does."""
    rows: dict[tuple[str, str], dict[str, bool]] = defaultdict(dict)
    outcomes: dict[str, dict[str, bool]] = defaultdict(dict)
    told: dict[tuple[str, str], bool] = defaultdict(bool)
    for view in views:
        for check in view.machine.checks:
            here = ("symptoms" if check.kind == "symptom" else "checks", check.base)
            speaking = view.speaking(check)
            told[here] |= bool(speaking)
            for row in check.rows:
                key = row.key.partition("@")[0]
                rows[here][key] = rows[here].get(key, False) or row.key in speaking
            rows.setdefault(here, {})
            for outcome, raised in _raised(check, speaking).items():
                outcomes[check.base][outcome] = outcomes[check.base].get(outcome, False) or raised
    return rows, outcomes, told


def _raised(check: Check, speaking: frozenset[str]) -> dict[str, bool]:
    """Return for every outcome whether a row that applies lifts it above its `otherwise` share."""
    live = [row.probabilities for row in check.rows if row.key in speaking]
    return {
        outcome.id: index == check.usual or any(row[index] > check.otherwise[index] + RAISED for row in live)
        for index, outcome in enumerate(check.outcomes)
    }


def _is_asked(knowledge: Knowledge, kind: str, name: str) -> bool:
    """Return whether an element is asked in order to narrow down; safety and proving have other ends."""
    check = knowledge.checks.get(name)
    return kind == "symptoms" or (check is not None and check.phase == "narrowing")


def _needed_outcomes(knowledge: Knowledge) -> set[tuple[str, str]]:
    """Return (check, outcome) of answers that matter for something else than belief."""
    used: set[tuple[str, str]] = set()
    for name, check in knowledge.checks.items():
        used.update((name, outcome) for outcome, answer in check.outcomes.items() if answer.danger)
        for conditions in (check.needs, check.unless):
            for ref, outcomes in conditions.items():
                used.update((ref.partition("@")[0], outcome) for outcome in outcomes)
    for remedy in knowledge.remedies.values():
        used.update((ref.partition("@")[0], "") for ref in remedy.proof)
        for item in remedy.verify:
            used.update(((item.check or "").partition("@")[0], outcome) for outcome in item.outcomes)
    return used
