"""A record and its case become a report: everything is read off, nothing is guessed.

What was said, shown and done comes from the record; who stood where, what was believed and which limits
hold comes from folding it under the pack.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.engine import complaint
from assistant.engine import evidence as engine
from assistant.engine.closing import LONGEST_NOTE
from assistant.engine.effects import Closed, Decide
from assistant.engine.events import Asked, Said
from assistant.report import evidence
from assistant.report import wording as words
from assistant.report.causes import cause_of, title_of
from assistant.report.exchanges import exchanges, replies, standing
from assistant.report.hazards import hazards_of, uncleared
from assistant.report.hygiene import hygiene_of
from assistant.report.model import (
    Decision,
    MachineFacts,
    Person,
    Report,
)
from assistant.report.readings import readings
from assistant.report.service import service_of
from assistant.report.times import spent
from assistant.report.works import works

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.report.exchanges import Exchange, Reply
    from assistant.report.model import Proved, ServiceRow, Work
    from assistant.report.told import Told
    from graph import Case


def gather(told: Told) -> Report:
    """Return the report of a session."""
    record, case, end = told.record, told.case, told.end
    every = exchanges(record)
    kept = standing(every)
    given = replies(kept)
    roles = _roles(told, every, kept)
    notes = _notes(kept)
    asked = {(each.at, each.ask.id): each.ask.text for each in kept if each.ask is not None}
    scene = works(kept, given, roles)
    done = tuple(_named(case, each) for each in scene.done)
    closed = _closed(every)
    outcome = closed.outcome if closed is not None else "open"
    decisions = tuple(
        _decision(effect, each.at) for each in every for effect in each.shown if isinstance(effect, Decide)
    )
    decided = decisions[-1] if decisions else None
    cause = cause_of(told, closed)
    prior, posterior = evidence.prior_and_posterior(told, cause.id)
    now = case.believe(engine.findings(end))
    rows = readings(told, kept)
    service = service_of(told, done)
    apart = tuple(replace(each, gate=__gate_title(case, each.gate)) for each in scene.apart)
    return Report(
        session=record.path.stem,
        program=record.header.program,
        started=record.header.started,
        ended=record.folded[-1].at if record.folded else record.header.started,
        continues=record.header.continues,
        remarks=told.remarks,
        site=end.site,
        unit=end.unit,
        others=end.others,
        people=_people(told),
        machine=_machine(told),
        complaint=end.complaint,
        taken_back=complaint.taken_back(case, end),
        began=end.began,
        outcome=outcome,
        outcome_text=words.outcome(outcome),
        closing=closed.text if closed is not None else "",
        decided=decided,
        cause=cause,
        true_cause=title_of(case, record.header.cause),
        hazards=hazards_of(case, every, (*end.hazards, *end.halts, *uncleared(kept)), dict(end.cleared)),
        findings=evidence.found(told, cause.id, asked),
        screened_before=evidence.screened_before(told, asked),
        left_out=evidence.left_out(told, tuple(given.values())),
        weighed=cause.id,
        prior=prior,
        posterior=posterior,
        readings=rows,
        causes=evidence.believed(told),
        nothing=now.nothing,
        unknown=now.unknown,
        several=now.several,
        ruled_out=evidence.ruled_out(told),
        proof=evidence.proof(told, _remedy(done, decided)),
        decisions=decisions,
        made_safe=apart,
        work=done,
        parts_used=_parts_used(kept, given, closed),
        hygiene=hygiene_of(case, done, rows),
        time=spent(record, told.roles(), case.machine.roles),
        notes=notes,
        not_understood=end.unheard,
        advice=_advice(decided, outcome),
        next_contact=words.next_contact(outcome, called=end.role == "helpdesk"),
        next_service=_next_service(notes, service),
        service=service,
    )


def _roles(told: Told, every: tuple[Exchange, ...], kept: tuple[Exchange, ...]) -> tuple[str, ...]:
    """Return who answered each exchange that stands."""
    by_entry = dict(zip((each.n for each in every), told.roles(), strict=True))
    return tuple(by_entry[each.n] for each in kept)


def _closed(every: tuple[Exchange, ...]) -> Closed | None:
    """Return the end of the session, None while a question is open or before anything happened."""
    if not every or every[-1].then is not None:
        return None
    ends = [effect for each in every for effect in each.shown if isinstance(effect, Closed)]
    return ends[-1] if ends else None


def _people(told: Told) -> tuple[Person, ...]:
    """Return who took part, in the order in which they came."""
    found: dict[tuple[str, str], Person] = {}
    for moment in told.moments:
        name, role = moment.after.person, moment.after.role
        title = talk.role_title(told.case.machine.roles, role) if role else ""
        if role or name:
            found.setdefault((name, role), Person(name, role, title, moment.at))
    return tuple(each for each in found.values() if each.role or len(found) == 1)


def _machine(told: Told) -> MachineFacts:
    machine, header = told.case.machine, told.record.header
    return MachineFacts(
        profile=machine.profile,
        title=machine.profile_title,
        barrels=machine.barrels,
        flavours=machine.flavours,
        settings=tuple(machine.switches.items()),
        earlier=tuple((title_of(told.case, name), factor) for name, factor in header.factors),
        pack=header.pack,
        pack_version=header.pack_version,
        digest=header.digest,
    )


def _decision(decide: Decide, at: str) -> Decision:
    return Decision(
        at=at,
        kind=decide.kind,
        text=words.decision(decide),
        remedy=decide.remedy,
        ref=decide.ref,
        title=decide.title,
        probability=decide.probability,
        send=decide.send,
        urgency=decide.urgency,
        reasons=decide.reasons,
        parts=decide.parts,
        tools=decide.tools,
        meanwhile=decide.meanwhile,
    )


def _named(case: Case, work: Work) -> Work:
    """Return a repair with the pack's words for its gates and for what its verification wants."""
    items = tuple(replace(each, gate=__gate_title(case, each.gate)) for each in work.items)
    verified = tuple(replace(each, wanted=_wanted(case, work.remedy, each)) for each in work.verified)
    return replace(work, items=items, verified=verified)


