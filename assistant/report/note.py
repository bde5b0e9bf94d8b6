"""The helpdesk note: at most 600 characters of plain text, to paste into any ticket system.

The rule: the most important first, nothing cut inside a word, and hazards always get their room.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.report import wording as words
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from assistant.report.model import ReadingRow, Report

LONGEST = 600  # characters
_HAZARD_ROOM = 140  # characters kept free for hazards, where there are any
_MOST_READINGS = 4
_CUT = "..."


def note(report: Report) -> str:
    """Return the note of a session, one statement a line."""
    hazards = fitted(_hazards(report), _HAZARD_ROOM)
    room = LONGEST - (len(hazards) + 1 if hazards else 0)
    lines: list[str] = []
    for text in _statements(report):
        left = room - sum(len(line) + 1 for line in lines)
        line = fitted(text, left)
        if line:
            lines.append(line)
    return "\n".join((*lines, hazards) if hazards else lines)


def fitted(text: str, room: int) -> str:
    """Return a text in at most `room` characters, cut between words; empty where no word fits."""
    line = visible(" ".join(text.split()))
    if len(line) <= room:
        return line
    kept = ""
    for word in line.split(" "):
        longer = f"{kept} {word}" if kept else word
        if len(longer) + len(_CUT) > room:
            break
        kept = longer
    return f"{kept.rstrip(' ,;:.(')}{_CUT}" if kept else ""


def _statements(report: Report) -> Iterator[str]:
    """Yield what the note says, the most important first; empty texts are left out by `fitted`."""
    yield _outcome(report)
    yield _cause(report)
    yield _uncleaned(report)
    yield _readings(report)
    yield _done(report)
    yield _sent(report)
    yield _cleaned(report)
    yield f"Next: {report.next_contact}" if report.next_contact else ""
    yield _said(report)
    yield f"Notes: {'; '.join(report.notes)}" if report.notes else ""
    yield f"Record: {report.session}"


def _said(report: Report) -> str:
    """Return the complaint, what of it was taken back before it, since an end may be cut off."""
    back = f" ({words.TAKEN_BACK}: {'; '.join(report.taken_back)})" if report.taken_back else ""
    return f'Said{back}: "{report.complaint}"' if report.complaint else ""


def _outcome(report: Report) -> str:
    decided = report.decided
    ended = report.outcome_text
    if decided is None or report.outcome in {"cured", "cured_for_now"}:
        return f"{ended}."
    who = f" Send: {decided.send}, {decided.urgency}." if decided.urgency else ""
    return f"{ended}: {decided.title}.{who}"


def _cause(report: Report) -> str:
    cause = report.cause
    if not cause.id:
        return ""
    if cause.confirmed:
        return f"Cause, as found: {cause.title}."
    second = next((each for each in report.causes if each.id != cause.id), None)
    more = f"; second: {second.title} ({talk.percent(second.probability)})" if second is not None else ""
    return f"Most likely: {cause.title} ({talk.percent(cause.probability)}){more}."


def _readings(report: Report) -> str:
    """Return the readings that matter most: those out of limits, then those that weighed most."""
    cleaning = {row.quantity for row in report.hygiene.readings} if report.hygiene is not None else set()
    names = dict.fromkeys(each.quantity for each in report.readings if each.quantity not in cleaning)
    pairs = [[each for each in report.readings if each.quantity == name] for name in names]
    weights = {each.at: abs(each.decibans) for each in report.findings}
    pairs.sort(key=lambda rows: _unimportance(rows, weights))
    shown = "; ".join(_before_after(rows) for rows in pairs[:_MOST_READINGS])
    return f"Readings: {shown}." if shown else ""


def _unimportance(rows: list[ReadingRow], weights: Mapping[str, float]) -> tuple[bool, float]:
    inside = all(row.within is not False for row in rows)
    return inside, -max(weights.get(row.at, 0.0) for row in rows)


def _before_after(rows: list[ReadingRow]) -> str:
    before = next((each for each in reversed(rows) if each.phase == "before"), None)
    after = next((each for each in reversed(rows) if each.phase != "before"), None)
    values = [each.text for each in (before, after) if each is not None]
    return f"{rows[-1].title} {', then '.join(values)}"


def _done(report: Report) -> str:
    done = "; ".join(f"{work.title} ({words.RESULTS[work.result]})" for work in report.work)
    return f"Done: {done}." if done else ""


def _sent(report: Report) -> str:
    decided = report.decided
    if report.parts_used is not None:
        return f"Parts used: {words.parts(report.parts_used)}."
    parts = decided.parts if decided is not None and report.outcome != "cured" else ()
    return f"Bring: {words.spelled(parts)}." if parts else ""


def _uncleaned(report: Report) -> str:
    opened = report.hygiene is not None and not report.hygiene.complete
    return f"{words.NOT_CLEANED}." if opened else ""


def _cleaned(report: Report) -> str:
    """Return with what the way of the drink was sanitised, the last reading of it."""
    hygiene = report.hygiene
    if hygiene is None or not hygiene.complete:
        return ""
    with_what = "".join(f": {row.title} {row.text}" for row in hygiene.readings[-1:])
    return f"Cleaned and sanitised{with_what}."


def _hazards(report: Report) -> str:
    holding = [each.title for each in report.hazards if each.holds]
    return f"HAZARD: {'; '.join(holding)}." if holding else ""
