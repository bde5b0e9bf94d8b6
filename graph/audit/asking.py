"""Whom a check may be asked, and in which words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.audit.remark import remark
from graph.audit.used import dangers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.audit.remark import Remark
    from graph.pack import Ask, Check, Knowledge

# Who is asked, and whose words serve; the other trades are sent for, they do not answer questions here.
WORDING = {
    "operator": ("operator",),
    "helpdesk": ("helpdesk", "operator"),
    "technician": ("technician",),
    "refrigeration": ("refrigeration", "technician"),
}
# What stands at any counter and is no tool in the sense of the rule; common practice, no source.
AT_HAND = (
    "cup",
    "cloth",
    "tissue",
    "torch",
    "sieve",
    "scale",
    "thermometer",
    "water",
    "watch",
    "phone",
    "pen",
)
UNTRAINED = ("operator", "helpdesk")  # a helpdesk agent works through the operator's hands


def asking_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about missing wording, checks for no untrained person, and dangers that hold nothing."""
    for name, check in knowledge.checks.items():
        for role in check.roles:
            if role in WORDING and not _worded(check.ask, role):
                yield remark("wording_missing", "checks", name, "ask", role=role)
        yield from _beyond_untrained(knowledge, name, check)
    halting = dangers(knowledge)
    for name, caution in knowledge.cautions.items():
        if name in halting and not caution.hold:
            yield remark("danger_without_hold", "cautions", name)


def _worded(ask: Ask, role: str) -> bool:
    return any(getattr(ask, other) for other in WORDING[role])


def _beyond_untrained(knowledge: Knowledge, name: str, check: Check) -> Iterator[Remark]:
    """Yield remarks where an operator is offered work behind a gate or with a tool."""
    role = next((role for role in check.roles if role in UNTRAINED), None)
    if role is None:
        return
    closed = [gate for gate in check.gates if _isolates(knowledge, gate)]
    if closed:
        yield remark("untrained_behind_gate", "checks", name, "roles", role=role, gate=closed[0])
    for tool in check.tools:
        if not any(word.rstrip("s") in AT_HAND for word in tool.casefold().split()):
            yield remark("untrained_with_tool", "checks", name, "tools", role=role, tool=tool)


def _isolates(knowledge: Knowledge, gate: str) -> bool:
    """Return whether a gate holds work that an operator may not do: one of its steps says who may."""
    steps = knowledge.gates[gate].steps if gate in knowledge.gates else ()
    return any(step.roles and "operator" not in step.roles for step in steps)
