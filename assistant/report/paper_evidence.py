"""The sections of a report on what was found: answers, readings, causes, what is ruled out, proof."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.report import wording as words
from assistant.report.document import Bars, Section, Table, Text, section
from assistant.report.pieces import by_whom, ref
from assistant.report.times import short

if TYPE_CHECKING:
    from assistant.report.model import Found, ProofCheck, ReadingRow, Report


def evidence_sections(report: Report) -> tuple[Section, ...]:
    """Return the sections on what was found."""
    return (
        section("Findings", _findings(report), _weighing(report), _left_out(report)),
        section("Readings", _before_after(report), _all_readings(report)),
        section("Causes at the end", _bars(report), _rest(report)),
        section("Ruled out", _ruled_out(report)),
        section("Proof check", _proof(report)),
    )


def _findings(report: Report) -> Table:
    rows = (
        (
            str(number),
            short(each.at, report.started),
            f"{ref(each.ref)}{each.question}",
            _answer(each),
            f"{by_whom(report, each)}{'' if each.asked else ', volunteered'}",
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
        (short(each.at, report.started), f"{ref(each.ref)}{each.question}", each.answer)
        for each in report.left_out
        if not each.safety
    )
    return Table(("Time", "Asked without an answer", "Said"), tuple(rows))


def _before_after(report: Report) -> Table:
    """Return the last reading before and after the work of each quantity, once any was read after it.

    The sanitiser has no before; it stands in the hygiene record.
    """
    cleaning = report.hygiene.readings if report.hygiene is not None else ()
    read = [each for each in report.readings if each not in cleaning]
    if not any(each.phase != "before" for each in read):
        return Table((), ())
    names = dict.fromkeys(each.quantity for each in read)
    rows = (_pair(report, [each for each in read if each.quantity == name]) for name in names)
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
        _verdict(last.within) if last is not None else "-",
    )


def _verdict(within: bool | None) -> str:  # noqa: FBT001 -- the fact itself
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
            _verdict(each.within),
        )
        for each in report.readings
    )
    return Table(("Time", "Reading", "Value", "When", "Limits", "Verdict"), tuple(rows))


def _bars(report: Report) -> Bars:
    rows = [(f"{ref(each.ref)}{each.title}", each.probability) for each in report.causes]
    rows += [("Nothing wrong", report.nothing), ("A cause that is not in the graph", report.unknown)]
    return Bars(tuple((label, share, talk.percent(share)) for label, share in rows))


def _rest(report: Report) -> Text:
    return Text(f"More than one fault at once: {talk.percent(report.several)}.")


def _ruled_out(report: Report) -> Table:
    rows = (
        (
            f"{ref(each.ref)}{each.title}",
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
            f"{ref(each.ref)}{each.title}",
            _answer(each) or "NOT RECORDED",
            short(each.at, report.started) or "-",
        )
        for each in report.proof
    )
    return Table(("Check that proves it", "Answer", "Time"), tuple(rows))
