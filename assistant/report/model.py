"""A report as one frozen value: what a session said, read, believed, decided and did.

Names are ids, titles are for people. Times are ISO 8601 with the zone, as recorded. Weights of evidence
are in decibans (I. J. Good 1950). An empty text means: not known.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who took part, from when on, in which role."""

    name: str
    role: str
    title: str
    since: str


@dataclass(frozen=True, slots=True)
class MachineFacts:
    """The machine and the pack that it was diagnosed with; settings are (name, setting) each.

    `earlier` are the faults whose rate was multiplied for what happened at this machine before.
    """

    profile: str
    title: str
    barrels: int
    flavours: tuple[str, ...]
    settings: tuple[tuple[str, str], ...]
    earlier: tuple[tuple[str, float], ...]
    pack: str
    pack_version: str
    digest: str


@dataclass(frozen=True, slots=True)
class Found:
    """One answer that counts as evidence, and its weight in decibans for the cause in `weighed`.

    `asked` is false where it was volunteered. `value` is set where it was a number, in `unit`; `text` is
    that number in both systems.
    """

    at: str
    check: str
    ref: str
    title: str
    question: str
    answer: str
    value: float | None
    unit: str
    text: str
    role: str
    person: str
    asked: bool
    safety: bool
    decibans: float


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A question that got no answer: "not sure" or "can't"; a safety question is then not cleared."""

    at: str
    check: str
    ref: str
    question: str
    answer: str
    safety: bool


@dataclass(frozen=True, slots=True)
class Hazard:
    """A caution; `stop` where it stopped everything, `holds` where it was not cleared at the end.

    `safe_by` is who called the danger over, as it was told; empty where nobody did.
    """

    at: str
    id: str
    ref: str
    title: str
    do: str
    do_not: str
    who: str
    stop: bool
    holds: bool
    safe_by: str = ""


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One reading. `phase` is before, during or after the work; `within` its limits or not.

    `value` is None where only the band was told in which it lies; `text` then is that band.
    """

    at: str
    quantity: str
    title: str
    value: float | None
    unit: str
    text: str
    phase: str
    limits: str
    within: bool | None
    role: str
    source: str = ""  # of the limits of a step, as it is called


@dataclass(frozen=True, slots=True)
class Believed:
    """A cause with its posterior probability."""

    id: str
    ref: str
    title: str
    probability: float


@dataclass(frozen=True, slots=True)
class RuledOut:
    """A cause that was likely at its `peak` and is not any more; `because` spoke most against it."""

    id: str
    ref: str
    title: str
    peak: float
    probability: float
    because: str
    decibans: float


@dataclass(frozen=True, slots=True)
class Decision:
    """What was decided, why, and what was to be sent along."""

    at: str
    kind: str
    text: str
    remedy: str
    ref: str
    title: str
    probability: float
    send: str
    urgency: str
    reasons: tuple[str, ...]
    parts: tuple[str, ...]
    tools: tuple[str, ...]
    meanwhile: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Item:
    """One thing gone through; `gate` is the gate's title.

    kind: step, gate (a step of it), caution (acknowledged), instead (what was tried where a step could
    not be done as it stood).
    """

    at: str
    kind: str
    id: str
    ref: str
    gate: str
    text: str
    answer: str
    done: bool
    role: str


@dataclass(frozen=True, slots=True)
class Proved:
    """One verification after the work; `passed` is None where it stayed unproved."""

    at: str
    text: str
    answer: str
    wanted: str
    passed: bool | None


@dataclass(frozen=True, slots=True)
class Work:
    """One repair that was begun. `result` is helped, for_now, did_not_help, stopped, handed_over or open."""

    remedy: str
    ref: str
    title: str
    began: str
    ended: str
    role: str
    parts: tuple[str, ...]
    tools: tuple[str, ...]
    items: tuple[Item, ...]
    verified: tuple[Proved, ...]
    result: str


@dataclass(frozen=True, slots=True)
class ProofCheck:
    """A check that the record should hold before a part is condemned; no answer where it does not."""

    check: str
    ref: str
    title: str
    answer: str
    text: str
    at: str


@dataclass(frozen=True, slots=True)
class Cause:
    """The cause as it was found, or the likeliest one. `rank` is its place when work was first decided.

    `confirmed` where a person said so or the complaint went with its repair; `rank` 0 where none was decided.
    """

    id: str
    ref: str
    title: str
    probability: float
    confirmed: bool
    rank: int
    predicted: float


@dataclass(frozen=True, slots=True)
class Hygiene:
    """The record of cleaning, where a repair opened the way of the drink.

    `readings` are those of the sanitiser: what it was, how strong, and whether within limits.
    """

    opened_by: tuple[str, ...]
    items: tuple[Item, ...]
    readings: tuple[ReadingRow, ...]
    complete: bool


@dataclass(frozen=True, slots=True)
class ServiceRow:
    """A piece of regular service at the end of the session; `last` and `due` are days of the calendar.

    `state` is overdue, due or ahead; `here` where this session did it.
    """

    id: str
    title: str
    last: str
    due: str
    state: str
    here: bool


@dataclass(frozen=True, slots=True)
class Pause:
    """A time that does not count: `why` is gap or stopped."""

    began: str
    ended: str
    minutes: float
    why: str


@dataclass(frozen=True, slots=True)
class RoleMinutes:
    """The minutes that a role spent."""

    role: str
    title: str
    minutes: float


@dataclass(frozen=True, slots=True)
class TimeSpent:
    """Minutes at work (pauses left out), from first to last event, and by role."""

    minutes: float
    elapsed: float
    roles: tuple[RoleMinutes, ...]
    pauses: tuple[Pause, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """A whole session. `weighed` is the cause that the weights are about.

    Its log odds in decibans were `prior` before any answer and are `posterior` after all of them.
    `nothing`, `unknown` and `several` are the probabilities that nothing is wrong, that the cause is
    outside the graph, and that more than one fault is present. `parts_used` is None where nobody said.
    """

    session: str
    program: str
    started: str
    ended: str
    continues: str
    remarks: tuple[str, ...]
    site: str
    unit: str
    others: str
    people: tuple[Person, ...]
    machine: MachineFacts
    complaint: str
    taken_back: tuple[str, ...]  # what the complaint told and was denied later
    began: str
    outcome: str
    outcome_text: str
    closing: str
    decided: Decision | None
    cause: Cause
    true_cause: str
    hazards: tuple[Hazard, ...]
    findings: tuple[Found, ...]
    screened_before: tuple[Found, ...]  # safety answers of those who handed over, answered anew since
    left_out: tuple[LeftOut, ...]
    weighed: str
    prior: float
    posterior: float
    readings: tuple[ReadingRow, ...]
    causes: tuple[Believed, ...]
    nothing: float
    unknown: float
    several: float
    ruled_out: tuple[RuledOut, ...]
    proof: tuple[ProofCheck, ...]
    decisions: tuple[Decision, ...]
    made_safe: tuple[Item, ...]
    work: tuple[Work, ...]
    parts_used: tuple[str, ...] | None
    hygiene: Hygiene | None
    time: TimeSpent
    notes: tuple[str, ...]
    not_understood: tuple[str, ...]
    advice: tuple[str, ...]
    next_contact: str
    next_service: str
    service: tuple[ServiceRow, ...]
