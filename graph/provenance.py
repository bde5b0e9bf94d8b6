"""Where a pack's figures come from: every source with what rests on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from graph.pack import Knowledge

ORDER = ("published", "common_practice", "estimate")
RESTING = ("faults", "events", "symptoms", "checks", "remedies", "gates", "cautions", "service", "profiles")


@dataclass(frozen=True, slots=True)
class Resting:
    """A source, and the ids of what rests on it by kind, kinds without any left out."""

    id: str
    kind: str
    title: str
    edition: str
    place: str
    note: str
    ids: Mapping[str, tuple[str, ...]]


def sources(knowledge: Knowledge) -> tuple[Resting, ...]:
    """Return every source of a pack: published ones first, then common practice, then estimates."""
    listed = sorted(knowledge.pack.sources.items(), key=lambda pair: ORDER.index(pair[1].kind))
    return tuple(
        Resting(
            id=name,
            kind=source.kind,
            title=source.title,
            edition=source.edition,
            place=source.place,
            note=source.note,
            ids=_resting(knowledge, name),
        )
        for name, source in listed
    )


def _resting(knowledge: Knowledge, source: str) -> dict[str, tuple[str, ...]]:
    found = {
        kind: tuple(name for name, element in getattr(knowledge, kind).items() if element.source == source)
        for kind in RESTING
    }
    return {kind: ids for kind, ids in found.items() if ids}
