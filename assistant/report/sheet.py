"""The work sheet of a remedy, to print and take along: cautions, gates to tick, steps, limits, proof.

The rule: a caution stands before what needs it, a gate before the step that it guards, and no step is
printed for a role that may not do it.
"""

from __future__ import annotations

from itertools import groupby, takewhile
from string import ascii_lowercase
from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.engine import procedure, roles
from assistant.errors import AssistantError
from assistant.report import wording as words
from assistant.report.document import Alert, Document, Facts, Tick, Ticks, facts, filled, section
from assistant.report.model import Hazard
from assistant.report.pieces import alert_of
from assistant.report.times import stamp
from graph.candidates import may_do

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.engine.procedure import Item
    from assistant.report.document import Block
    from assistant.report.model import Report
    from graph import Case
    from graph.machine import Limits, Quantity, Remedy, Step, Verification


_BLANK = "____________________"
_YES_NO = "Yes [ ] No [ ]"
_GONE = "The complaint is gone; the operator has seen it."


def sheet(
    case: Case, remedy: Remedy, role: str, *, trained: bool = False, report: Report | None = None
) -> Document:
    """Return the work sheet of a remedy for a role; with a report, what its session already knows.

    Raises AssistantError where this role may not do the work.
    """
    _refuse(case, remedy, role, trained=trained)
    items = procedure.of_remedy(case, remedy)
    mine = tuple(takewhile(lambda item: may_do(role, item.roles), items))
    known = tuple(_known(report)) if report is not None else ()
    return Document(
        title=f"Work sheet: {talk.sentence(remedy.title)}",
        about=_about(case, remedy, report),
        first=(_head(case, remedy, role), *known),
        sections=filled(
            section("On record before this work", _proof(case, remedy, report)),
            section("Steps", *_steps(case, mine, items[len(mine) :])),
            section("Verification", _verification(case, remedy)),
            section(
                "Signed", Facts((("Done by", _BLANK), ("Date and time", _BLANK), ("Accepted by", _BLANK)))
            ),
        ),
        foot=_foot(case, remedy),
    )


def _refuse(case: Case, remedy: Remedy, role: str, *, trained: bool) -> None:
    titles = case.machine.roles
    if not may_do(role, remedy.by):
        who = roles.whom_to_send(role, remedy)
        raise AssistantError(words.sheet_refused(remedy.title, titles.get(role, role), titles.get(who, who)))
    if roles.needs_training(role, remedy) and not trained:
        raise AssistantError(words.sheet_untrained(remedy.title))


def _about(case: Case, remedy: Remedy, report: Report | None) -> str:
    machine = f"{remedy.ref + ', ' if remedy.ref else ''}{case.machine.profile_title}"
    if report is None:
        return machine
    where = ", ".join(part for part in (report.site, report.unit) if part)
    return f"{machine}. {where or 'No site named'}; session {report.session} of {stamp(report.started)}"


def _head(case: Case, remedy: Remedy, role: str) -> Facts:
    titles = case.machine.roles
    who = ", ".join(titles.get(name, name) for name in remedy.by)
    return facts(
        ("For", talk.role_title(titles, role)),
        ("May be done by", f"{who}{' (operator: only if trained)' if remedy.trained else ''}"),
        ("Takes", f"{remedy.minutes:g} minutes"),
        ("Parts", words.spelled(remedy.parts) or "none"),
        ("Tools", words.spelled(remedy.tools) or "none"),
        ("To isolate", words.spelled(remedy.isolates)),
        (
            "Opens the product path",
            "yes: clean and sanitise, and write it down" if remedy.opens_product_path else "",
        ),
        ("Meanwhile", remedy.serve),
    )


def _known(report: Report) -> Iterator[Block]:
    """Yield what the session knows already: complaint, likely causes, hazards, readings."""
    causes = "; ".join(f"{each.title} ({talk.percent(each.probability)})" for each in report.causes)
    last = {each.quantity: f"{each.title} {each.text}" for each in report.readings}
    yield facts(
        ("Complaint", report.complaint),
        ("Likely causes", causes),
        ("Last readings", "; ".join(last.values())),
        ("Notes", "; ".join(report.notes)),
    )
    yield from (alert_of(hazard) for hazard in report.hazards if hazard.holds)


