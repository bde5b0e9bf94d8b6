"""Whole jobs, simulated: a call, a try by phone where that pays, a visit with parts, until all is cured.

A job starts like a case of `measure.py`. On the phone the helpdesk asks what an operator can answer and has
tried what an operator may do; then somebody comes, with what was carried. A remedy cures its faults when
the person may do it and its parts are at hand.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from graph.candidates import may_do, still_open, within_reach
from graph.measure import NOTHING, UNKNOWN, Hidden, answer_of
from graph.visit import worth_carrying

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from graph.case import Case
    from graph.findings import Finding
    from graph.machine import Remedy

MOST_TRIES = 4  # remedies tried by one person before they give up
PHONE, HANDS = "helpdesk", "technician"


@dataclass(frozen=True, slots=True)
class Job:
    """How one job went."""

    visits: int
    cured: bool
    first_visit: bool  # cured with at most one visit, a visit having been made
    known: bool  # something was wrong, and the pack knows it
    avoidable: bool  # every fault could have been dealt with by phone
    in_vain: int  # parts carried beside the van's own and not needed, on the first visit
    minutes: float
    checks: int


@dataclass(frozen=True, slots=True)
class JobSummary:
    """The figures of many jobs."""

    cases: int
    cured_first_visit: float  # of the visited machines with faults that the pack knows
    nothing_to_cure: float  # visits, of all, where nothing was wrong or nothing that the pack knows
    visits_avoided: float  # of the visits that could be avoided
    parts_in_vain: float  # per visit
    cured: float
    visits_mean: float
    minutes_median: float


@dataclass(frozen=True)
class Progress:
    """A job under way. `left` are the faults still there, `done` the remedies tried."""

    left: frozenset[int]
    findings: tuple[Finding, ...]
    settled: dict[str, str]
    done: tuple[str, ...] = ()
    minutes: float = 0.0
    checks: int = 0
    given_up: bool = False


def engine_job(case: Case, hidden: Hidden) -> Job:
    """Return how the engine's own way of working does: phone first, then a visit that brings what pays."""
    start = _start(case, hidden)
    phoned = _work(case, hidden, start, PHONE, parts=None)
    if _all_cured(hidden, phoned):
        return _job(case, hidden, phoned, visits=0, carried=())
    carried, sent = carry(case, phoned), _whom(case, phoned)
    visited = _work(case, hidden, replace(phoned, given_up=False), sent, parts=carried)
    return _after_visits(case, hidden, visited, carried)


def send_likeliest(case: Case, hidden: Hidden) -> Job:
    """Return how it goes when somebody is sent at once with the parts of the likeliest remedy."""
    start = _start(case, hidden)
    remedy = _lead(case, start)
    carried = remedy.parts if remedy is not None else ()
    visited = _work(case, hidden, start, _whom(case, start), parts=carried)
    return _after_visits(case, hidden, visited, carried)


def flow_chart(case: Case, hidden: Hidden, order: dict[str, int], length: int) -> Job:
    """Return how it goes with a fixed list of `length` questions by phone, then the likeliest remedy."""
    now = _start(case, hidden)
    names = still_open(within_reach(case.machine, PHONE), now.settled)
    for check in sorted(names, key=lambda name: order.get(name, len(order)))[:length]:
        now = _ask(case, hidden, now, check, PHONE)
    remedy = _lead(case, now)
    if remedy is not None and may_do(PHONE, remedy.by):
        now = _try(case, now, remedy, PHONE)
        if _all_cured(hidden, now):
            return _job(case, hidden, now, visits=0, carried=())
        remedy = _lead(case, now)
    carried = remedy.parts if remedy is not None else ()
    visited = _work(case, hidden, now, _whom(case, now), parts=carried)
    return _after_visits(case, hidden, visited, carried)


def summarise_jobs(jobs: list[Job]) -> JobSummary:
    """Return the figures of a list of jobs."""
    visited = [job for job in jobs if job.visits]
    avoidable = [job for job in jobs if job.avoidable]
    return JobSummary(
        cases=len(jobs),
        cured_first_visit=_mean([job.first_visit for job in visited if job.known]),
        nothing_to_cure=_mean([not job.known for job in visited]),
        visits_avoided=_mean([job.visits == 0 for job in avoidable]),
        parts_in_vain=_mean([job.in_vain for job in visited]),
        cured=_mean([job.cured for job in jobs]),
        visits_mean=_mean([job.visits for job in jobs]),
        minutes_median=float(np.median([job.minutes for job in jobs])),
    )


def _mean(values: list[bool] | list[int]) -> float:
    return float(np.mean(values)) if values else 1.0


def carry(case: Case, now: Progress) -> tuple[str, ...]:
    """Return the parts that it pays to bring beside what every van has, by the belief after the call."""
    settings = case.machine.settings
    theirs = case.work_of(_whom(case, now), case.believe(now.findings))
    needs = ((p, remedy.parts) for p, remedy in theirs)
    return worth_carrying(needs, settings.costs["second_visit"], settings.costs["carry_part"], settings.van)


def _start(case: Case, hidden: Hidden) -> Progress:
    left = frozenset() if hidden.faults == UNKNOWN else frozenset(hidden.faults)
    told = tuple(case.answer(name, "present", PHONE) for name in hidden.complaint)
    return Progress(left, told, dict.fromkeys(hidden.complaint, "present"))


