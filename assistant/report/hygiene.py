"""The cleaning record of the repairs that opened the way of the drink."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.report.model import Hygiene

if TYPE_CHECKING:
    from assistant.report.model import Item, ReadingRow, Work
    from graph import Case

_CLEANING = re.compile(r"saniti[sz]|sanitation", re.IGNORECASE)  # what the pack check calls so


def hygiene_of(case: Case, done: tuple[Work, ...], rows: tuple[ReadingRow, ...]) -> Hygiene | None:
    """Return the cleaning record of the repairs that opened the way of the drink; None where none did."""
    known = {each.id: each for each in case.machine.remedies}
    opened = tuple(
        w for w in done if w.remedy in known and known[w.remedy].opens_product_path and _stepped(w)
    )
    if not opened:
        return None
    items = tuple(item for work in opened for item in work.items if _cleans(item))
    complete = bool(items) and all(item.done for item in items) and all(map(_cleaned, opened))
    strengths = tuple(row for row in rows if row.quantity in _strengths(case, items))
    return Hygiene(tuple(work.title for work in opened), items, strengths, complete)


def _strengths(case: Case, items: tuple[Item, ...]) -> frozenset[str]:
    """Return the quantities that the cleaning steps gone through ask to be read."""
    owners = {item.id.partition("#")[0] for item in items}
    known = ((gate.id, gate.steps) for gate in case.machine.gates)
    steps = (step for name, all_steps in known if name in owners for step in all_steps)
    return frozenset(quantity for step in steps for quantity, _ in step.reads)


def _stepped(work: Work) -> bool:
    return any(item.kind == "step" and item.done for item in work.items)


def _cleaned(work: Work) -> bool:
    """Return whether a repair went through all of its steps, cleaning among them."""
    finished = work.result in {"helped", "for_now", "did_not_help"} or bool(work.verified)
    return finished and any(_cleans(item) for item in work.items)


def _cleans(item: Item) -> bool:
    """Return whether a step belongs to the cleaning gate, or is one about sanitising."""
    if item.kind == "caution":
        return False
    return any(
        _CLEANING.search(text) for text in (item.id, item.gate, item.text if item.kind == "step" else "")
    )