def _proof(case: Case, remedy: Remedy, report: Report | None) -> Ticks:
    given = {each.check: each for each in report.findings} if report is not None else {}
    checks = (case.check(name) for name in remedy.proof if case.has_check(name))
    return Ticks(
        tuple(
            Tick(
                talk.sentence(check.title),
                True if check.id in given else None,
                note=(given[check.id].text or given[check.id].answer) if check.id in given else "",
            )
            for check in checks
        )
    )


def _steps(case: Case, mine: tuple[Item, ...], rest: tuple[Item, ...]) -> Iterator[Block]:
    """Yield cautions, gates and steps in the order in which they are gone through; `rest` is not for here."""
    warned: dict[str, None] = {}
    intro = ""  # what a gate is passed for, where it is all there is to a step
    for (kind, owner), group in groupby(mine, key=lambda item: (item.kind, item.id.partition("#")[0])):
        if kind == "caution":
            if owner not in warned:
                yield _caution(case, owner)
            warned[owner] = None
        elif kind == "title":
            intro = next((f"{item.step.do} " for item in group if item.step is not None), "")
        else:
            title = f"{intro}Gate: {case.gate(owner).title}" if kind == "gate" else ""
            yield Ticks(tuple(_tick(case, item) for item in group), title)
    if rest:
        who = rest[0].roles[0]
        yield Alert("stop", words.sheet_ends(case.machine.roles.get(who, who)))


def _caution(case: Case, name: str) -> Alert:
    c = case.caution(name)
    return alert_of(Hazard("", c.id, c.ref, c.title, c.do, c.do_not, c.who, stop=False, holds=False))


def _tick(case: Case, item: Item) -> Tick:
    step = item.step
    if step is None:
        return Tick(item.id)
    number = int(item.id.rpartition("#")[2])
    label = f"{number}." if item.kind == "step" else f"{ascii_lowercase[(number - 1) % 26]}."
    return Tick(step.do, None, label, lines=tuple(_under(case, step)))


def _under(case: Case, step: Step) -> Iterator[str]:
    """Yield what stands under a step: its question, its waiting time, the number to read, what if not."""
    if step.wait:
        yield f"Wait {talk.minutes(step.wait)}."
    for quantity, limits in step.reads:
        yield reading_line(case, quantity, limits)
    if step.redo:
        yield f"Out of limits: {step.redo}"
    if step.confirm:
        yield f"{step.confirm} {_YES_NO}"
    for way in step.instead:
        yield f"{way.label}: {way.do}"
    if step.cannot:
        yield f"If not: {step.cannot}"


def reading_line(case: Case, quantity: str, limits: Limits | None) -> str:
    """Return the line on which a number is written, with its limits in both systems."""
    read = case.quantity(quantity)
    return f"{talk.sentence(read.title)}: ________ {read.unit} ({_both(read, limits)})"


def _both(read: Quantity, limits: Limits | None) -> str:
    """Return limits in the quantity's unit and in the other system."""
    if limits is None:
        return "note it down"
    ends = [talk.both(end, read.unit, read.unit) for end in limits if end is not None]
    if len(ends) == 2:  # noqa: PLR2004 - a lower and an upper end
        return " to ".join(ends)
    return f"{'at least' if limits[0] is not None else 'at most'} {ends[0]}" if ends else "note it down"


def _verification(case: Case, remedy: Remedy) -> Ticks:
    return Ticks((*(_verify(case, item) for item in remedy.verify), Tick(_GONE)))


def _verify(case: Case, item: Verification) -> Tick:
    if item.read:
        line = reading_line(case, item.read, item.limits)
        return Tick(item.text or line, lines=(line,) if item.text else ())
    if not item.check or not case.has_check(item.check):
        return Tick(item.text)
    check = case.check(item.check)
    wanted = " or ".join(talk.outcome_label(check, each) for each in item.outcomes)
    return Tick(words.asked_as(check, "technician"), lines=(f"Must be: {wanted}", f"Seen: {_BLANK}"))


def _foot(case: Case, remedy: Remedy) -> str:
    machine = case.machine
    source = next((each.title for each in machine.sources if each.id == remedy.source), "")
    rests = f" Rests on: {source}." if source else ""
    return (
        f"Local codes and licensed practice come before this sheet. Pack {machine.pack} "
        f"{machine.pack_version} ({machine.digest[:8]}), profile {machine.profile}.{rests}"
    )
