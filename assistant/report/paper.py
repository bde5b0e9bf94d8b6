"""A report as a document: what somebody needs first stands first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.report import wording as words
from assistant.report.document import (
    Alert,
    Bullets,
    Document,
    Facts,
    Table,
    Text,
    facts,
    filled,
    section,
)
from assistant.report.paper_evidence import evidence_sections
from assistant.report.paper_work import work_sections
from assistant.report.pieces import alert_of, by_whom, ref
from assistant.report.times import short, stamp

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.report.document import Block, Tone
    from assistant.report.model import Hazard, Report

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
            *evidence_sections(report),
            *work_sections(report),
            section("Time", _time(report), _pauses(report)),
            section("Advice and what comes next", _advice(report), _next(report), _service(report)),
            section("Notes", _notes(report)),
        ),
        foot=_foot(report),
    )


def _first(report: Report) -> Iterator[Block]:
    """Yield what must be seen before anything else."""
    tone = _TONES.get(report.outcome, "caution")
    closing = report.closing.removeprefix(f"{report.outcome_text}.").strip()
    yield Alert(tone, report.outcome_text, (("", closing),) if closing else ())
    for hazard in report.hazards:
        if hazard.holds:
            yield alert_of(hazard)
    if report.hygiene is not None and not report.hygiene.complete:
        yield Alert("stop", words.NOT_CLEANED, (("", words.hygiene(complete=False)),))
    if report.remarks:
        yield Bullets(report.remarks)


def _summary(report: Report) -> Facts:
    cause = report.cause
    sure = f"{'as found' if cause.confirmed else 'most likely'}, {talk.percent(cause.probability)}"
    decided = report.decided
    return facts(
        ("Outcome", report.outcome_text),
        ("Cause", f"{ref(cause.ref)}{cause.title} ({sure})" if cause.id else cause.title),
        ("Predicted", words.rank(cause.rank, cause.predicted) if cause.rank else ""),
        ("True cause on record", report.true_cause),
        ("Done", "; ".join(f"{work.title}: {words.RESULTS[work.result]}" for work in report.work)),
        ("Parts used", words.parts(report.parts_used) if report.work else ""),
        ("To send", f"{decided.send} ({decided.urgency})" if decided is not None and decided.urgency else ""),
        ("Time spent", words.minutes(report.time.minutes)),
        ("Next contact", report.next_contact),
    )


def _complaint(report: Report) -> tuple[Block, ...]:
    return (
        Text(report.complaint, quote=True),
        facts(("Began", report.began), ("Taken back", "; ".join(report.taken_back))),
    )


def _place(report: Report) -> Facts:
    machine = report.machine
    told = (f"{name.replace('_', ' ')}: {value.replace('_', ' ')}" for name, value in machine.settings
            if value not in _SETTINGS_APART)  # fmt: skip
    return facts(
        ("Site", report.site),
        ("Machine", report.unit),
        ("Kind", machine.title),
        ("Barrels", ", ".join(f"{n} {name}" for n, name in enumerate(machine.flavours, start=1) if name)),
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
    safety = [*report.screened_before, *(each for each in report.findings if each.safety)]
    answered = [(each.at, each.question, each.answer, by_whom(report, each)) for each in safety]
    unclear = [
        (each.at, each.question, f"{each.answer}: not cleared", "") for each in report.left_out if each.safety
    ]
    rows = (
        (short(at, report.started), *rest)
        for at, *rest in sorted([*answered, *unclear], key=lambda row: row[0])
    )
    return Table(("Time", "Safety question", "Answer", "By"), tuple(rows))


def _cautions(report: Report) -> Table:
    rows = (
        (short(each.at, report.started) or "-", f"{ref(each.ref)}{each.title}", _standing(each))
        for each in report.hazards
    )
    return Table(("Time", "Caution given", "At the end"), tuple(rows))


def _standing(hazard: Hazard) -> str:
    over = f"; called safe by: {hazard.safe_by}" if hazard.safe_by else ""
    if hazard.holds:
        return f"holds for whoever comes next{over}"
    return f"stopped everything, then cleared{over}" if hazard.stop else "given"


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


def _service(report: Report) -> Table:
    rows = (
        (
            each.title,
            f"{each.last}{', in this session' if each.here else ''}",
            each.due,
            words.DUE[each.state],
        )
        for each in report.service
    )
    return Table(("Service", "Last done", "Due", "State"), tuple(rows))


def _notes(report: Report) -> Bullets:
    unheard = tuple(f'Said, and not understood: "{each}"' for each in report.not_understood)
    return Bullets((*report.notes, *unheard))


def _foot(report: Report) -> str:
    machine = report.machine
    return (
        f"Written by barrelside {report.program} from the record {report.session}; "
        f"pack {machine.pack} {machine.pack_version} ({machine.digest[:8]}), profile {machine.profile}."
    )
