"""Elements of a machine by what an author calls them: an instance's id, the id as written, or the ref."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.machine import Machine

KINDS = (
    ("fault", "faults"),
    ("event", "events"),
    ("check", "checks"),
    ("remedy", "remedies"),
    ("component", "components"),
    ("gate", "gates"),
    ("caution", "cautions"),
    ("service", "services"),
    ("source", "sources"),
)


class Element(Protocol):
    """What every element of a machine has."""

    @property
    def id(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Match:
    """An element that answers to a name, and the ids of its other instances."""

    kind: str
    element: Element
    others: tuple[str, ...]


def find(machine: Machine, name: str) -> tuple[Match, ...]:
    """Return what is called `name`: of every kind the first instance, with the ids of the others.

    A component and its check may share an id, so there can be several.
    """
    return tuple(match for kind, field in KINDS for match in _of_kind(machine, kind, field, name))


def _of_kind(machine: Machine, kind: str, field: str, name: str) -> Iterator[Match]:
    groups: dict[str, list[Element]] = {}
    for element in getattr(machine, field):
        base = getattr(element, "base", element.id)
        if name == element.id:
            yield Match(_kind(kind, element), element, ())
        elif name == base or (name and name.casefold() == getattr(element, "ref", "").casefold()):
            groups.setdefault(base, []).append(element)
    for first, *rest in groups.values():
        yield Match(_kind(kind, first), first, tuple(other.id for other in rest))


def _kind(kind: str, element: Element) -> str:
    return "symptom" if getattr(element, "kind", "") == "symptom" else kind


def names(machine: Machine) -> tuple[str, ...]:
    """Return everything that `find` answers to, each once, in order."""
    elements = [element for _, field in KINDS for element in getattr(machine, field)]
    called = ((getattr(e, "base", e.id), e.id, getattr(e, "ref", "")) for e in elements)
    return tuple(dict.fromkeys(name for names in called for name in names if name))
