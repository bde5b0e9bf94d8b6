"""The handover brief: one screen of 80 columns and 24 lines for whoever goes on.

The rule: every part has its own room, what does not fit is counted ("and 3 more"), and what one part does
not need goes to the others.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rich.cells import cell_len

from assistant import wording as talk
from assistant.engine import complaint, evidence, roles
from assistant.engine.candidates import allowed
from assistant.report import wording as words
from assistant.report.times import stamp
from assistant.visible import visible
from graph.candidates import may_do, open_checks

if TYPE_CHECKING:
    from assistant.engine.state import State
    from assistant.report.model import Found, Report, RuledOut
    from assistant.report.told import Told
    from graph import Case
    from graph.machine import Remedy

WIDTH, HEIGHT = 80, 24
_GET_FIRST = ("Notes", "Ruled out")  # the parts that get spare lines first: access, then reasons
_CUT = "..."
_MOST_CHECKS = 3
_WORTH_SAYING = 0.01  # of a probability, or of bits expected
_SPEAKS = 0.5  # decibans below which an answer tells nothing worth a line


@dataclass(frozen=True, slots=True)
class Line:
    """A text of which `tail` is never cut off: an answer turned round by a cut would read as its opposite."""

    head: str
    tail: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the brief: its label, its texts, and how many lines it may fill at most."""

    label: str
    texts: tuple[str | Line, ...]
    room: int


def brief(told: Told, report: Report) -> str:
    """Return the brief of a session, at most 24 lines of at most 80 columns."""
    parts = _roomy(_parts(told, report))
    return "\n".join(line for part in parts for line in _lines(part))


def _parts(told: Told, report: Report) -> tuple[Part, ...]:
    """Return the parts in their order; their rooms add up to a screen."""
    return (
        Part("", (_head(report),), 3),
        Part("Said", _said(told, report), 2),
        Part("HAZARD", _hazards(report), 3),
        Part("Notes", _notes(report), 2),
        Part("Stands", (_stands(report),), 2),
        Part("Known", _known(report), 4),
        Part("Ruled out", _ruled_out(report), 2),
        Part("Left", _left(report), 3),
        Part("Next can", _only_next(told, report), 3),
    )


