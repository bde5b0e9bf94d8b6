"""What an author asks of a pack: `audit_texts(files) -> Audit`.

The rules stand in the modules beside this one, each yielding remarks as data; `wording` says how grave
each is and how it reads. A pack whose form is broken is not looked at further, and one whose names
lead nowhere is not expanded.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from graph.audit.apart import apart_remarks
from graph.audit.asking import asking_remarks
from graph.audit.confusable import confusion_remarks
from graph.audit.numbers import number_remarks
from graph.audit.phrases import phrase_remarks
from graph.audit.places import place_remarks
from graph.audit.procedures import procedure_remarks
from graph.audit.references import reference_remarks
from graph.audit.remark import Remark, remark
from graph.audit.rows import row_remarks
from graph.audit.tree import idle_events, tree_remarks
from graph.audit.used import use_remarks
from graph.audit.view import View, view_machine
from graph.audit.wording import ERROR, RULES
from graph.errors import GraphError, PackInvalid, PackMissing, Problem
from graph.expand import counts, expand
from graph.load import load_texts, marks

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from graph.load import Marks
    from graph.machine import Machine
    from graph.pack import Knowledge

__all__ = ["KINDS", "Audit", "Expanded", "Told", "audit_texts"]

KINDS = ("components", "faults", "events", "symptoms", "checks", "remedies", "gates", "cautions")


@dataclass(frozen=True, slots=True)
class Told:
    """One remark in words, with its place in the files."""

    rule: str
    level: str
    heading: str
    what: str
    remedy: str
    where: str
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class Expanded:
    """What one profile makes of the pack: elements by kind, and the bound on what truncation leaves out."""

    profile: str
    counts: Mapping[str, int]
    tail_bound: float


@dataclass(frozen=True, slots=True)
class Audit:
    """The result: counts before and after expansion, and everything to be said, worst first."""

    pack: str
    version: str
    written: Mapping[str, int]
    machines: tuple[Expanded, ...]
    told: tuple[Told, ...]

    @property
    def errors(self) -> tuple[Told, ...]:
        """Return what makes the pack unusable."""
        return tuple(told for told in self.told if told.level == ERROR)

    @property
    def warnings(self) -> tuple[Told, ...]:
        """Return what an author should look at."""
        return tuple(told for told in self.told if told.level != ERROR)


def audit_texts(files: Mapping[str, str], profiles: Sequence[str] = ()) -> Audit:
    """Return the audit of a pack's texts by file name, on all its profiles or on `profiles`.

    Raises PackMissing for a profile that the pack does not have; whatever is wrong with the pack
    itself is part of the result.
    """
    try:
        knowledge = load_texts(files)
    except PackInvalid as error:
        return Audit("", "", {}, (), tuple(_of_problem(problem) for problem in error.problems))
    for name in profiles:
        if name not in knowledge.profiles:
            known = ", ".join(knowledge.profiles)
            raise PackMissing(f'This pack has no machine profile "{name}"; it has: {known}.')
    remarks, machines = _looked_at(knowledge, profiles or tuple(knowledge.profiles))
    head = knowledge.pack
    return Audit(head.id, head.version, counts(knowledge), machines, _told(remarks, marks(files)))


def _of_problem(problem: Problem) -> Told:
    """Return a problem of the loader as it is told here."""
    rule = RULES["invalid"]
    return Told(
        "invalid",
        rule.level,
        rule.heading,
        problem.what,
        problem.remedy,
        problem.path,
        problem.file,
        problem.line,
    )


def _looked_at(knowledge: Knowledge, profiles: Sequence[str]) -> tuple[list[Remark], tuple[Expanded, ...]]:
    """Return all remarks, and what each profile expands to."""
    found = [*reference_remarks(knowledge), *number_remarks(knowledge), *use_remarks(knowledge)]
    found += [*asking_remarks(knowledge), *phrase_remarks(knowledge), *procedure_remarks(knowledge)]
    found += place_remarks(knowledge)
    if any(RULES[one.rule].level == ERROR for one in found):
        return found, ()
    views, broken = _views(knowledge, profiles)
    found += broken
    found += [*row_remarks(knowledge, views), *idle_events(views)]
    found += [*apart_remarks(views), *confusion_remarks(views)]
    return found, tuple(_expanded(view) for view in views)


def _views(knowledge: Knowledge, profiles: Sequence[str]) -> tuple[list[View], list[Remark]]:
    """Return a view of every profile that expands, and remarks about those that do not."""
    views: list[View] = []
    broken: dict[tuple[str | int, ...], Remark] = {}
    for profile in profiles:
        try:
            machine = expand(knowledge, profile, "")
            unsound = tree_remarks(machine)
            if unsound:
                broken.update({one.trail: one for one in unsound})
            else:
                views.append(view_machine(machine))
        except (GraphError, LookupError, ValueError) as error:
            trail = ("profiles", profile)
            broken[trail] = remark("not_expanded", *trail, profile=profile, why=str(error))
    return views, list(broken.values())


def _expanded(view: View) -> Expanded:
    return Expanded(view.machine.profile, machine_counts(view.machine), view.tables.tail_bound)


def machine_counts(machine: Machine) -> dict[str, int]:
    """Return how many elements of each kind a machine has."""
    symptoms = sum(check.kind == "symptom" for check in machine.checks)
    held = {kind: len(getattr(machine, kind)) for kind in KINDS if kind != "symptoms"}
    held["checks"] -= symptoms
    return {kind: held.get(kind, symptoms) for kind in KINDS}


def _told(remarks: Iterable[Remark], marks: Marks) -> tuple[Told, ...]:
    """Return remarks in words: in the order of the rules, the weightiest first, then as they stand."""
    order = {rule: place for place, rule in enumerate(RULES)}
    sentences = [(_in_words(one, marks), one) for one in dict.fromkeys(remarks)]
    sentences.sort(key=lambda pair: (order[pair[1].rule], -pair[1].weight, pair[0].file, pair[0].line))
    return tuple(told for told, _ in sentences)


def _in_words(one: Remark, marks: Marks) -> Told:
    rule, facts = RULES[one.rule], dict(one.facts)
    problem = marks.problem(one.trail, rule.what.format(**facts), rule.remedy.format(**facts))
    return Told(
        one.rule,
        rule.level,
        rule.heading,
        problem.what,
        problem.remedy,
        problem.path,
        problem.file,
        problem.line,
    )
