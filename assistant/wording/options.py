"""Answers that may be picked, and what people type instead of them."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.engine.effects import Option

if TYPE_CHECKING:
    from collections.abc import Mapping

YES_NO = (Option("yes", "Yes"), Option("no", "No"))
NO_ANSWER = (Option("unsure", "Not sure"), Option("cannot", "Can't do that here"))
CONFIRMED = (Option("yes", "Yes"), Option("no", "No"), Option("unsure", "Not sure"))
DONE = (Option("yes", "Done"), Option("no", "Can't do it"), Option("unsure", "Not sure"))
REALLY_DONE = (Option("yes", "Yes, really done"), Option("no", "No, I wait for it"))
TRIED = (
    Option("yes", "Done; now the step again"),
    Option("no", "That does not help either"),
    Option("unsure", "Not sure"),
)
UNDERSTOOD = (Option("yes", "Understood"), Option("no", "Not clear, or can't be kept to"))
SAFE_NOW = (Option("yes", "It is safe now"), Option("no", "Not yet"))
GONE = (
    Option("yes", "Yes, it is gone"),
    Option("no", "No, still there"),
    Option("unsure", "Too early to say"),
)
SECURED = (Option("yes", "Yes, that is done"), Option("no", "No, or not sure"))
NOBODY_YET = Option("no", "Nobody yet")
SKIP = Option("skip", "Skip this")
NONE_OF_THESE = Option("no", "None of these")
OTHER_CAUSE = Option("other", "Something else")
NOTHING_TO_ADD = Option("no", "Nothing to add")
ROLE_NAMES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "operator": ("counter", "staff", "manager", "shift lead"),
        "helpdesk": ("agent", "help desk", "first line"),
        "technician": ("engineer", "fitter", "tech", "mechanic"),
        "refrigeration": ("fridge engineer", "refrigeration engineer"),
        "gas_supplier": ("gas man",),
        "supervisor": ("trainer",),
    }
)
_FIRE = ("fire brigade", "fire service", "fire department", "firefighter", "firefighters", "fire officer")
ENTITLED: Mapping[str, tuple[str, ...]] = MappingProxyType(  # how else people call whom a caution names
    {
        "emergency services": (*_FIRE, "emergency service", "ambulance", "paramedic", "paramedics", "police"),
        "fire service": _FIRE,
        "gas supplier": ("gas man", "gas company", "gas engineer", "gas people", "gas firm"),
        "electrician": ("sparky", "electrical engineer"),
        "technician": ("engineer", "fitter", "tech", "mechanic"),
        "supervisor": ("area manager", "duty manager", "site manager"),
        "water authority": ("water company", "water board", "health inspector"),
    }
)
EVERYDAY: Mapping[str, str] = MappingProxyType(
    {
        "ok": "yes",
        "okay": "yes",
        "done": "yes",
        "did it": "yes",
        "finished": "yes",
        "ready": "yes",
        "y": "yes",
        "n": "no",
        "not sure": "unsure",
        "don't know": "unsure",
        "can't": "cannot",
        "not now": "no",
    }
)
