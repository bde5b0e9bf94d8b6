"""Small pieces of sentences: capitals, full stops, numbers and how much of what; rounding happens here."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.engine.effects import Tell
from graph.errors import GraphError
from graph.units import convert

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from graph.machine import Limits, Quantity


def tell(topic: str, text: str, name: str = "", ref: str = "") -> Tell:
    return Tell(topic, text, name, ref)


def sentence(text: str) -> str:
    """Return a text with a capital at its start."""
    return text[:1].upper() + text[1:]


def stop(text: str) -> str:
    """Return a sentence with a full stop, unless it ends in a mark of its own."""
    text = sentence(text.strip())
    return text if text.endswith((".", "?", "!", '"')) else f"{text}."


def lower(text: str) -> str:
    """Return a title as it stands inside a sentence; a short form in capitals stays."""
    short_form = text[:2].isupper() and not text.startswith("A ")
    return text if short_form else text[:1].lower() + text[1:]


def percent(p: float) -> str:
    """Return a probability in whole per cent, never as certainty."""
    if p < 0.01:  # noqa: PLR2004 - one per cent
        return "under 1 %"
    return "over 99 %" if p > 0.99 else f"{p * 100:.0f} %"  # noqa: PLR2004 - all but one


def number(value: float, unit: str) -> str:
    """Return a number with its unit, to two places at most."""
    return f"{round(value, 2):g} {unit}".strip()


_OTHER_SYSTEM = MappingProxyType({"psi": "bar", "bar": "psi", "kPa": "psi", "C": "F", "F": "C"})


def both(value: float, unit: str, own: str) -> str:
    """Return a number with its unit, and in the quantity's own unit or the other system beside it."""
    other = own if unit and unit != own else _OTHER_SYSTEM.get(unit or own, "")
    text = number(value, unit or own)
    try:
        return f"{text} ({number(round(convert(value, unit or own, other), 1), other)})" if other else text
    except GraphError:
        return text


def minutes(value: float) -> str:
    """Return a waiting time."""
    if value < 1:
        return "less than a minute"
    return "about a minute" if round(value) == 1 else f"about {value:.0f} minutes"


def limits_text(quantity: Quantity, limits: Limits | None) -> str:
    """Return limits in the quantity's unit."""
    low, high = limits or (None, None)
    if low is None and high is None:
        return f"any {quantity.title}"
    if low is None:
        return f"at most {number(high or 0.0, quantity.unit)}"
    return (
        f"at least {number(low, quantity.unit)}"
        if high is None
        else f"{low:g} to {number(high, quantity.unit)}"
    )


def role_title(titles: Mapping[str, str], role: str) -> str:
    """Return what a role is called."""
    return sentence(titles.get(role, role.replace("_", " ")))


def whom(titles: Mapping[str, str], role: str, here: str) -> str:
    """Return whom to send; where that is what the person here is too, it is another one."""
    title = role_title(titles, role)
    return f"Another {lower(title)}" if role == here else title


def read_out(role: str, text: str) -> str:
    """Return a sentence as the person here needs it: an agent reads it out to the operator."""
    inner = text.replace('"', "'")
    return f'Read out: "{inner}"' if role == "helpdesk" else text


def spelled(names: Iterable[str]) -> tuple[str, ...]:
    """Return parts or tools in the words in which people ask for them."""
    return tuple(_title(name) for name in names)


def _title(name: str) -> str:
    words = name.replace("_", " ")
    return re.sub(r"\bo ring", "O-ring", re.sub(r"\bco2\b", "CO2", words))
