"""Remedies and gates as work on a machine: cautions before hazards, gates before opening, a proper end."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from graph.audit.hazards import HAZARDS
from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.audit.hazards import Hazard
    from graph.audit.remark import Remark
    from graph.pack import Knowledge, Remedy, Step

# What a gate is for is told by its own id, title or ref.
_SANITISE = re.compile(r"saniti[sz]|sanitation|gate-san", re.IGNORECASE)
_RETURN = re.compile(r"return[ _]to[ _]service|gate-rts", re.IGNORECASE)
# Parts that are condemned on a guess more often than they fail; common practice, no source.
CONDEMNED = ("sensor", "board")


def procedure_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about the steps of remedies and gates, in file order."""
    for name, remedy in knowledge.remedies.items():
        yield from _gates(knowledge, name, remedy)
        yield from _proof(name, remedy)
        yield from _hazards(knowledge, ("remedies", name), remedy.cautions, remedy.steps)
    for name, gate in knowledge.gates.items():
        yield from _hazards(knowledge, ("gates", name), gate.cautions, gate.steps)


def _gates(knowledge: Knowledge, name: str, remedy: Remedy) -> Iterator[Remark]:
    gates = [step.gate for step in remedy.steps if step.gate is not None]
    if remedy.isolates and not gates:
        isolates = ", ".join(remedy.isolates)
        yield remark("isolates_without_gate", "remedies", name, "isolates", isolates=isolates)
    if remedy.opens_product_path and not any(_is(knowledge, gate, _SANITISE) for gate in gates):
        yield remark("opened_without_sanitising", "remedies", name, "opens_product_path")
    returned = any(_is(knowledge, gate, _RETURN) for gate in gates)
    if not returned and all(item.check is None and item.read is None for item in remedy.verify):
        yield remark("no_proper_end", "remedies", name, "verify")


def _is(knowledge: Knowledge, name: str, purpose: re.Pattern[str]) -> bool:
    gate = knowledge.gates.get(name)
    return purpose.search(f"{name} {gate.title} {gate.ref}" if gate else name) is not None


def _proof(name: str, remedy: Remedy) -> Iterator[Remark]:
    for part in remedy.parts:
        condemned = next((word for word in CONDEMNED if word in part), None)
        if condemned is not None and not remedy.proof:
            yield remark("condemned_without_proof", "remedies", name, "parts", part=part)


def _hazards(
    knowledge: Knowledge, here: tuple[str, str], shown: tuple[str, ...], steps: tuple[Step, ...]
) -> Iterator[Remark]:
    """Yield a remark for each hazard whose caution is not shown before the first step that brings it."""
    cautions, told = list(shown), set()
    for index, step in enumerate(steps):
        cautions.extend((*step.cautions, *of_gate(knowledge, step.gate)))
        for hazard in HAZARDS:
            word = hazard.found(step.do)
            if word and hazard.name not in told and not _met(knowledge, hazard, cautions):
                told.add(hazard.name)
                facts = {"word": word, "hazard": hazard.name, "reason": hazard.reason}
                yield remark("hazard_without_caution", *here, "steps", index, **facts)


def _met(knowledge: Knowledge, hazard: Hazard, cautions: list[str]) -> bool:
    found = (knowledge.cautions[name] for name in cautions if name in knowledge.cautions)
    return any(hazard.met(f"{c.title} {c.do} {c.do_not}") for c in found)


def of_gate(knowledge: Knowledge, name: str | None, path: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return the cautions that passing a gate shows: its steps come before the one that it guards."""
    gate = knowledge.gates.get(name or "")
    if name is None or gate is None or name in path:
        return ()
    deeper = (of_gate(knowledge, step.gate, (*path, name)) for step in gate.steps)
    steps = (caution for step in gate.steps for caution in step.cautions)
    return (*gate.cautions, *steps, *(caution for found in deeper for caution in found))
