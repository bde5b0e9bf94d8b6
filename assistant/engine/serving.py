"""What is out of service, and what may be served meanwhile: both follow from what was answered.

The rule: nothing is said to be down that nobody has said to be. Where no answer speaks of the barrels, only
what the likely cause is shared by is said.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence

if TYPE_CHECKING:
    from assistant.engine.state import State
    from graph import Case
    from graph.machine import Check


@dataclass(frozen=True, slots=True)
class Affected:
    """How many barrels do not give a proper drink: all, some, none, or nothing known; `barrels` by name."""

    how_many: str = ""
    barrels: tuple[str, ...] = ()


def affected(case: Case, state: State) -> Affected:
    """Return what the answers that stand say of the barrels; the widest of them holds."""
    said = [(check, _affects(check, outcome)) for check, outcome in _standing(case, state)]
    counts = {how_many for _, how_many in said if how_many}
    numbers = {check.barrel for check, how_many in said if how_many == "some" and check.barrel is not None}
    numbers |= set(state.barrels) if "some" in counts else set()
    if "all" in counts or len(numbers) == case.machine.barrels > 0:
        return Affected("all")
    if "some" in counts:
        return Affected("some", tuple(_barrel(case, number) for number in sorted(numbers)))
    return Affected("none") if "none" in counts else Affected()


def urgency(case: Case, state: State, fault: str) -> str:
    """Return how soon somebody must come, by what the answers say is out of service."""
    if state.hazards:
        return wording.urgency("hazard")
    found = affected(case, state)
    if found.how_many == "none" or (not found.how_many and _numbers_only(case, state, fault)):
        return wording.urgency("number")
    return wording.urgency_of(found.how_many, found.barrels, shared=not _at_barrel(fault), known=bool(fault))


def may_serve(case: Case, state: State) -> str:
    """Return what may be served meanwhile; empty where the answers do not say, or danger forbids to say."""
    found = affected(case, state)
    if state.hazards or not found.how_many:
        return ""
    return wording.may_serve(found.how_many, found.barrels)


def _standing(case: Case, state: State) -> tuple[tuple[Check, str], ...]:
    """Return the checks that were answered, each with its last answer."""
    last = evidence.last_outcomes(state).items()
    return tuple((case.check(name), outcome) for name, outcome in last if case.has_check(name))


def _affects(check: Check, outcome: str) -> str:
    index = check.outcome_index(outcome)
    return check.outcomes[index].affects if index >= 0 else ""


def _numbers_only(case: Case, state: State, fault: str) -> bool:
    """Return whether all that was told is about readings, and the cause makes a reading false."""
    if not fault or not case.fault(fault).falsifies_reading:
        return False
    told = (case.check(a.finding.check) for a in state.answers if a.outcome == "present")
    chapters = {check.chapter for check in told if check.kind == "symptom"}
    return chapters == {case.fault(fault).chapter}


def _at_barrel(fault: str) -> bool:
    """Return whether a fault stands at one barrel: its place behind the @ ends in the barrel's number."""
    return "@" in fault and fault[-1].isdigit()


def _barrel(case: Case, number: int) -> str:
    flavours = case.machine.flavours
    return wording.barrel_named(number, flavours[number - 1] if number <= len(flavours) else "")
