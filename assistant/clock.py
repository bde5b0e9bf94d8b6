"""Times as records write them (ISO 8601 with the zone): how long between two, and what the clock says later.

Nothing here reads a clock: whoever has one hands its time in.
"""

from __future__ import annotations

from datetime import datetime, timedelta


def minutes_between(earlier: str, later: str) -> float | None:
    """Return the minutes from one time to another; None where either is no time."""
    start, end = _time(earlier), _time(later)
    if start is None or end is None or (start.tzinfo is None) != (end.tzinfo is None):
        return None
    return (end - start).total_seconds() / 60.0


def clock_after(at: str, minutes: float) -> str:
    """Return what the clock on the wall says so many minutes after `at`, with its zone; empty for no time."""
    start = _time(at)
    if start is None:
        return ""
    try:
        then = start + timedelta(minutes=minutes)
    except OverflowError:
        return ""
    day = " tomorrow" if then.date() > start.date() else ""
    zone = f" ({then.tzname()})" if then.tzinfo is not None else ""
    return f"{then:%H:%M}{day}{zone}"


def _time(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        return None
