"""What is believed, as effects carry it: leading causes by id with their probabilities."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.engine import evidence, roles
from assistant.engine.effects import Cause

if TYPE_CHECKING:
    from assistant.engine.state import State
    from graph import Belief, Case
    from graph.machine import Fault

LEADING = 3  # causes shown beside a question
WORTH_NAMING = 0.01  # causes less probable than this are not shown


@dataclass(frozen=True, slots=True)
class Status:
    """One line's worth of where a conversation stands."""

    stage: str
    leading: Cause | None = None
    bits_left: float | None = None
    plain: bool = False  # for somebody to whom bits say nothing


def status(case: Case, state: State) -> Status:
    """Return the stage, the leading cause and how much is still open, for a status line."""
    now = case.believe(evidence.findings(state))
    told = state.heard or bool(state.complaint)  # before that it would be a guess from rates alone
    lead = causes(case, state, now, 1) if told and state.answers else ()
    plain = state.role in ("", *roles.BY_PHONE)
    return Status(state.stage.value, lead[0] if lead else None, now.bits, plain=plain)


def causes(case: Case, state: State, belief: Belief, count: int = LEADING) -> tuple[Cause, ...]:
    """Return the leading causes, most probable first; an operator is told them in plain words."""
    left = [(name, p) for name, p in belief.causes if case.fault(name).remedy not in state.cured]
    worth = tuple((name, p) for name, p in left[:count] if p >= WORTH_NAMING)
    return tuple(cause(case, state, name, p) for name, p in worth)


def cause(case: Case, state: State, fault: str, probability: float) -> Cause:
    """Return one cause in the words of the person here."""
    element = case.fault(fault)
    title = _plain(case, element) if state.role == "operator" else element.title
    return Cause(element.id, element.ref, title, probability)


def _plain(case: Case, fault: Fault) -> str:
    """Return a fault in plain words, with its place where the same words would mean several faults."""
    plain, where = fault.plain.rstrip("."), fault.title.rpartition(", ")[2]
    twins = (other for other in case.machine.faults if other.plain == fault.plain and other.id != fault.id)
    alike = "@" in fault.id and where != fault.title and any(twin.base == fault.base for twin in twins)
    return f"{plain}: {where}" if alike else plain


def leading_fault(case: Case, belief: Belief, remedy: str) -> tuple[str, float]:
    """Return the most probable fault that a remedy deals with, and its probability."""
    found = (pair for pair in belief.causes if case.fault(pair[0]).remedy == remedy)
    return next(found, ("", 0.0))
