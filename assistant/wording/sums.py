"""What acting and asking cost, in words and in the pack's currency."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from assistant.wording.pieces import lower, percent, tell

if TYPE_CHECKING:
    from assistant.engine.effects import Tell
    from graph.machine import Check, Remedy


def nothing_to_weigh() -> Tell:
    return tell("ignored", "There is nothing to weigh at the moment: no question about the cause is open.")


def act_or_ask(act: float, ask: float, check: Check | None) -> Tell:
    """Return what acting now is expected to cost, and what asking first is."""
    asking = "No question left could change what to do."
    if check is not None and math.isfinite(ask):
        asking = f"Asking first ({lower(check.title).rstrip('?')}): {ask:.0f}."
    return tell("costs", f"Acting now is expected to cost {act:.0f}. {asking}")


def priced(place: int, remedy: Remedy, probability: float, price: float) -> Tell:
    """Return a repair with its chance of being the right one and its price, a visit included if need be."""
    text = f"{place}. {lower(remedy.title)}: {percent(probability)}, costs {price:.0f}"
    return tell("costs", text, remedy.id, remedy.ref)


def in_order(cost: float, likeliest_first: float) -> Tell:
    """Return what trying the repairs in their order comes to, beside the likeliest first."""
    other = f"; the likeliest first: {likeliest_first:.0f}" if likeliest_first > cost + 0.5 else ""
    return tell("costs", f"Tried in this order until one helps, these come to {cost:.0f}{other}.")
