"""A report as a document: what somebody needs first stands first."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.report import wording as words
from assistant.report.document import (
    Alert,
    Bars,
    Bullets,
    Document,
    Facts,
    Section,
    Table,
    Text,
    Tick,
    Ticks,
    facts,
    filled,
    section,
)
from assistant.report.times import short, stamp

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from assistant.report.document import Block, Tone
    from assistant.report.model import Decision, Found, Hazard, Item, ProofCheck, ReadingRow, Report, Work

_TONES: dict[str, Tone] = {"cured": "good", "cured_for_now": "good", "made_safe": "stop"}
_SETTINGS_APART = ("ordinary", "normal")  # settings that say nothing


def paper(report: Report) -> Document:
    """Return a report as a document."""
    where = ", ".join(part for part in (report.site, report.unit) if part) or "no site named"
    return Document(
        title=f"Service report: {where}",
        about=f"Session {report.session}, {stamp(report.started)} to {stamp(report.ended)}",
        first=tuple(_first(report)),
        sections=filled(
            section("Summary", _summary(report)),
            section("Complaint", *_complaint(report)),
            section("Site, machine, people", _place(report), _people(report)),
            section("Safety", _safety(report), _cautions(report)),
            section("Findings", _findings(report), _weighing(report), _left_out(report)),
            section("Readings", _before_after(report), _all_readings(report)),
            section("Causes at the end", _bars(report), _rest(report)),
            section("Ruled out", _ruled_out(report)),
            section("Proof check", _proof(report)),
            section("Decision", *_decisions(report)),
            *(_made_safe(report),),
            *(_work(report, number, work) for number, work in enumerate(report.work, start=1)),
            section("Hygiene record", *_hygiene(report)),
            section("Time", _time(report), _pauses(report)),
            section("Advice and what comes next", _advice(report), _next(report)),
            section("Notes", _notes(report)),
        ),
        foot=_foot(report),
    )


def _first(report: Report) -> Iterator[Block]:
    """Yield what must be seen before anything else."""
    tone = _TONES.get(report.outcome, "caution")
    yield Alert(tone, report.outcome_text, (("", report.closing),) if report.closing else ())
    for hazard in report.hazards:
        if hazard.holds:
            yield alert_of(hazard)
    if report.remarks:
        yield Bullets(report.remarks)


def alert_of(hazard: Hazard) -> Alert:
    """Return a caution as a box."""
    rows = (("Do", hazard.do), ("Do not", hazard.do_not), ("Who", hazard.who))
    tone: Tone = "stop" if hazard.stop else "caution"
    return Alert(tone, hazard.title, tuple(row for row in rows if row[1]))


def _summary(report: Report) -> Facts:
    cause = report.cause
    sure = f"{'as found' if cause.confirmed else 'most likely'}, {talk.percent(cause.probability)}"
    decided = report.decided
    return facts(
        ("Outcome", report.outcome_text),
        ("Cause", f"{_ref(cause.ref)}{cause.title} ({sure})" if cause.id else cause.title),
        ("Predicted", words.rank(cause.rank, cause.predicted) if cause.rank else ""),
        ("True cause on record", report.true_cause),
        ("Done", "; ".join(f"{work.title}: {words.RESULTS[work.result]}" for work in report.work)),
        ("To send", f"{decided.send} ({decided.urgency})" if decided is not None and decided.urgency else ""),
        ("Time spent", words.minutes(report.time.minutes)),
        ("Next contact", report.next_contact),
    )


def _ref(ref: str) -> str:
    return f"{ref} " if ref else ""


def _complaint(report: Report) -> tuple[Block, ...]:
    return (Text(report.complaint, quote=True), facts(("Began", report.began)))


def _place(report: Report) -> Facts:
    machine = report.machine
    told = (f"{name.replace('_', ' ')}: {value.replace('_', ' ')}" for name, value in machine.settings
            if value not in _SETTINGS_APART)  # fmt: skip
    return facts(
        ("Site", report.site),
        ("Machine", report.unit),
        ("Kind", machine.title),
        ("Barrels", ", ".join(f"{n} {name}" for n, name in enumerate(machine.flavours, start=1))),
        ("Settings", "; ".join(told)),
        ("From earlier sessions", "; ".join(f"{title}, rate times {by:g}" for title, by in machine.earlier)),
        ("Also there", report.others),
        ("Carries on from", report.continues),
    )


def _people(report: Report) -> Table:
    rows = (
        (person.name or "not named", person.title, short(person.since, report.started))
        for person in report.people
    )
    return Table(("Person", "Role", "Since"), tuple(rows))


def _safety(report: Report) -> Table:
    answered = [
        (each.at, each.question, each.answer, _by(report, each)) for each in report.findings if each.safety
    ]
    unclear = [
        (each.at, each.question, f"{each.answer}: not cleared", "") for each in report.left_out if each.safety
    ]
    rows = (
        (short(at, report.started), *rest)
        for at, *rest in sorted([*answered, *unclear], key=lambda row: row[0])
    )
    return Table(("Time", "Safety question", "Answer", "By"), tuple(rows))


def _by(report: Report, found: Found) -> str:
    title = next((each.title for each in report.people if each.role == found.role), found.role)
    return f"{title} ({found.person})" if found.person else title


def _cautions(report: Report) -> Table:
    rows = (
        (short(each.at, report.started) or "-", f"{_ref(each.ref)}{each.title}", _standing(each))
        for each in report.hazards
    )
    return Table(("Time", "Caution given", "At the end"), tuple(rows))


def _standing(hazard: Hazard) -> str:
    if hazard.holds:
        return "holds for whoever comes next"
    return "stopped everything, then cleared" if hazard.stop else "given"


def _findings(report: Report) -> Table:
    rows = (
        (
            str(number),
            short(each.at, report.started),
            f"{_ref(each.ref)}{each.question}",
            _answer(each),
            f"{_by(report, each)}{'' if each.asked else ', volunteered'}",
            words.decibans(each.decibans),
        )
        for number, each in enumerate((each for each in report.findings if not each.safety), start=1)
    )
    return Table(("No.", "Time", "Question", "Answer", "By", "Decibans"), tuple(rows), right=(0, 5))


def _answer(each: Found | ProofCheck) -> str:
    """Return an answer, with the number that it rests on first."""
    return f"{each.text}: {each.answer}" if each.text else each.answer


def _weighing(report: Report) -> Text:
    if not report.weighed or all(each.safety for each in report.findings):
        return Text("")
    safety = sum(each.decibans for each in report.findings if each.safety)
    return Text(words.weighing(report.cause.title, report.prior, safety, report.posterior))


def _left_out(report: Report) -> Table:
    rows = (
        (short(each.at, report.started), f"{_ref(each.ref)}{each.question}", each.answer)
        for each in report.left_out
        if not each.safety
    )
    return Table(("Time", "Asked without an answer", "Said"), tuple(rows))


def _before_after(report: Report) -> Table:
    """Return the first and last reading of each quantity beside its limits, once work has begun."""
    if not report.work:
        return Table((), ())
    names = dict.fromkeys(each.quantity for each in report.readings)
    rows = (_pair(report, [each for each in report.readings if each.quantity == name]) for name in names)
    return Table(("Reading", "Before", "At", "After", "At", "Limits", "Verdict"), tuple(rows))


def _pair(report: Report, rows: list[ReadingRow]) -> tuple[str, ...]:
    before = next((each for each in reversed(rows) if each.phase == "before"), None)
    after = next((each for each in reversed(rows) if each.phase != "before"), None)
    last = after or before
    return (
        talk.sentence(rows[-1].title),
        before.text if before is not None else "-",
        short(before.at, report.started) if before is not None else "-",
        after.text if after is not None else "-",
        short(after.at, report.started) if after is not None else "-",
        next((each.limits for each in rows if each.limits), "-"),
        verdict(last.within) if last is not None else "-",
    )


def verdict(within: bool | None) -> str:  # noqa: FBT001 -- the fact itself
    """Return whether a number lies within its limits, in a word or two."""
    if within is None:
        return "-"
    return "within" if within else "OUT of limits"


def _all_readings(report: Report) -> Table:
    rows = (
        (
            short(each.at, report.started),
            talk.sentence(each.title),
            each.text,
            words.PHASES[each.phase],
            each.limits or "-",
            verdict(each.within),
        )
        for each in report.readings
    )
    return Table(("Time", "Reading", "Value", "When", "Limits", "Verdict"), tuple(rows))


def _bars(report: Report) -> Bars:
    rows = [(f"{_ref(each.ref)}{each.title}", each.probability) for each in report.causes]
    rows += [("Nothing wrong", report.nothing), ("A cause that is not in the graph", report.unknown)]
    return Bars(tuple((label, share, talk.percent(share)) for label, share in rows))


def _rest(report: Report) -> Text:
    return Text(f"More than one fault at once: {talk.percent(report.several)}.")


def _ruled_out(report: Report) -> Table:
    rows = (
        (
            f"{_ref(each.ref)}{each.title}",
            talk.percent(each.peak),
            talk.percent(each.probability),
            words.ruled_out(each.because, each.decibans),
        )
        for each in report.ruled_out
    )
    return Table(
        ("Cause", "At most", "Now", "What spoke most against it (decibans)"), tuple(rows), right=(1, 2)
    )


def _proof(report: Report) -> Table:
    rows = (
        (
            f"{_ref(each.ref)}{each.title}",
            _answer(each) or "NOT RECORDED",
            short(each.at, report.started) or "-",
        )
        for each in report.proof
    )
    return Table(("Check that proves it", "Answer", "Time"), tuple(rows))


def _decisions(report: Report) -> Iterator[Block]:
    for decision in report.decisions:
        yield from _decision(report, decision)


def _decision(report: Report, decision: Decision) -> Iterator[Block]:
    yield facts(
        (short(decision.at, report.started), decision.text),
        ("Because", " ".join(decision.reasons)),
        ("Send", decision.send if decision.urgency else ""),
        ("How soon", decision.urgency),
        ("Parts", words.spelled(decision.parts)),
        ("Tools", words.spelled(decision.tools)),
        ("Until then", " ".join(decision.meanwhile)),
    )


def _made_safe(report: Report) -> Section:
    return section("Made safe for checks", *ticks_of(report, report.made_safe))


def ticks_of(report: Report, items: Iterable[Item]) -> Iterator[Ticks]:
    """Yield lists of things gone through, gate by gate, in their order."""
    for (kind, gate), group in groupby(items, key=lambda item: (item.kind, item.gate)):
        title = {"gate": f"Gate: {gate}", "caution": "Cautions acknowledged"}.get(kind, "Steps")
        yield Ticks(tuple(_tick(report, item) for item in group), title)


def _tick(report: Report, item: Item) -> Tick:
    label = item.id.rpartition("#")[2] if item.kind == "step" else ""
    answer = "" if item.done and item.answer in {"Done", "Yes", "Understood"} else f"{item.answer}, "
    return Tick(item.text, item.done, label, f"{answer}{short(item.at, report.started)}")


def _work(report: Report, number: int, work: Work) -> Section:
    head = facts(
        ("Result", talk.sentence(words.RESULTS[work.result])),
        ("Began", short(work.began, report.started)),
        ("Ended", short(work.ended, report.started)),
        ("By", next((each.title for each in report.people if each.role == work.role), work.role)),
        ("Parts", words.spelled(work.parts)),
        ("Tools", words.spelled(work.tools)),
    )
    proved = tuple(
        (short(each.at, report.started), each.text, each.answer, each.wanted or "-", _passed(each.passed))
        for each in work.verified
    )
    table = Table(("Time", "Verification", "Seen", "Wanted", "Verdict"), proved)
    title = f"Work {number}: {_ref(work.ref)}{work.title}"
    return section(title, head, *ticks_of(report, work.items), table)


def _passed(passed: bool | None) -> str:  # noqa: FBT001 -- the fact itself
    if passed is None:
        return "unproved"
    return "passed" if passed else "FAILED"


def _hygiene(report: Report) -> Iterator[Block]:
    if report.hygiene is None:
        return
    yield Text(words.hygiene(report.hygiene.complete))
    yield Facts((("Opened by", "; ".join(report.hygiene.opened_by)),))
    yield Ticks(tuple(_tick(report, item) for item in report.hygiene.items))


def _time(report: Report) -> Facts:
    by_role = "; ".join(
        f"{talk.sentence(each.title)} {words.minutes(each.minutes)}" for each in report.time.roles
    )
    return facts(
        ("Time spent", words.minutes(report.time.minutes)),
        ("By role", by_role),
        ("From first to last entry", words.minutes(report.time.elapsed)),
    )


def _pauses(report: Report) -> Table:
    rows = (
        (stamp(each.began), stamp(each.ended), words.minutes(each.minutes), words.PAUSES[each.why])
        for each in report.time.pauses
    )
    return Table(("Pause from", "To", "Length", "Why"), tuple(rows), right=(2,))


def _advice(report: Report) -> Bullets:
    return Bullets(report.advice)


def _next(report: Report) -> Facts:
    return facts(("Next contact", report.next_contact), ("Next service", report.next_service))


def _notes(report: Report) -> Bullets:
    unheard = tuple(f'Said, and not understood: "{each}"' for each in report.not_understood)
    return Bullets((*report.notes, *unheard))


def _foot(report: Report) -> str:
    machine = report.machine
    return (
        f"Written by barrelside {report.program} from the record {report.session}; "
        f"pack {machine.pack} {machine.pack_version} ({machine.digest[:8]}), profile {machine.profile}."
    )
