"""A record and its case become a report: everything is read off, nothing is guessed.

What was said, shown and done comes from the record; who stood where, what was believed and which limits
hold comes from folding it under the pack.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.engine import evidence as engine
from assistant.engine.closing import LONGEST_NOTE
from assistant.engine.effects import Closed, Decide, Tell, Warn
from assistant.engine.events import Asked, Said
from assistant.engine.state import Stage
from assistant.report import evidence
from assistant.report import wording as words
from assistant.report.exchanges import exchanges, replies, standing
from assistant.report.model import (
    Cause,
    Decision,
    Hazard,
    Hygiene,
    MachineFacts,
    Person,
    Report,
)
from assistant.report.readings import readings
from assistant.report.times import spent
from assistant.report.works import works

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.report.exchanges import Exchange
    from assistant.report.model import Item, Proved, Work
    from assistant.report.told import Told
    from graph import Case
    from graph.machine import Caution

_CLEANING = re.compile(r"saniti[sz]|sanitation", re.IGNORECASE)  # what the pack check calls so


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
    cause = _cause(told, closed)
    prior, posterior = evidence.prior_and_posterior(told, cause.id)
    now = case.believe(engine.findings(end))
    apart = tuple(replace(each, gate=_gate_title(case, each.gate)) for each in scene.apart)
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
        began=end.began,
        outcome=outcome,
        outcome_text=words.outcome(outcome),
        closing=closed.text if closed is not None else "",
        decided=decided,
        cause=cause,
        true_cause=_title(case, record.header.cause),
        hazards=_hazards(case, every, (*end.hazards, *end.halts, *_uncleared(kept))),
        findings=evidence.found(told, cause.id, asked),
        left_out=evidence.left_out(told, tuple(given.values())),
        weighed=cause.id,
        prior=prior,
        posterior=posterior,
        readings=readings(told, kept),
        causes=evidence.believed(told),
        nothing=now.nothing,
        unknown=now.unknown,
        several=now.several,
        ruled_out=evidence.ruled_out(told),
        proof=evidence.proof(told, _remedy(done, decided)),
        decisions=decisions,
        made_safe=apart,
        work=done,
        hygiene=_hygiene(case, done),
        time=spent(record, told.roles(), case.machine.roles),
        notes=notes,
        not_understood=end.unheard,
        advice=_advice(decided, outcome),
        next_contact=words.next_contact(outcome, called=end.role == "helpdesk"),
        next_service=_next_service(notes),
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
        earlier=tuple((_title(told.case, name), factor) for name, factor in header.factors),
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


def _uncleared(kept: Iterable[Exchange]) -> tuple[str, ...]:
    """Return the cautions that hold by the record: dangers, and safety questions without a clear answer."""
    found = dict[str, None]()
    for exchange in kept:
        asked = exchange.ask is not None and exchange.ask.about == "check"
        noted = asked and any(isinstance(each, Tell) and each.topic == "safety" for each in exchange.shown)
        found |= {e.id: None for e in exchange.shown if isinstance(e, Warn) and (e.stop or noted)}
    return tuple(found)


def _hazards(case: Case, every: Iterable[Exchange], holding: tuple[str, ...]) -> tuple[Hazard, ...]:
    """Return the cautions given, each once, at the first time; those that hold at the end are marked."""
    found: dict[str, Hazard] = {}
    for exchange in every:
        for warn in exchange.shown:
            if isinstance(warn, Warn):
                before = found.get(warn.id)
                at, stop = (before.at, before.stop) if before is not None else (exchange.at, False)
                found[warn.id] = _hazard(warn, at, stop=stop or warn.stop, holds=warn.id in holding)
    silent = (case.caution(name) for name in dict.fromkeys(holding) if name not in found)
    return (*found.values(), *(_hazard(caution, "", stop=False, holds=True) for caution in silent))


def _hazard(of: Warn | Caution, at: str, *, stop: bool, holds: bool) -> Hazard:
    return Hazard(at, of.id, of.ref, of.title, of.do, of.do_not, of.who, stop, holds)


def _title(case: Case, fault: str) -> str:
    known = {each.id: each.title for each in case.machine.faults}
    return known.get(fault, fault)


def _cause(told: Told, closed: Closed | None) -> Cause:
    """Return the cause that the session closed with, else the likeliest one."""
    case, end = told.case, told.end
    now = case.believe(engine.findings(end))
    known = {each.id for each in case.machine.faults}
    told_cause = closed.cause if closed is not None else ""
    cured = closed is not None and closed.outcome in {"cured", "cured_for_now"}
    name = told_cause if told_cause in known else ""
    if not name and not cured and end.answers:
        name = now.causes[0][0]
    if not name:
        return Cause("", "", _title(case, told_cause), 0.0, confirmed=False, rank=0, predicted=0.0)
    place, predicted = _predicted(told, name)
    fault = case.fault(name)
    confirmed = closed is not None and closed.outcome == "cured" and name == told_cause
    return Cause(name, fault.ref, fault.title, now.cause(name), confirmed, place, predicted)


def _predicted(told: Told, cause: str) -> tuple[int, float]:
    """Return which place a cause had, and its probability, when something was first decided."""
    for moment in told.moments:
        state = moment.after
        offered = state.open is not None and state.open.kind in {"remedy", "trained"}
        if (
            offered
            or state.stage is Stage.CLOSING
            or (state.stage is Stage.CLOSED and state.outcome != "stopped")
        ):
            before = state if offered else moment.before
            order = told.case.believe(engine.findings(before)).causes
            place = next(n for n, (name, _) in enumerate(order, start=1) if name == cause)
            return place, dict(order)[cause]
    return 0, 0.0


def _named(case: Case, work: Work) -> Work:
    """Return a repair with the pack's words for its gates and for what its verification wants."""
    items = tuple(replace(each, gate=_gate_title(case, each.gate)) for each in work.items)
    verified = tuple(replace(each, wanted=_wanted(case, work.remedy, each)) for each in work.verified)
    return replace(work, items=items, verified=verified)


def _gate_title(case: Case, gate: str) -> str:
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


def _hygiene(case: Case, done: tuple[Work, ...]) -> Hygiene | None:
    """Return the cleaning record of the repairs that opened the way of the drink; None where none did."""
    known = {each.id: each for each in case.machine.remedies}
    opened = tuple(
        w for w in done if w.remedy in known and known[w.remedy].opens_product_path and _stepped(w)
    )
    if not opened:
        return None
    items = tuple(item for work in opened for item in work.items if _cleans(item))
    complete = bool(items) and all(item.done for item in items) and all(map(_cleaned, opened))
    return Hygiene(tuple(work.title for work in opened), items, complete)


def _stepped(work: Work) -> bool:
    return any(item.kind == "step" and item.done for item in work.items)


def _cleaned(work: Work) -> bool:
    """Return whether a repair went through all of its steps, cleaning among them."""
    finished = work.result in {"helped", "for_now", "did_not_help"} or bool(work.verified)
    return finished and any(_cleans(item) for item in work.items)


def _cleans(item: Item) -> bool:
    """Return whether a step belongs to the cleaning gate, or is one about sanitising."""
    if item.kind == "caution":
        return False
    return any(
        _CLEANING.search(text) for text in (item.id, item.gate, item.text if item.kind == "step" else "")
    )


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


def _next_service(notes: tuple[str, ...]) -> str:
    """Return when the next service is due, where a note says so: "next service: March 2027"."""
    due = (note for note in reversed(notes) if note.casefold().startswith(words.NEXT_SERVICE))
    return next(due, "")[len(words.NEXT_SERVICE) :].strip(" :,-") or words.NO_SERVICE
