"""The fault tree as authors wrote it: circles, votes that cannot be won, events that lead nowhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.audit.remark import remark
from graph.tree import EventSpec
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
    """Yield a remark for every event that no row and no other event mentions on any machine."""
    named: dict[str, bool] = {}
    for view in views:
        keys = {row.key for check in view.machine.checks for row in check.rows}
        keys |= {name for event in view.machine.events for name in event.of}
        for event in view.machine.events:
            named[event.base] = named.get(event.base, False) or event.id in keys
    for base, is_named in named.items():
        if not is_named:
            yield remark("event_unused", "events", base)
