"""Small pieces that several sections of a paper share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.report.document import Alert

if TYPE_CHECKING:
    from assistant.report.document import Tone
    from assistant.report.model import Found, Hazard, Report


def alert_of(hazard: Hazard) -> Alert:
    """Return a caution as a box."""
    rows = (("Do", hazard.do), ("Do not", hazard.do_not), ("Who", hazard.who))
    tone: Tone = "stop" if hazard.stop else "caution"
    return Alert(tone, hazard.title, tuple(row for row in rows if row[1]))


def ref(name: str) -> str:
    """Return a ref before a title, nothing where there is none."""
    return f"{name} " if name else ""


def by_whom(report: Report, found: Found) -> str:
    """Return the role of whoever answered, with the name where it is known."""
    title = next((each.title for each in report.people if each.role == found.role), found.role)
    return f"{title} ({found.person})" if found.person else title
