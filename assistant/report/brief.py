"""The handover brief: one screen of 80 columns and 24 lines for whoever goes on.

The rule: every part has its own room, what does not fit is counted ("and 3 more"), hazards stand first.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.cells import cell_len, set_cell_size

from assistant import wording as talk
from assistant.engine import evidence, roles
from assistant.engine.candidates import allowed
from assistant.report import wording as words
from assistant.report.times import stamp
from assistant.visible import visible
from graph.candidates import may_do, open_checks

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.engine.state import State
    from assistant.report.model import Found, Report
    from assistant.report.told import Told
    from graph import Case
    from graph.machine import Remedy

WIDTH, HEIGHT = 80, 24
_MOST_CHECKS = 3
_WORTH_SAYING = 0.01  # of a probability, or of bits expected
_SPEAKS = 0.5  # decibans below which an answer tells nothing worth a line


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the brief: its label, its texts, and how many lines it may fill at most."""

    label: str
    texts: tuple[str, ...]
    room: int


def brief(told: Told, report: Report) -> str:
    """Return the brief of a session, at most 24 lines of at most 80 columns."""
    lines = [line for part in _parts(told, report) for line in _lines(part)]
    return "\n".join(lines[:HEIGHT])


def _parts(told: Told, report: Report) -> tuple[Part, ...]:
    """Return the parts in their order; their rooms add up to no more than a screen."""
    return (
        Part("", (_head(report),), 2),
        Part("Said", (f'"{report.complaint}"' if report.complaint else "",), 2),
        Part("HAZARD", _hazards(report), 3),
        Part("Stands", (_stands(report),), 2),
        Part("Known", _known(report), 5),
        Part("Ruled out", _ruled_out(report), 3),
        Part("Left", _left(report), 3),
        Part("Only next", _only_next(told), 4),
    )


def _head(report: Report) -> str:
    where = ", ".join(part for part in (report.site, report.unit) if part) or "No site named"
    return f"{where}. {report.machine.title}. {stamp(report.ended)}"


def _hazards(report: Report) -> tuple[str, ...]:
    return tuple(each.title for each in report.hazards if each.holds)


def _stands(report: Report) -> str:
    decided = f": {report.decided.title}" if report.decided is not None else ""
    done = "; ".join(f"{work.title}, {words.RESULTS[work.result]}" for work in report.work)
    return f"{report.outcome_text}{decided}.{f' Done: {done}.' if done else ''}"


def _known(report: Report) -> tuple[str, ...]:
    """Return the answers that weigh most, one way or the other, for the leading cause."""
    telling = [each for each in report.findings if abs(each.decibans) >= _SPEAKS]
    telling.sort(key=lambda each: -abs(each.decibans))
    return tuple(_fact(each) for each in telling)


def _fact(found: Found) -> str:
    said = f"{found.text}, {found.answer}" if found.text else found.answer
    return f"{words.decibans(found.decibans)} {found.title}: {said}"


def _ruled_out(report: Report) -> tuple[str, ...]:
    return tuple(f"{each.title}: {words.ruled_out(each.because, each.decibans)}" for each in report.ruled_out)


def _left(report: Report) -> tuple[str, ...]:
    found = [f"{talk.percent(each.probability)} {each.title}" for each in report.causes]
    if report.unknown >= _WORTH_SAYING:
        found.append(f"{talk.percent(report.unknown)} a cause outside the graph")
    return tuple(found)


def _only_next(told: Told) -> tuple[str, ...]:
    """Return what the person here may not do and the next one may: the repair, then the best checks."""
    case, state = told.case, told.end
    known = evidence.findings(state)
    belief = case.believe(known)
    remedy = case.remedy(state.remedy or belief.remedies[0][0])
    here = allowed(state, remedy)
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
    settled = {answer.finding.check: answer.outcome for answer in state.answers}
    open_now = open_checks(case.machine, role, settled)
    theirs = [name for name in open_now if not may_do(state.role, case.check(name).roles)]
    ranked = case.rank(evidence.findings(state), theirs, role=role, cured=state.cured, top=_MOST_CHECKS)
    telling = [each for each in ranked if each.bits_remedy >= _WORTH_SAYING]
    return tuple(case.check(each.check).title.rstrip("?") for each in telling[:_MOST_CHECKS])


# -- laying out ------------------------------------------------------------------------------------


def _lines(part: Part) -> Iterable[str]:
    """Yield the lines of a part, each text from its own line on, within its room."""
    texts = [visible(" ".join(text.split())) for text in part.texts if text.strip()]
    if not texts:
        return
    head = f"{part.label:<10}" if part.label else ""
    blank = " " * len(head)
    lines: list[str] = []
    for index, text in enumerate(texts):
        room = part.room - len(lines)
        rest = len(texts) - index - 1
        if room <= 0:
            lines[-1] = _with_more(lines[-1], rest + 1)
            break
        wrapped = _wrapped(text, WIDTH - len(head))
        share = room if not rest else max(1, min(len(wrapped), room - min(rest, room - 1)))
        lines += [
            (head if not lines and not at else blank) + line for at, line in enumerate(_cut(wrapped, share))
        ]
    yield from lines


def _wrapped(text: str, width: int) -> list[str]:
    """Return a text in lines of at most `width` columns; words that are too long are cut."""
    narrow = textwrap.wrap(text, width, break_on_hyphens=False)
    return [line if cell_len(line) <= width else set_cell_size(line, width).rstrip() for line in narrow]


def _cut(lines: list[str], most: int) -> list[str]:
    """Return at most `most` lines, the last one marked where something is left out."""
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], _marked(lines[most - 1], "...")]


def _with_more(line: str, count: int) -> str:
    return _marked(line, f" ... and {count} more")


def _marked(line: str, mark: str) -> str:
    """Return a line that ends in a mark, within the width of the screen."""
    while cell_len(line) + len(mark) > WIDTH - 10 and " " in line.strip():
        line = line.rpartition(" ")[0].rstrip()
    return f"{line}{mark}"
