"""The cautions of a session, and which of them hold for whoever comes next."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.engine.effects import Tell, Warn
from assistant.report.model import Hazard

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from assistant.report.exchanges import Exchange
    from graph import Case
    from graph.machine import Caution


def uncleared(kept: Iterable[Exchange]) -> tuple[str, ...]:
    """Return the cautions that hold by the record: dangers, and safety questions without a clear answer."""
    found = dict[str, None]()
    for exchange in kept:
        asked = exchange.ask is not None and exchange.ask.about == "check"
        noted = asked and any(isinstance(each, Tell) and each.topic == "safety" for each in exchange.shown)
        found |= {e.id: None for e in exchange.shown if isinstance(e, Warn) and (e.stop or noted)}
    return tuple(found)


def hazards_of(
    case: Case, every: Iterable[Exchange], holding: tuple[str, ...], safe_by: Mapping[str, str]
) -> tuple[Hazard, ...]:
    """Return the cautions given, each once, at the first time; those that hold at the end are marked.

    `safe_by` says who called a danger over, by the id of its caution.
    """
    found: dict[str, Hazard] = {}
    for exchange in every:
        for warn in exchange.shown:
            if isinstance(warn, Warn):
                before = found.get(warn.id)
                at, stop = (before.at, before.stop) if before is not None else (exchange.at, False)
                found[warn.id] = hazard(warn, at, stop=stop or warn.stop, holds=warn.id in holding)
    silent = (case.caution(name) for name in dict.fromkeys(holding) if name not in found)
    noted = (*found.values(), *(hazard(caution, "", stop=False, holds=True) for caution in silent))
    return tuple(replace(each, safe_by=safe_by.get(each.id, "")) for each in noted)


def hazard(of: Warn | Caution, at: str, *, stop: bool, holds: bool) -> Hazard:
    return Hazard(at, of.id, of.ref, of.title, of.do, of.do_not, of.who, stop, holds)