def _lead(case: Case, now: Progress) -> Remedy | None:
    """Return the likeliest remedy not yet tried."""
    for name, _ in case.believe(now.findings).remedies:
        if name not in now.done:
            return case.remedy(name)
    return None


def _whom(case: Case, now: Progress) -> str:
    """Return who is sent: the person that the likeliest remedy asks for."""
    remedy = _lead(case, now)
    return remedy.send if remedy is not None and not may_do(HANDS, remedy.by) else HANDS


def _work(case: Case, hidden: Hidden, now: Progress, role: str, parts: Collection[str] | None) -> Progress:
    """Return the job after one person asked and tried what they could; `parts` None: by phone."""
    reach = within_reach(case.machine, role)
    barred = _barred(case, role, parts)
    tries, asked = 0, 0
    while tries < MOST_TRIES and not _all_cured(hidden, now):
        check, remedy = _next(case, now, still_open(reach, now.settled), role, asked)
        if check:
            now, asked = _ask(case, hidden, now, check, role), asked + 1
            continue
        if not remedy or remedy in barred:
            break
        now = _try(case, now, case.remedy(remedy), role)
        tries, asked = tries + 1, 0
    return now


def _next(case: Case, now: Progress, candidates: Sequence[str], role: str, asked: int) -> tuple[str, str]:
    """Return the check to ask or the remedy to try, as a conversation would; neither: nobody here knows.

    After so many questions that nobody would answer more, what is worth a try is tried.
    """
    if asked >= case.machine.settings.stop["questions"]:
        tries = case.worth_a_try(role, case.believe(now.findings))
        return "", next((name for name in tries if name not in now.done), "")
    costs = dict.fromkeys(now.done, float("inf"))
    advice, ranked = case.decide(now.findings, candidates, role=role, cured=now.done, costs=costs)
    if not advice.act and ranked:
        return ranked[0].check, ""
    return "", "" if advice.reason in {"unknown_leads", "nothing_wrong"} else advice.remedy


def _barred(case: Case, role: str, parts: Collection[str] | None) -> frozenset[str]:
    """Return the remedies that this person cannot do here: not theirs to do, or a part is missing.

    With `parts` the van's own are at hand as well.
    """
    aboard = {*(parts or ()), *case.machine.settings.van}
    return frozenset(
        remedy.id
        for remedy in case.machine.remedies
        if not may_do(role, remedy.by) or (parts is not None and not set(remedy.parts) <= aboard)
    )


def _ask(case: Case, hidden: Hidden, now: Progress, check: str, role: str) -> Progress:
    element = case.check(check)
    there = replace(hidden, faults=tuple(sorted(now.left))) if hidden.faults != UNKNOWN else hidden
    outcome = element.outcomes[answer_of(case, there, check, role)].id
    return replace(
        now,
        findings=(*now.findings, replace(case.answer(check, outcome, role), cured=now.done)),
        settled={**now.settled, check: outcome},
        minutes=now.minutes + element.minutes,
        checks=now.checks + 1,
    )


def _try(case: Case, now: Progress, remedy: Remedy, role: str) -> Progress:
    """Return the job after a remedy was done and it was seen whether that helped."""
    left = frozenset(f for f in now.left if case.machine.faults[f].remedy != remedy.id)
    helped = case.helped(remedy.id, not left and bool(now.left), role)
    touched = {
        check: outcome for check, outcome in now.settled.items() if not _may_change(case, check, outcome)
    }
    return replace(
        now,
        left=left,
        findings=(*now.findings, helped),
        settled=touched,
        done=(*now.done, remedy.id),
        minutes=now.minutes + remedy.minutes,
    )


def _may_change(case: Case, check: str, outcome: str) -> bool:
    """Return whether a repair may have changed an answer: an unusual one, told or asked."""
    element = case.check(check)
    return element.kind == "check" and element.usual >= 0 and element.outcomes[element.usual].id != outcome


def _all_cured(hidden: Hidden, now: Progress) -> bool:
    return not now.left and hidden.faults not in (NOTHING, UNKNOWN)


def _after_visits(case: Case, hidden: Hidden, now: Progress, carried: tuple[str, ...]) -> Job:
    """Return the job after one visit, and a second with everything where the first did not do."""
    if _all_cured(hidden, now) or hidden.faults in (NOTHING, UNKNOWN):
        return _job(case, hidden, now, visits=1, carried=carried)
    again = _work(case, hidden, now, _whom(case, now), parts=_every_part(case))
    return _job(case, hidden, again, visits=2, carried=carried)


def _every_part(case: Case) -> frozenset[str]:
    return frozenset(part for remedy in case.machine.remedies for part in remedy.parts)


def _job(case: Case, hidden: Hidden, now: Progress, *, visits: int, carried: tuple[str, ...]) -> Job:
    there = [] if hidden.faults == UNKNOWN else [case.machine.faults[f] for f in hidden.faults]
    needed = {part for fault in there for part in case.remedy(fault.remedy).parts}
    return Job(
        visits=visits,
        cured=_all_cured(hidden, now),
        first_visit=visits == 1 and _all_cured(hidden, now),
        known=bool(there),
        avoidable=bool(there) and all(may_do(PHONE, case.remedy(fault.remedy).by) for fault in there),
        in_vain=len(set(carried) - needed - set(case.machine.settings.van)),
        minutes=now.minutes,
        checks=now.checks,
    )
