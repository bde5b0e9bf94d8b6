"""The sections of a report on what was decided and done: decisions, repairs step by step, cleaning."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.report import wording as words
from assistant.report.document import Facts, Section, Table, Text, Tick, Ticks, facts, section
from assistant.report.pieces import ref
from assistant.report.times import short

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from assistant.report.document import Block
    from assistant.report.model import Decision, Item, Report, Work


def work_sections(report: Report) -> tuple[Section, ...]:
    """Return the sections on what was decided and done."""
    return (
        section("Decision", *_decisions(report)),
        _made_safe(report),
        *(_work(report, number, work) for number, work in enumerate(report.work, start=1)),
        section("Hygiene record", *_hygiene(report)),
    )


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
    return section("Made safe for checks", *_ticks(report, report.made_safe))


def _ticks(report: Report, items: Iterable[Item]) -> Iterator[Ticks]:
    """Yield lists of things gone through, gate by gate, in their order."""
    for (kind, gate), group in groupby(items, key=lambda item: (item.kind, item.gate)):
        title = {"gate": f"Gate: {gate}", "caution": "Cautions acknowledged", "instead": "Instead"}.get(
            kind, "Steps"
        )
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
        ("Parts planned", words.spelled(work.parts)),
        ("Tools", words.spelled(work.tools)),
    )
    proved = tuple(
        (short(each.at, report.started), each.text, each.answer, each.wanted or "-", _passed(each.passed))
        for each in work.verified
    )
    table = Table(("Time", "Verification", "Seen", "Wanted", "Verdict"), proved)
    title = f"Work {number}: {ref(work.ref)}{work.title}"
    return section(title, head, *_ticks(report, work.items), table)


def _passed(passed: bool | None) -> str:  # noqa: FBT001 -- the fact itself
    if passed is None:
        return "unproved"
    return "passed" if passed else "FAILED"


def _hygiene(report: Report) -> Iterator[Block]:
    if report.hygiene is None:
        return
    yield Text(words.hygiene(report.hygiene.complete))
    strengths = tuple(
        (talk.sentence(row.title), words.strength(row, row.source)) for row in report.hygiene.readings
    )
    items = report.hygiene.items
    times = tuple(short(each.at, report.started) for each in (items[0], items[-1])) if items else ("", "")
    steps = ("Steps, as ticked above", words.steps_done(items, *times))
    yield Facts((("Opened by", "; ".join(report.hygiene.opened_by)), *strengths, steps))
    yield Ticks(tuple(_tick(report, item) for item in items if not item.done), words.NOT_DONE)
