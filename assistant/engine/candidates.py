"""Which checks may be asked now: open, allowed to this role, possible here, with its conditions met."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from assistant.engine import evidence, procedure, roles
from assistant.engine.evidence import last_outcome
from graph.candidates import conditions_hold, may_do

if TYPE_CHECKING:
    from assistant.engine.state import State
    from graph import Case
    from graph.machine import Check, Remedy


def candidates(case: Case, state: State) -> tuple[str, ...]:
    """Return the ids of the checks that may be asked next, in pack order."""
    settled = frozenset(state.settled)
    elsewhere = _other_barrels(case, state)
    given = evidence.last_outcomes(state)
    return tuple(
        check.id
        for check in _doable(case, state.role)
        if check.phase == "narrowing"
        and check.id not in settled
        and not (check.kind == "symptom" and check.barrel in elsewhere)
        and conditions_hold(check, given)
        and _tools_at_hand(state, check)
        and not check_barred(case, state, check)
        and not _refused(case, state, check)
    )


def _refused(case: Case, state: State, check: Check) -> bool:
    """Return whether the way to a check leads through a caution or gate that the person here refused."""
    return bool(state.refused) and procedure.barred(state, procedure.of_check(case, check))


def _other_barrels(case: Case, state: State) -> frozenset[int]:
    """Return the barrels that are not asked about one by one, since it was said which ones are affected."""
    affected = frozenset(state.barrels)
    return frozenset(range(1, case.machine.barrels + 1)) - affected if affected else frozenset()


def askable(case: Case, state: State, check: Check) -> bool:
    """Return whether this person may do the check, the way to it included, with the tools at hand."""
    reached = _may_reach(case, state.role, check) and _tools_at_hand(state, check)
    return reached and not check_barred(case, state, check) and not _refused(case, state, check)


def may_ask_again(case: Case, state: State, check: Check) -> bool:
    """Return whether a check may be asked once more; a symptom that is never asked may be, once told."""
    heard_only = check.kind == "symptom" and not check.roles
    return askable(case, state, check) or (heard_only and not check_barred(case, state, check))


@lru_cache(maxsize=32)
def _doable(case: Case, role: str) -> tuple[Check, ...]:
    """Return the checks that a role may do on this machine; remembered, since it is asked at every step."""
    return tuple(check for check in case.machine.checks if _may_reach(case, role, check))


def _may_reach(case: Case, role: str, check: Check) -> bool:
    way = procedure.of_check(case, check)
    return may_do(role, check.roles) and all(may_do(role, item.roles) for item in way)


def _tools_at_hand(state: State, check: Check) -> bool:
    return not any(tool in state.lacking for tool in check.tools)


def still_needed(case: Case, state: State, remedy: Remedy) -> tuple[str, ...]:
    """Return the checks to record before this remedy condemns a part, which can be done here.

    One of them that speaks for a fault of this remedy is proof enough; the rest need not be done. A check
    that stands at many places is done at one of them, where it tells most.
    """
    known = tuple(name for name in remedy.proof if case.has_check(name))
    if any(speaks_for(case, state, name, remedy) for name in known):
        return ()
    done = {case.check(name).base for name in known if name in state.settled or last_outcome(state, name)}
    left = [name for name in known if askable(case, state, case.check(name))]
    places: dict[str, list[str]] = {}
    for name in left:
        places.setdefault(case.check(name).base, []).append(name)
    return tuple(_most_telling(case, state, names) for base, names in places.items() if base not in done)


def _most_telling(case: Case, state: State, names: list[str]) -> str:
    """Return which of the instances of one check tells most now, the first where none tells anything."""
    if len(names) == 1:
        return names[0]
    ranked = case.rank(evidence.findings(state), names, role=state.role, cured=state.cured, by="bits")
    return ranked[0].check if ranked else names[0]


def speaks_for(case: Case, state: State, name: str, remedy: Remedy) -> bool:
    """Return whether an unusual answer to a check names a fault that the remedy deals with."""
    check, outcome = case.check(name), last_outcome(state, name)
    given = check.outcome_index(outcome)
    if not outcome or given == check.usual:
        return False
    named = evidence.touched(case, remedy.id)
    rows = (row.probabilities for row in check.rows if row.key in named)
    return any(row[given] > check.otherwise[given] for row in rows)


def allowed(case: Case, state: State, remedy: Remedy) -> bool:
    """Return whether the person here may do this remedy, as far as is known."""
    if roles.needs_training(state.role, remedy) and state.trained == "no":
        return False
    if work_refused(case, state, remedy):
        return False
    return may_do(state.role, remedy.by) and not barred_by_danger(case, state, remedy)


def work_refused(case: Case, state: State, remedy: Remedy) -> bool:
    """Return whether a remedy leads through a caution or gate that the person here refused."""
    return bool(state.refused) and procedure.barred(state, procedure.of_remedy(case, remedy))


def barred_by_danger(case: Case, state: State, remedy: Remedy) -> bool:
    """Return whether a danger met in this session forbids guiding a person to this work by phone.

    It bars the work that states one of its cautions, and all that is done at the same places.
    """
    barred = _barred(case, state)
    if not barred:
        return False
    if not _places(case, barred).isdisjoint(_workplaces(case, remedy.id)):
        return True
    gates = (case.gate(step.gate) for step in remedy.steps if step.gate)
    stated = {*remedy.cautions, *(name for step in remedy.steps for name in step.cautions)}
    return bool(barred & stated.union(*(gate.cautions for gate in gates)))


def check_barred(case: Case, state: State, check: Check) -> bool:
    """Return whether a danger met in this session forbids sending a person to this check by phone.

    It bars the checks that carry one of its cautions, and all that stand at the same places.
    """
    barred = _barred(case, state)
    return bool(barred) and (
        check.place in _places(case, barred) or not barred.isdisjoint(_stated(case, check))
    )


def _barred(case: Case, state: State) -> frozenset[str]:
    """Return the cautions whose work the person here is not guided to after the dangers of this session."""
    if state.role not in roles.BY_PHONE:
        return frozenset()
    return frozenset(name for hazard in state.hazards for name in case.caution(hazard).bars)


@lru_cache(maxsize=32)
def _places(case: Case, barred: frozenset[str]) -> frozenset[str]:
    return frozenset(c.place for c in case.machine.checks if not barred.isdisjoint(_stated(case, c)))


@lru_cache(maxsize=512)
def _workplaces(case: Case, remedy: str) -> frozenset[str]:
    """Return where the parts are that a remedy may be done to."""
    parts = (case.component(fault.component) for fault in case.machine.faults if fault.remedy == remedy)
    return frozenset(part.place for part in parts)


def _stated(case: Case, check: Check) -> tuple[str, ...]:
    return (*check.cautions, *(name for gate in check.gates for name in case.gate(gate).cautions))


def out_of_question(state: State, remedy: str) -> bool:
    """Return whether a remedy was refused, is not possible here, or has been done already."""
    return remedy in state.declined or remedy in state.cured
