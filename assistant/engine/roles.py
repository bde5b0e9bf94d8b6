"""Roles: what they are called, who needs training, whom to send; `graph.candidates` says who may do what."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant import wording
from graph.candidates import REACH, may_do

if TYPE_CHECKING:
    from collections.abc import Mapping

    from graph.machine import Remedy

AT_INTAKE = ("operator", "helpdesk", "technician", "refrigeration")
BY_PHONE = ("operator", "helpdesk")
_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)?")


def needs_training(role: str, remedy: Remedy) -> bool:
    """Return whether an operator's hands do this work, and only if trained."""
    return remedy.trained and role in BY_PHONE


def whom_to_send(role: str, remedy: Remedy) -> str:
    """Return the role that should do this remedy, other than the one here where there is a choice."""
    others = (remedy.send, *remedy.by)
    return next((other for other in others if other != role and not may_do(role, (other,))), remedy.send)


def named(titles: Mapping[str, str], words: str) -> str:
    """Return the role that some words name, by id, title or an everyday name; empty for none.

    Of several the one with the longest name: a "fridge engineer" is no "engineer".
    """
    said = _WORD.findall(words.casefold().replace("_", " "))
    known = dict.fromkeys((*AT_INTAKE, *REACH, *titles))
    found = {
        role: max(
            (len(name) for name in _names(titles, role) if _within(name.casefold().split(), said)), default=0
        )
        for role in known
    }
    best = max(found, key=lambda role: found[role])
    return best if found[best] else ""


def _names(titles: Mapping[str, str], role: str) -> tuple[str, ...]:
    return (role.replace("_", " "), titles.get(role, ""), *wording.ROLE_NAMES.get(role, ()))


def _within(part: list[str], whole: list[str]) -> bool:
    """Return whether the words of `part` stand side by side in `whole`."""
    width = len(part)
    return width > 0 and any(whole[i : i + width] == part for i in range(len(whole) - width + 1))


def person_named(titles: Mapping[str, str], words: str, role: str) -> str:
    """Return what is left of some words once the role is taken out: the person's name."""
    names = (role, *_names(titles, role))
    parts = words.split()
    for name in sorted(names, key=lambda text: -len(text.split())):
        width = len(name.split())
        for i in range(len(parts) - width + 1):
            if width and [p.casefold() for p in parts[i : i + width]] == name.casefold().split():
                return " ".join((*parts[:i], *parts[i + width :]))
    return " ".join(parts)
