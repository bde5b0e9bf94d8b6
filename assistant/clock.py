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


def clock_after(at: str, minutes: float, zone: str = "") -> str:
    """Return what the clock on the wall says so many minutes after `at`; empty for no time.

    `zone` is a time of the zone in which the clock hangs; without it that is the zone of `at`. Where the
    two differ, whoever reads it sits elsewhere, so it says whose clock that is.
    """
    start, wall = _time(at), _time(zone)
    if start is None:
        return ""
    away = (
        wall is not None and None not in (wall.tzinfo, start.tzinfo) and wall.utcoffset() != start.utcoffset()
    )
    try:
        start = start.astimezone(wall.tzinfo) if wall is not None and away else start
        then = start + timedelta(minutes=minutes)
    except OverflowError:
        return ""
    day = " tomorrow" if then.date() > start.date() else ""
    return f"{then:%H:%M}{day}{' by the clock at the site' if away else ''}"


def _time(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        return None
