"""How good the questions are: hidden faults drawn from the prior, answers from the rows.

Every policy meets the same cases: the same hidden faults, the same complaint, and answers drawn from
the same stream of random numbers, so that differences are the policy's own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

from graph.candidates import open_checks, still_open, within_reach
from graph.evidence import slipped
from graph.likelihood import combine
from graph.plan import class_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from graph.case import Case
    from graph.findings import Finding

NOTHING, UNKNOWN = (), (-1,)  # hypotheses beside sets of fault positions
MOST_CHECKS = 60  # an interview longer than this has failed
MOST_TRIES = 3


@dataclass(frozen=True, slots=True)
class Hidden:
    """One case: what is really there, what was complained of, and where its random numbers start."""

    faults: tuple[int, ...]
    complaint: tuple[str, ...]
    seed: int


@dataclass(frozen=True, slots=True)
class Run:
    """What one policy made of one case."""

    right_remedy: bool  # the first remedy proposed deals with a fault that is there
    right_fault: bool  # the leading fault at that moment is there
    handed_over: bool
    cured: bool  # some remedy among the tries met every fault
    checks: int
    minutes: float
    bits: float  # entropy of what to do that was left at the first proposal


@dataclass(frozen=True, slots=True)
class Summary:
    """What a policy made of all cases."""

    cases: int
    right_remedy: float
    right_fault: float
    handed_over: float
    checks_median: float
    checks_p90: float
    minutes_median: float
    minutes_p90: float


class Policy(Protocol):
    """What to do next: a check to ask, or None to act."""

    def __call__(self, findings: tuple[Finding, ...], candidates: Sequence[str], here: str) -> str | None: ...


def draw_cases(case: Case, count: int, seed: int) -> tuple[Hidden, ...]:
    """Return `count` hidden cases from the prior, singles, pairs, nothing and unknown alike."""
    rng = np.random.default_rng(seed)
    tables = case.tables
    odds = tables.odds
    first = float(odds.sum())
    second = 0.5 * (first * first - float((odds**2).sum()))
    kinds = np.array([first, second, tables.nothing, tables.unknown])
    found = []
    for index in range(count):
        kind = int(rng.choice(4, p=kinds / kinds.sum()))
        faults = _draw_faults(rng, odds, kind)
        found.append(Hidden(faults, _complaint(case, rng, faults), seed * 1_000_003 + index))
    return tuple(found)


def draw_each(case: Case, each: int, above: float, seed: int) -> tuple[Hidden, ...]:
    """Return `each` hidden cases of every fault with a rate above `above` per 1000 calls, its places in turn.

    Rare faults turn up too seldom in cases drawn from the prior to say how well one of them is found.
    """
    rng = np.random.default_rng(seed)
    places: dict[str, list[int]] = {}
    for index, fault in enumerate(case.machine.faults):
        if fault.rate > above:
            places.setdefault(fault.base, []).append(index)
    hidden = [(spots[count % len(spots)],) for spots in places.values() for count in range(each)]
    return tuple(
        Hidden(faults, _complaint(case, rng, faults), seed * 1_000_003 + index)
        for index, faults in enumerate(hidden)
    )


def _draw_faults(rng: np.random.Generator, odds: np.ndarray, kind: int) -> tuple[int, ...]:
    if kind == 2:  # noqa: PLR2004 - the third kind, see draw_cases
        return NOTHING
    if kind == 3:  # noqa: PLR2004 - the fourth
        return UNKNOWN
    share = odds / odds.sum()
    if kind == 0:
        return (int(rng.choice(len(odds), p=share)),)
    while True:
        a, b = (int(f) for f in rng.choice(len(odds), size=2, p=share))
        if a != b:
            return (min(a, b), max(a, b))


def _complaint(case: Case, rng: np.random.Generator, faults: tuple[int, ...]) -> tuple[str, ...]:
    """Return the symptom that the caller opens with: one of those present, more telling ones first."""
    names, weights = [], []
    for index, check in enumerate(case.machine.checks):
        if check.kind == "symptom":
            p = float(row_of(case, index, faults)[0])
            if faults in (NOTHING, UNKNOWN) or p > check.otherwise[0]:
                names.append(check.id)
                weights.append(p)
    if not names:
        return ()
    chance = np.array(weights) / sum(weights)
    return (names[int(rng.choice(len(names), p=chance))],)


def row_of(case: Case, check: int, faults: tuple[int, ...]) -> np.ndarray:
    """Return P(outcome | exactly these faults) of a check, without slips."""
    tables = case.tables
    count = int(tables.outcomes[check])
    if faults == UNKNOWN:
        return tables.unknown_rows[check, :count]
    start = int(tables.class_start[check])
    for index in np.flatnonzero(tables.joint_check == check):
        if (int(tables.joint_first[index]), int(tables.joint_second[index])) == faults:
            return tables.joint_rows[index, :count]
    classes = [number for number in (class_of(tables, check, fault) for fault in faults) if number]
    if not classes:
        return tables.rows[start, :count]
    rows = [tuple(tables.rows[start + number, :count]) for number in classes]
    masks = [bool(tables.masks[start + number]) for number in classes]
    return np.array(combine(rows, int(tables.usual[check]), masks))


def run(case: Case, hidden: Hidden, policy: Policy, role: str, *, slips: bool) -> Run:
    """Return what `policy` makes of one case, up to the first remedy it proposes."""
    told = tuple(case.answer(name, "present", role) for name in hidden.complaint)
    settled = dict.fromkeys(hidden.complaint, "present")
    findings, here, minutes, asked = told, "", 0.0, 0
    reach = within_reach(case.machine, role)
    while asked < MOST_CHECKS:
        check = policy(findings, still_open(reach, settled), here)
        if check is None:
            break
        element = case.check(check)
        outcome = answer_of(case, hidden, check, role if slips else "")
        minutes += element.minutes + (
            case.place(element.place).minutes if here and element.place != here else 0.0
        )
        here, asked = element.place, asked + 1
        settled[check] = element.outcomes[outcome].id
        findings = (*findings, case.answer(check, element.outcomes[outcome].id, role))
    return _judge(case, hidden, findings, asked, minutes)


def answer_of(case: Case, hidden: Hidden, check: str, role: str) -> int:
    """Return the outcome that the person reports; each check of a case has its own random number."""
    position = case.position(check)
    row = row_of(case, position, hidden.faults)
    if role:
        row = slipped(row, case.machine.settings.slips.get(role, 0.0), len(row))
    rng = np.random.default_rng((hidden.seed, position))
    return int(rng.choice(len(row), p=row / row.sum()))


def _judge(case: Case, hidden: Hidden, findings: tuple[Finding, ...], asked: int, minutes: float) -> Run:
    belief = case.believe(findings)
    lead, share = belief.remedies[0]
    there = {case.machine.faults[f].remedy for f in hidden.faults} if hidden.faults != UNKNOWN else set()
    names = {case.machine.faults[f].id for f in hidden.faults} if hidden.faults != UNKNOWN else set()
    handed = belief.unknown > share
    calm = belief.nothing > share and not handed
    if hidden.faults == UNKNOWN:
        right = handed
    elif hidden.faults == NOTHING:
        right = calm
    else:
        right = lead in there and not handed and not calm
    return Run(
        right_remedy=right,
        right_fault=belief.causes[0][0] in names or (right and not names),
        handed_over=handed,
        cured=right,
        checks=asked,
        minutes=minutes,
        bits=belief.bits,
    )


def adaptive(case: Case, role: str) -> Policy:
    """Return the engine's own policy: the best check per minute until acting is due or enough was asked."""
    most = case.machine.settings.stop["questions"]

    def policy(findings: tuple[Finding, ...], candidates: Sequence[str], here: str) -> str | None:
        if not candidates or len(findings) > most:  # the complaint is one of them
            return None
        advice, ranked = case.decide(findings, candidates, role=role, here=here)
        return None if advice.act else ranked[0].check

    return policy


