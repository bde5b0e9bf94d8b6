"""Regular service in words: what is overdue on a machine, and what falls due next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.sites_wording import days
from assistant.wording.pieces import lower, tell

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.engine.effects import Tell
    from graph.service import Standing


def overdue_service(late: Iterable[Standing]) -> Tell:
    """Return what is overdue, in their order."""
    items = "; ".join(f"{lower(each.item.title)} (by {days(each.over)})" for each in late)
    return tell("service", f"Overdue on this machine: {items}.")


def next_service(known: tuple[Standing, ...]) -> str:
    """Return what is to be done next: everything overdue, else what falls due first; empty if unknown."""
    late = [f"{lower(each.item.title)} is overdue by {days(each.over)}" for each in known if each.over > 0]
    if late:
        return f"Next service: {'; '.join(late)}."
    first = next(iter(known), None)
    if first is None:
        return ""
    when = "is due now" if first.left <= 0 else f"is due in {days(first.left)}"
    return f"Next service: {lower(first.item.title)} {when}."
