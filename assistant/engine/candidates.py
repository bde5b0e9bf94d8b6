"""Which checks may be asked now: open, allowed to this role, possible here, with its conditions met."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine import procedure, roles
from assistant.engine.evidence import last_outcome
from graph.candidates import conditions_hold, may_do

if TYPE_CHECKING:
    from assistant.engine.state import State
    from graph import Case
    from graph.machine import Check, Remedy


def candidates(case: Case, state: State) -> tuple[str, ...]:
    """Return the ids of the checks that may be asked next, in pack order."""
    settled = frozenset(state.settled)
    given = {answer.finding.check: answer.outcome for answer in state.answers}
    return tuple(
        check.id
        for check in case.machine.checks
        if check.phase == "narrowing"
        and check.id not in settled
        and conditions_hold(check, given)
        and askable(case, state, check)
    )


def askable(case: Case, state: State, check: Check) -> bool:
    """Return whether this person may do the check, the way to it included, with the tools at hand."""
    return (
        may_do(state.role, check.roles)
        and not any(tool in state.lacking for tool in check.tools)
        and all(may_do(state.role, item.roles) for item in procedure.of_check(case, check))
    )


def still_needed(case: Case, state: State, remedy: Remedy) -> tuple[str, ...]:
    """Return the checks to record before this remedy condemns a part, which can be done here."""
    return tuple(
        name
        for name in remedy.proof
        if case.has_check(name)
        and name not in state.settled
        and not last_outcome(state, name)
        and askable(case, state, case.check(name))
    )


def allowed(state: State, remedy: Remedy) -> bool:
    """Return whether the person here may do this remedy, as far as is known."""
    if roles.needs_training(state.role, remedy) and state.trained == "no":
        return False
    return may_do(state.role, remedy.by)


def out_of_question(state: State, remedy: str) -> bool:
    """Return whether a remedy was refused, is not possible here, or has been done already."""
    return remedy in state.declined or remedy in state.cured
