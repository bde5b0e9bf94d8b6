"""Who may do what: the one place that compares a person's role with the roles of the work."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.wording import ROLE_NAMES

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from graph.machine import Remedy

# Whoever may do a thing under the second role may do it under the first. A helpdesk agent guides the
# operator; licensed work is covered by nobody but the licensed.
_COVERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "helpdesk": ("operator",),
        "technician": ("operator", "helpdesk"),
        "refrigeration": ("operator", "helpdesk", "technician"),
        "electrician": ("operator",),
        "plumber": ("operator",),
        "gas_supplier": ("operator",),
        "supervisor": ("operator", "helpdesk"),
    }
)
AT_INTAKE = ("operator", "helpdesk", "technician", "refrigeration")
BY_PHONE = ("operator", "helpdesk")


def may(role: str, roles: Collection[str]) -> bool:
    """Return whether somebody in `role` may do what is open to `roles`; nobody may without a role."""
    return bool(role) and (role in roles or any(covered in roles for covered in _COVERS.get(role, ())))


def needs_training(role: str, remedy: Remedy) -> bool:
    """Return whether an operator's hands do this work, and only if trained."""
    return remedy.trained and role in BY_PHONE


def whom_to_send(role: str, remedy: Remedy) -> str:
    """Return the role that should do this remedy, other than the one here where there is a choice."""
    others = (remedy.send, *remedy.by)
    return next((other for other in others if other != role and not may(role, (other,))), remedy.send)


def named(titles: Mapping[str, str], words: str) -> str:
    """Return the role that some words name, by id, title or an everyday name; empty for none."""
    said = words.casefold().replace("_", " ").split()
    known = dict.fromkeys((*AT_INTAKE, *_COVERS, *titles))
    for role in known:
        names = (role.replace("_", " "), titles.get(role, ""), *ROLE_NAMES.get(role, ()))
        if any(_within(name.casefold().split(), said) for name in names):
            return role
    return ""


def _within(part: list[str], whole: list[str]) -> bool:
    """Return whether the words of `part` stand side by side in `whole`."""
    width = len(part)
    return width > 0 and any(whole[i : i + width] == part for i in range(len(whole) - width + 1))


def person_named(titles: Mapping[str, str], words: str, role: str) -> str:
    """Return what is left of some words once the role is taken out: the person's name."""
    names = (role, role.replace("_", " "), titles.get(role, ""), *ROLE_NAMES.get(role, ()))
    parts = words.split()
    for name in sorted(names, key=lambda text: -len(text.split())):
        width = len(name.split())
        for i in range(len(parts) - width + 1):
            if width and [p.casefold() for p in parts[i : i + width]] == name.casefold().split():
                return " ".join((*parts[:i], *parts[i + width :]))
    return " ".join(parts)
