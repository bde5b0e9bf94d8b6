"""The fault tree as authors wrote it: circles, votes that cannot be won, events that lead nowhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.audit.remark import remark
from graph.tree import EventSpec, loose_ends
from graph.tree_rules import tree_problems

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from graph.audit.remark import Remark
    from graph.audit.view import View
    from graph.machine import Machine
    from graph.tree import Gate


def tree_remarks(machine: Machine) -> tuple[Remark, ...]:
    """Return a remark for every problem of a machine's tree, told once per event as written."""
    gates: dict[str, Gate] = {"any": "any", "all": "all", "at_least": "at_least"}
    specs = {event.id: EventSpec(gates[event.gate], event.k, event.of) for event in machine.events}
    problems = tree_problems(specs, [fault.id for fault in machine.faults])
    told = {problem.event.partition("@")[0]: problem for problem in reversed(problems)}
    return tuple(
        remark("tree_problem", "events", base, event=p.event, why=p.what, remedy=p.remedy)
        for base, p in reversed(told.items())
    )


def idle_events(views: Sequence[View]) -> Iterator[Remark]:
    """Yield a remark for every event that on no machine leads to an event which a row names."""
    leads: dict[str, bool] = {}
    for view in views:
        keys = {row.key for check in view.machine.checks for row in check.rows}
        named = [event.id for event in view.machine.events if event.id in keys]
        loose = set(loose_ends(view.tree, named))
        for event in view.machine.events:
            leads[event.base] = leads.get(event.base, False) or event.id not in loose
    for base, is_of_use in leads.items():
        if not is_of_use:
            yield remark("event_unused", "events", base)
