"""Everything that touches one element of a machine, as data: `dossiers(view, name)`."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from graph.dossier.cause import of_component, of_event, of_fault
from graph.dossier.find import find
from graph.dossier.model import Cell, Dossier, Section
from graph.dossier.question import of_check
from graph.dossier.service import of_service
from graph.dossier.work import of_caution, of_gate, of_remedy, of_source

if TYPE_CHECKING:
    from collections.abc import Callable

    from graph.audit.view import View
    from graph.dossier.find import Match

__all__ = ["Cell", "Dossier", "Section", "dossiers"]

_MAKERS = {
    "fault": of_fault,
    "event": of_event,
    "component": of_component,
    "check": of_check,
    "symptom": of_check,
    "remedy": of_remedy,
    "gate": of_gate,
    "caution": of_caution,
    "service": of_service,
    "source": of_source,
}


def dossiers(view: View, name: str) -> tuple[Dossier, ...]:
    """Return a dossier for everything called `name` by id, by id as written or by ref; none if nothing is."""
    return tuple(_made(view, match) for match in find(view.machine, name))


def _made(view: View, match: Match) -> Dossier:
    make = cast("Callable[[View, Match], Dossier]", _MAKERS[match.kind])
    return make(view, match)