def __gate_title(case: Case, gate: str) -> str:
    return next((each.title for each in case.machine.gates if each.id == gate), gate)


def _wanted(case: Case, remedy: str, proved: Proved) -> str:
    """Return the limits or answers that a verification wants; empty where the pack has none."""
    known = {each.id: each for each in case.machine.remedies}
    if remedy not in known:
        return ""
    for number, item in enumerate(known[remedy].verify, start=1):
        if item.check and item.check == proved.wanted and case.has_check(item.check):
            check = case.check(item.check)
            return " or ".join(talk.outcome_label(check, each) for each in item.outcomes)
        if item.read and proved.wanted == f"{remedy}#{number}":
            return talk.limits_text(case.quantity(item.read), item.limits)
    return ""


def _remedy(done: tuple[Work, ...], decided: Decision | None) -> str:
    if done:
        return done[-1].remedy
    return decided.remedy if decided is not None else ""


def _advice(decided: Decision | None, outcome: str) -> tuple[str, ...]:
    """Return what holds until somebody comes, or what to watch for."""
    cured = outcome in {"cured", "cured_for_now"}
    meanwhile = decided.meanwhile if decided is not None and not cured else ()
    return (*dict.fromkeys(meanwhile), *((words.COMES_BACK,) if cured else ()))


def _notes(kept: tuple[Exchange, ...]) -> tuple[str, ...]:
    """Return what was written down for the record, the closing note last."""
    during = (e.event.argument.strip() for e in kept if isinstance(e.event, Asked) and e.event.word == "note")
    closing = (
        e.event.text.strip()
        for e in kept
        if isinstance(e.event, Said) and e.ask is not None and (e.ask.about, e.ask.id) == ("closing", "note")
    )
    return tuple(note[:LONGEST_NOTE] for note in (*during, *closing) if note)


def _next_service(notes: tuple[str, ...], service: tuple[ServiceRow, ...]) -> str:
    """Return what service is next: as a note says ("next service: March 2027"), else by its dates."""
    due = (note for note in reversed(notes) if note.casefold().startswith(words.NEXT_SERVICE))
    said = next(due, "")[len(words.NEXT_SERVICE) :].strip(" :,-")
    return said or words.next_service(service)


def _parts_used(
    kept: tuple[Exchange, ...], given: Mapping[int, Reply], closed: Closed | None
) -> tuple[str, ...] | None:
    """Return the parts that were used as they were named when that was asked; None where nobody said."""
    asked = (given[n] for n in range(len(kept)) if n in given and given[n].ask.about == "closing")
    said = next((reply for reply in asked if reply.ask.id == "parts"), None)
    if said is None or said.choice == "unsure" or closed is None:
        return None
    return closed.parts
