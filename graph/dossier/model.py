"""The shape of an answer about one element: short facts, and tables of what touches it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

Cell = str | float


@dataclass(frozen=True, slots=True)
class Section:
    """One table: what its rows are, the names of its columns, its rows."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Dossier:
    """Everything the pack says of one element; empty facts and sections are left out."""

    kind: str
    id: str
    title: str
    facts: tuple[tuple[str, Cell], ...]
    sections: tuple[Section, ...]


def dossier(
    kind: str, name: str, title: str, facts: Mapping[str, Cell], sections: tuple[Section, ...] = ()
) -> Dossier:
    """Return a dossier without what is empty."""
    told = tuple((label, value) for label, value in facts.items() if value != "")
    return Dossier(kind, name, title, told, tuple(section for section in sections if section.rows))
