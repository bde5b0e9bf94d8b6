"""Earlier session records for tests of what they say of the next session."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from assistant.engine.effects import Ask, Closed
from assistant.engine.events import Asked, Began
from assistant.ledger import Ledger
from assistant.record import Header

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def keep(
    folder,
    days,
    *,
    site="Westhaven",
    unit="left",
    outcome="cured",
    cause="",
    confirmed="",
    continues="",
    started="",
    entries=(),
):
    """Write the record of a session that began `days` days before NOW; return its path."""
    at = NOW - timedelta(days=days)
    began = started or at.isoformat()
    path = folder / f"{at:%Y-%m-%d-%H%M%S}-{len(list(folder.glob('*')))}.jsonl"
    header = Header("0", "frozen_drinks", "1", "d", "three_barrel", began)
    last = Closed(outcome, cause, "", "") if outcome else Ask("check", "x", "", "?", ())
    told = entries or ((Began(site=site, unit=unit, role="operator"), ()), (Asked("note", "x"), (last,)))
    ledger = Ledger.create(path, replace(header, cause=confirmed, continues=continues))
    for event, shown in told:
        ledger.take(at.isoformat(), event)
        ledger.keep(tuple(shown))
    ledger.close()
    return path
