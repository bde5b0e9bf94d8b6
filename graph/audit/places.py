"""Places that have a caution of their own: it is shown before anything that is done there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.audit.procedures import of_gate
from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from graph.audit.remark import Remark
    from graph.pack import Knowledge, Remedy


def place_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about checks and remedies that send people to a place without its caution.

    A safety question is asked from afar. A caution that bars the place's own says more than that one does.
    """
    for name, check in knowledge.checks.items():
        if check.phase != "safety":
            gates = (each for gate in check.gates for each in of_gate(knowledge, gate))
            yield from _missing(knowledge, ("checks", name), {check.place}, (*check.cautions, *gates))
    for name, remedy in knowledge.remedies.items():
        places = {
            knowledge.components[fault.component].place
            for fault in knowledge.faults.values()
            if fault.remedy == name and fault.component in knowledge.components
        }
        yield from _missing(knowledge, ("remedies", name), places, _at_first(knowledge, remedy))


def _at_first(knowledge: Knowledge, remedy: Remedy) -> tuple[str, ...]:
    """Return the cautions that are shown before anything of a remedy is done."""
    first = remedy.steps[0]
    return (*remedy.cautions, *first.cautions, *of_gate(knowledge, first.gate))


def _missing(
    knowledge: Knowledge, here: tuple[str, str], places: set[str], shown: Iterable[str]
) -> Iterator[Remark]:
    names = tuple(shown)
    known = (knowledge.cautions[name] for name in names if name in knowledge.cautions)
    barred = {bar for caution in known for bar in caution.bars}
    for name, place in knowledge.pack.places.items():
        if name in places and place.caution and place.caution not in {*names, *barred}:
            yield remark("place_without_caution", *here, place=place.title, caution=place.caution)
