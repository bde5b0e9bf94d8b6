"""Answers that may be picked, and what people type instead of them."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.engine.effects import Option

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.engine.effects import Ask

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
GO_ON_OR_CLOSE = (Option("yes", "Yes, go on"), Option("no", "No, close with that noted"))
UNDERSTOOD = (Option("yes", "Understood"), Option("no", "Not clear, or can't be kept to"))
SAFE_NOW = (Option("yes", "It is safe now"), Option("no", "Not yet"))
GONE = (
    Option("yes", "Yes, it is good again"),
    Option("no", "No, still the same"),
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
        "operator": (
            *("counter", "staff", "manager", "shift lead", "kiosk", "till", "usher", "team leader"),
            *("duty manager", "shift leader", "front of house", "cashier", "server"),
        ),
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
        "y": "yes",
        "n": "no",
        "not sure": "unsure",
        "don't know": "unsure",
        "can't": "cannot",
        "not now": "no",
    }
)
# What says that something was done, or agrees to do it, and judges nothing.
_DONE = frozenset(
    ("ok", "okay", "done", "all done", "did it", "finished", "ready", "sorted", "got it", "ok got it")
)
_JUDGED = frozenset(("check", "symptom", "verification"))
_CONSENTS = frozenset(
    ("role", "secured", "instead", "early")
)  # other things to confirm are judged, or doubts
_DEED = re.compile(r"(?:is|are|has|have|was|were)\b", re.IGNORECASE)
_PARTICIPLES: Mapping[str, str] = MappingProxyType(  # those that do not end in -ed, and the word for the deed
    {"shut": "shut", "told": "tell", "bled": "bleed", "written": "write", "thrown": "throw", "put": "put"}
    | {word: word for word in ("off", "on", "open", "out", "set")}
)
_ALIKE = 4  # letters that a deed and its participle share


def everyday(word: str, ask: Ask | None) -> str:
    """Return yes, no, unsure or cannot for an everyday word in reply to a question, empty for none."""
    if word in _DONE:
        return "yes" if ask is not None and done_will_do(ask) else ""
    return EVERYDAY.get(word, "")


def done_will_do(ask: Ask) -> bool:
    """Return whether a bare "done" or "ok" answers a question: one for a deed or consent, no judgement."""
    if ask.about in _JUDGED or (ask.about == "confirm" and ask.id not in _CONSENTS):
        return False
    label = next((option.label for option in ask.options if option.id == "yes"), "")
    return ask.about not in {"gate", "step"} or "done" in label.casefold() or _asks_for_deed(ask.text)


def _asks_for_deed(text: str) -> bool:
    """Return whether a step asks if it was done: "Shut the water. Is it shut?", but not "Is it dry?"."""
    sentences = re.split(r"(?<=[.!?])\s+", text.strip())
    asks = next((each for each in reversed(sentences) if each.endswith("?")), "")
    told = re.findall(r"[a-z]+", text.casefold().replace(asks.casefold(), " "))
    words = re.findall(r"[a-z]+", asks.casefold())
    return bool(_DEED.match(asks)) and any(_is_deed(word, told) for word in words)


def _is_deed(word: str, told: list[str]) -> bool:
    """Return whether a word says that something was done that was told to be done."""
    if word in _PARTICIPLES:
        return _PARTICIPLES[word] in told
    return word.endswith("ed") and any(each[:_ALIKE] == word[:_ALIKE] for each in told)