def fixed_order(case: Case, role: str, certain: float) -> Policy:
    """Return a fixed interview: checks by prior gain per minute, skipping none that still may be asked."""
    names = open_checks(case.machine, role, {})
    order = {item.check: index for index, item in enumerate(case.rank((), names, role=role))}
    return _until(
        case, certain, lambda candidates: min(candidates, key=lambda name: order.get(name, len(order)))
    )


def random_order(case: Case, certain: float, seed: int) -> Policy:
    """Return an interview in random order."""
    rng = np.random.default_rng(seed)
    return _until(case, certain, lambda candidates: candidates[int(rng.integers(len(candidates)))])


def _until(case: Case, certain: float, pick: Callable[[Sequence[str]], str]) -> Policy:
    def policy(findings: tuple[Finding, ...], candidates: Sequence[str], here: str) -> str | None:
        del here  # a fixed interview does not mind the way
        belief = case.believe(findings)
        best = max(belief.remedies[0][1], belief.nothing, belief.unknown)
        if best >= certain or not candidates:
            return None
        return pick(candidates)

    return policy


def summarise(runs: Sequence[Run]) -> Summary:
    """Return the figures of a list of runs."""
    checks = np.array([run.checks for run in runs])
    minutes = np.array([run.minutes for run in runs])
    return Summary(
        cases=len(runs),
        right_remedy=float(np.mean([run.right_remedy for run in runs])),
        right_fault=float(np.mean([run.right_fault for run in runs])),
        handed_over=float(np.mean([run.handed_over for run in runs])),
        checks_median=float(np.median(checks)),
        checks_p90=float(np.percentile(checks, 90)),
        minutes_median=float(np.median(minutes)),
        minutes_p90=float(np.percentile(minutes, 90)),
    )
