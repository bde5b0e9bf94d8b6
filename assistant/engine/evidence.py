"""What counts as evidence: answers and readings, each fact once.

The rule: a check has one answer at a time, and of two answers that say the same (`covers`) the one that
says more counts. A check is asked again only after a repair that may have changed
it, and then both answers stand, each with the repairs that had been done when it was given.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.engine.state import Answer, Reading, Stage, State, once

if TYPE_CHECKING:
    from graph import Case, Finding

WORK = "work:"


def findings(state: State) -> tuple[Finding, ...]:
    """Return the evidence for inference, oldest first."""
    return tuple(answer.finding for answer in state.answers)


def work_done(state: State) -> tuple[str, ...]:
    """Return the remedies that are done by now; one under way counts, since the machine changes with it."""
    stage = state.after if state.stage is Stage.HALTED else state.stage
    working = stage in {Stage.DOING, Stage.PROVING} and bool(state.remedy)
    return once(state.cured, state.remedy) if working else state.cured


def role_of(state: State) -> str:
    """Return who answers; a person who did not say yet is taken for an operator."""
    return state.role or "operator"


def answer(case: Case, state: State, check: str, outcome: str) -> State:
    """Return the state with a plain answer to a check, by the outcome's id."""
    finding = case.answer(check, outcome, role_of(state), work_done(state))
    return _kept(case, state, Answer(finding, outcome))


def read(case: Case, state: State, check: str, value: float, unit: str) -> State:
    """Return the state with a reading taken as the answer to a check.

    Raises GraphError for a unit or a number that cannot be.
    """
    finding = case.read(check, value, unit, role_of(state), work_done(state))
    best = max(range(len(finding.weights)), key=finding.weights.__getitem__)
    found = Answer(finding, case.check(check).outcomes[best].id, value, unit)
    return _kept(case, state, found)


def worked(case: Case, state: State, remedy: str, *, helped: bool) -> State:
    """Return the state with what a repair did to the complaint, which is an answer like any other."""
    finding = case.helped(remedy, helped, role_of(state))
    others = tuple(a for a in state.answers if a.finding.check != finding.check)
    return replace(state, answers=(*others, Answer(finding, "cured" if helped else "not_cured")))


def _kept(case: Case, state: State, new: Answer) -> State:
    """Return the state with this answer in place of whatever says the same thing."""
    check = case.check(new.finding.check)
    others = tuple(a for a in state.answers if not _same(case, a, new, check.reading))
    counted = () if any(_covers(case, old, new) for old in others) else (new,)
    state = replace(
        state,
        answers=(*(old for old in others if not counted or not _covers(case, new, old)), *counted),
        settled=once(state.settled, check.id),
        screened=once(state.screened, check.id),
        proved=once(state.proved, check.id),
        due=tuple(name for name in state.due if name != check.id),
        guarding="" if state.guarding == check.id else state.guarding,
    )
    if new.value is None or not check.reading:
        return state
    return noted(state, check.reading, new.value, new.unit)


def _same(case: Case, old: Answer, new: Answer, quantity: str) -> bool:
    """Return whether the new answer replaces the old one: one check, or one quantity read twice."""
    if old.finding.cured != new.finding.cured or old.finding.check.startswith(WORK):
        return False
    if old.finding.check == new.finding.check:
        return True
    return bool(quantity) and case.check(old.finding.check).reading == quantity


def _covers(case: Case, one: Answer, other: Answer) -> bool:
    """Return whether one answer says already what another one says, by what its author wrote."""
    if one.finding.cured != other.finding.cured or not case.has_check(one.finding.check):
        return False
    check = case.check(one.finding.check)
    covered = dict(check.outcomes[check.outcome_index(one.outcome)].covers)
    return other.outcome in covered.get(other.finding.check, ())


def told(case: Case, state: State, check: str) -> bool:
    """Return whether an answer that stands says already what a check would ask (`covers`)."""
    known = (answer for answer in state.answers if case.has_check(answer.finding.check))
    outcomes = ((case.check(a.finding.check), a.outcome) for a in known)
    return any(check in dict(each.outcomes[each.outcome_index(o)].covers) for each, o in outcomes)


def noted(state: State, quantity: str, value: float, unit: str) -> State:
    """Return the state with a number remembered, whether or not it is evidence."""
    others = tuple(r for r in state.readings if r.quantity != quantity)
    reading = Reading(quantity, value, unit)
    return replace(state, readings=(*others, reading), fresh=once(state.fresh, quantity))


def fresh_reading(state: State, quantity: str) -> Reading | None:
    """Return the number read for a quantity since the present step was reached."""
    found = (reading for reading in state.readings if reading.quantity == quantity)
    return next(found, None) if quantity in state.fresh else None


def last_outcome(state: State, check: str) -> str:
    """Return the outcome that was given last for a check; empty if there is none."""
    return last_outcomes(state).get(check, "")


def last_outcomes(state: State) -> dict[str, str]:
    """Return the outcome that was given last for every check answered, in the order first answered."""
    return {answer.finding.check: answer.outcome for answer in state.answers}


def touched(case: Case, remedy: str) -> frozenset[str]:
    """Return the faults that a remedy deals with, and every event that they may make true."""
    changed = {fault.id for fault in case.machine.faults if fault.remedy == remedy}
    grown = True
    while grown:
        above = {e.id for e in case.machine.events if not changed.isdisjoint(e.of)}
        grown = not above <= changed
        changed |= above
    return frozenset(changed)


def reopened(case: Case, state: State, remedy: str) -> State:
    """Return the state with every check open again whose answer this repair may have changed."""
    changed = touched(case, remedy)
    again = {c.id for c in case.machine.checks if any(row.key in changed for row in c.rows)}
    return replace(
        state,
        settled=tuple(name for name in state.settled if name not in again),
        rechecked=tuple(name for name in state.rechecked if name not in again),
    )
