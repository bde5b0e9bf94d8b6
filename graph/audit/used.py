"""What was written and then used by nothing, and what rests on no stated source."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.audit.remark import Fact, Remark
    from graph.pack import Knowledge, Step

SOURCED = ("faults", "checks", "symptoms", "remedies", "cautions")
EXAMPLES = 5  # ids that a sentence about many of them names


def use_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about remedies, gates, cautions and sources that nothing uses, and default sources."""
    meant = {fault.remedy for fault in knowledge.faults.values()}
    for name in knowledge.remedies:
        if name not in meant:
            yield remark("remedy_unused", "remedies", name)
    gates, cautions = _gates(knowledge), _cautions(knowledge)
    for name in knowledge.gates:
        if name not in gates:
            yield remark("gate_unused", "gates", name)
    for name in knowledge.cautions:
        if name not in cautions:
            yield remark("caution_unused", "cautions", name)
    yield from _sources(knowledge)


def _steps(knowledge: Knowledge) -> Iterator[Step]:
    for remedy in knowledge.remedies.values():
        yield from remedy.steps
    for gate in knowledge.gates.values():
        yield from gate.steps


def _gates(knowledge: Knowledge) -> set[str]:
    asked = {gate for check in knowledge.checks.values() for gate in check.gates}
    return asked | {step.gate for step in _steps(knowledge) if step.gate is not None}


def _cautions(knowledge: Knowledge) -> set[str]:
    shown = {caution for step in _steps(knowledge) for caution in step.cautions}
    for kind in (knowledge.checks, knowledge.remedies, knowledge.gates):
        shown.update(name for element in kind.values() for name in element.cautions)
    return shown | dangers(knowledge)


def dangers(knowledge: Knowledge) -> set[str]:
    """Return the cautions that stop everything where they are met."""
    named = [symptom.danger for symptom in knowledge.symptoms.values()]
    named += [o.danger for check in knowledge.checks.values() for o in check.outcomes.values()]
    return {danger for danger in named if danger is not None}


def _sources(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield one remark a chapter and kind, with the elements whose author named no source."""
    silent: dict[tuple[str, str], list[str]] = defaultdict(list)
    used = set()
    for kind in (*SOURCED, "events", "gates", "service"):
        for name, element in getattr(knowledge, kind).items():
            used.add(element.source)
            if kind in SOURCED and "source" not in element.model_fields_set:
                silent[knowledge.chapter_of[name], kind].append(name)
    used |= {profile.source for profile in knowledge.profiles.values()}
    for (chapter, kind), names in silent.items():
        some = ", ".join(names[:EXAMPLES]) + (", ..." if len(names) > EXAMPLES else "")
        facts: dict[str, Fact] = {"chapter": chapter, "kind": kind, "count": len(names), "some": some}
        yield remark("source_not_named", kind, names[0], **facts).weighing(len(names))
    used |= {accept.source for step in _steps(knowledge) for accept in step.either.values()}
    for name in knowledge.pack.sources:
        if name not in used:
            yield remark("source_unused", "sources", name)