def _roomy(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Return the parts with the lines that some do not need given to those that need more."""
    whole = [len(_lines(replace(part, room=HEIGHT))) for part in parts]
    rooms = [min(part.room, need) for part, need in zip(parts, whole, strict=True)]
    for index in sorted(range(len(parts)), key=lambda index: _turn(parts[index].label)):
        rooms[index] += min(whole[index] - rooms[index], HEIGHT - sum(rooms))
    return tuple(replace(part, room=room) for part, room in zip(parts, rooms, strict=True))


def _turn(label: str) -> int:
    """Return at which turn a part gets spare lines."""
    return _GET_FIRST.index(label) if label in _GET_FIRST else len(_GET_FIRST)


def _said(told: Told, report: Report) -> tuple[str | Line, ...]:
    """Return the complaint with what of it was taken back; all of it stands behind what is told now."""
    said = f'"{report.complaint}"' if report.complaint else ""
    if not report.taken_back:
        return (said,)
    if not complaint.withdrawn(told.case, told.end):
        return (Line(said, f" ({words.TAKEN_BACK}: {'; '.join(report.taken_back)})"),)
    return (f"{complaint.standing(told.case, told.end) or words.NOTHING_NOW} ({words.TAKEN_BACK}: {said})",)


def _notes(report: Report) -> tuple[str, ...]:
    """Return what was written down, and the words that nothing was made of: ways in, keys, what to mind."""
    return (*report.notes, *(f'"{each}"' for each in report.not_understood))


def _head(report: Report) -> str:
    where = ", ".join(part for part in (report.site, report.unit) if part) or "No site named"
    head = f"{where}. {report.machine.title}. {stamp(report.ended)}"
    if not report.people:
        return head
    last = report.people[-1]
    return f"{head}. So far: {', '.join(filter(None, (last.name, talk.lower(last.title))))}"


def _hazards(report: Report) -> tuple[str, ...]:
    uncleaned = report.hygiene is not None and not report.hygiene.complete
    held = (each.title for each in report.hazards if each.holds)
    return (*((words.NOT_CLEANED,) if uncleaned else ()), *held)


def _stands(report: Report) -> str:
    between = "; decided: " if report.outcome == "open" else ": "
    decided = f"{between}{report.decided.title}" if report.decided is not None else ""
    done = "; ".join(f"{work.title}, {words.RESULTS[work.result]}" for work in report.work)
    return f"{report.outcome_text}{decided}.{f' Done: {done}.' if done else ''}"


def _known(report: Report) -> tuple[Line, ...]:
    """Return the answers that weigh most, one way or the other, for the leading cause."""
    telling = [each for each in report.findings if abs(each.decibans) >= _SPEAKS] or list(report.findings)
    telling.sort(key=lambda each: -abs(each.decibans))
    return tuple(_fact(each) for each in telling)


def _fact(found: Found) -> Line:
    return Line(f"{words.decibans(found.decibans)} {found.title}", f": {found.text or found.answer}")


def _ruled_out(report: Report) -> tuple[Line, ...]:
    return tuple(_because(each) for each in report.ruled_out)


def _because(each: RuledOut) -> Line:
    """Return why a cause is ruled out: the question may be shortened, its answer may not."""
    question, answer = _parted(each.because)
    return Line(f"{each.title}: {question}", words.ruled_out(f": {answer}" if answer else "", each.decibans))


def _parted(said: str) -> tuple[str, str]:
    """Return what was asked and the answer, of an answer in words; no answer where a symptom is there."""
    at, mark = max((said.rfind(mark), mark) for mark in ("? ", ": "))
    return (said, "") if at < 0 else (said[:at], said[at + len(mark) :])


def _left(report: Report) -> tuple[str, ...]:
    found = [f"{talk.percent(each.probability)} {each.title}" for each in report.causes]
    if report.unknown >= _WORTH_SAYING:
        found.append(f"{talk.percent(report.unknown)} a cause outside the graph")
    return tuple(found)


def _only_next(told: Told, report: Report) -> tuple[str, ...]:
    """Return what the person here may not do and a next one can: the repair, then the best checks."""
    case, state = told.case, told.end
    if report.outcome == "cured":
        return ()
    known = evidence.findings(state)
    belief = case.believe(known)
    remedy = case.remedy(state.remedy or belief.remedies[0][0])
    here = allowed(case, state, remedy)
    role = roles.whom_to_send(state.role, remedy) if not here else _beside(state)
    title = talk.role_title(case.machine.roles, role)
    work = "" if here or not may_do(role, remedy.by) else _work(title, remedy)
    checks = _checks(case, state, role)
    asked = f"{title}: check {'; '.join(checks)}" if checks else ""
    return tuple(text for text in (work, asked) if text)


def _beside(state: State) -> str:
    """Return who comes after the person here, where the repair itself needs nobody else."""
    return "technician" if state.role in {"", *roles.BY_PHONE} else "refrigeration"


def _work(title: str, remedy: Remedy) -> str:
    parts = f" (bring {words.spelled(remedy.parts)})" if remedy.parts else ""
    return f"{title}: {remedy.title}{parts}"


def _checks(case: Case, state: State, role: str) -> tuple[str, ...]:
    """Return the open checks that tell `role` most and that the person here may not do."""
    settled = evidence.last_outcomes(state)
    open_now = open_checks(case.machine, role, settled)
    theirs = [name for name in open_now if not may_do(state.role, case.check(name).roles)]
    ranked = case.rank(evidence.findings(state), theirs, role=role, cured=state.cured, top=_MOST_CHECKS)
    telling = [each for each in ranked if each.bits_remedy >= _WORTH_SAYING]
    return tuple(words.plain_title(case.check(each.check)) for each in telling[:_MOST_CHECKS])


# -- laying out ------------------------------------------------------------------------------------


def _lines(part: Part) -> list[str]:
    """Return the lines of a part, each text from its own line on, within its room."""
    texts = [line for line in map(_shown, part.texts) if line.head.strip()]
    head = f"{part.label:<10}" if part.label else ""
    width = WIDTH - len(head)
    if len(texts) > part.room:
        left_out = len(texts) - part.room + 1
        texts = [*texts[: part.room - 1], Line(f"and {left_out} more")] if part.room else []
    spare = part.room - len(texts)
    lines: list[str] = []
    for text in texts:
        share = min(len(_wrapped(text.head + text.tail, width)), 1 + spare)
        spare -= share - 1
        lines += _fitted(text, share, width)
    return [f"{head if not at else ' ' * len(head)}{line}" for at, line in enumerate(lines)]


def _shown(text: str | Line) -> Line:
    """Return a text on one line, its steering characters made visible."""
    line = text if isinstance(text, Line) else Line(text)
    gap = " " if line.tail[:1].isspace() else ""
    return Line(visible(" ".join(line.head.split())), gap + visible(" ".join(line.tail.split())))


def _fitted(text: Line, most: int, width: int) -> list[str]:
    """Return a text in at most `most` lines; words go from its head before any go from its tail."""
    whole, head = _wrapped(text.head + text.tail, width), text.head
    while text.tail and len(whole) > most and " " in head:
        head = head.rpartition(" ")[0].rstrip(" ,;:")
        whole = _wrapped(f"{head}{_CUT}{text.tail}", width)
    return _cut(whole, most, width)


def _wrapped(text: str, width: int) -> list[str]:
    """Return a text in lines of at most `width` columns; wide letters take two, too long words are cut."""
    lines = textwrap.wrap(text, width, break_on_hyphens=False)
    while any(cell_len(line) > width for line in lines):
        lines = [part for line in lines for part in _halved(line, width)]
    return lines


def _halved(line: str, width: int) -> list[str]:
    """Return a line in two where its letters need more columns than there are."""
    if cell_len(line) <= width:
        return [line]
    most = next(at for at in range(len(line), 0, -1) if cell_len(line[:at]) <= width)
    at = line.rfind(" ", 1, most + 1)
    return [line[:most], line[most:]] if at < 0 else [line[:at], line[at + 1 :]]


def _cut(lines: list[str], most: int, width: int) -> list[str]:
    """Return at most `most` lines, the last one marked where something is left out."""
    if len(lines) <= most:
        return lines
    last = lines[most - 1]
    while cell_len(last) + len(_CUT) > width:
        last = last.rpartition(" ")[0].rstrip() if " " in last else last[: -len(_CUT)]
    return [*lines[: most - 1], f"{last}{_CUT}"]
