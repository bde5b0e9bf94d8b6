"""Names that an author wrote and that nothing answers to.

The rule: everything that `expand` will look up is looked up here first, so that a pack without remarks
of this file expands. References with a place behind an `@` are tried at every spot of every profile.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from graph.audit.remark import remark
from graph.complaint import did_you_mean
from graph.expand import layout_of, repetition
from graph.likelihood import LIKELIHOOD_WORDS
from graph.places import resolve, split_reference
from graph.service import VISIT

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from graph.audit.remark import Remark, Trail
    from graph.pack import Check, Knowledge, Likely, Remedy, Step, Verification
    from graph.places import Layout

OWN_CHANNEL = "channel"  # as a reading: the quantity of the channel where the element stands
INSTALLED = "installed"  # what a switch may age from besides a piece of service
SYMPTOM_OUTCOMES = ("present", "absent")


@dataclass(frozen=True)
class Names:
    """What there is to refer to, and the spots at which references are tried."""

    knowledge: Knowledge

    @cached_property
    def causes(self) -> frozenset[str]:
        """Return what a gate or a likelihood row may name."""
        return frozenset((*self.knowledge.faults, *self.knowledge.events))

    @cached_property
    def asked(self) -> frozenset[str]:
        """Return what has outcomes."""
        return frozenset((*self.knowledge.checks, *self.knowledge.symptoms))

    @cached_property
    def repeated(self) -> Mapping[str, str | None]:
        """Return how every element that a reference may name is repeated."""
        return repetition(self.knowledge)

    @cached_property
    def layouts(self) -> tuple[Layout, ...]:
        """Return the different layouts of the profiles."""
        pack, profiles = self.knowledge.pack, self.knowledge.profiles.values()
        return tuple(dict.fromkeys(layout_of(pack, profile) for profile in profiles))

    def outcomes(self, check: str) -> tuple[str, ...]:
        """Return the outcomes of a check or symptom."""
        found = self.knowledge.checks.get(check)
        return SYMPTOM_OUTCOMES if found is None else tuple(found.outcomes)


def reference_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield a remark for every name that leads nowhere, in file order of kinds and elements."""
    names = Names(knowledge)
    yield from _head(knowledge)
    yield from _mistaken(names)
    yield from _ageing(knowledge)
    yield from _repeats(names)
    yield from _components(knowledge)
    yield from _faults(knowledge)
    for event, element in knowledge.events.items():
        yield from _references(names, ("events", event, "of"), element.of, names.causes, element.each)
        yield from _source(knowledge, "events", event, element.source)
    yield from _symptoms(names)
    yield from _checks(names)
    yield from _remedies(names)
    yield from _service(knowledge)
    yield from _heard(names)
    for caution, hazard in knowledge.cautions.items():
        yield from _source(knowledge, "cautions", caution, hazard.source)


def _known(trail: Trail, name: str, kind: str, known: Iterable[str]) -> Iterator[Remark]:
    options = tuple(known)
    if name not in options:
        hint = did_you_mean(name, options)
        yield remark("unknown_name", *trail, name=name, kind=kind, hint=hint)


def _each_known(trail: Trail, names: Iterable[str], kind: str, known: Iterable[str]) -> Iterator[Remark]:
    options = tuple(known)
    for index, name in enumerate(names):
        yield from _known((*trail, index), name, kind, options)


def _source(knowledge: Knowledge, kind: str, name: str, source: str) -> Iterator[Remark]:
    yield from _known((kind, name, "source"), source, "source", knowledge.pack.sources)


def _head(knowledge: Knowledge) -> Iterator[Remark]:
    pack = knowledge.pack
    yield from _each_known(("safety",), pack.safety, "check", knowledge.checks)
    cautions = {name: place.caution for name, place in pack.places.items() if place.caution is not None}
    for name, caution in cautions.items():
        yield from _known(("places", name, "caution"), caution, "caution", knowledge.cautions)
    parts = {part for remedy in knowledge.remedies.values() for part in remedy.parts}
    yield from _each_known(("van",), pack.van, "part of any remedy", parts)
    for name, channel in pack.channels.items():
        yield from _known(("channels", name, "quantity"), channel.quantity, "quantity", pack.quantities)
    for name, switch in pack.switches.items():
        for value, factors in switch.values.items():
            for fault in factors:
                spot = ("switches", name, "values", value, fault)
                yield from _known(spot, fault, "fault", knowledge.faults)
    for name, profile in knowledge.profiles.items():
        here = ("profiles", name)
        yield from _known((*here, "source"), profile.source, "source", pack.sources)
        for quantity in profile.windows:
            yield from _known((*here, "windows", quantity), quantity, "quantity", pack.quantities)
        for switch_name, value in profile.switches.items():
            trail = (*here, "switches", switch_name)
            yield from _known(trail, switch_name, "switch", pack.switches)
            if switch_name in pack.switches:
                yield from _known(trail, value, "value of this switch", pack.switches[switch_name].values)


def _mistaken(names: Names) -> Iterator[Remark]:
    """Yield remarks about what is read out in place of a quantity: it must be a quantity too."""
    for name, quantity in names.knowledge.pack.quantities.items():
        if quantity.mistaken_for is not None:
            trail = ("quantities", name, "mistaken_for")
            yield from _quantity(names, trail, quantity.mistaken_for, quantity.each)


def _ageing(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about switches that follow from a date: they age from a piece of service."""
    for name, switch in knowledge.pack.switches.items():
        here = ("switches", name)
        if switch.since is not None:
            known = (INSTALLED, VISIT, *knowledge.service)
            yield from _known((*here, "since"), switch.since, "piece of service", known)
        for value in switch.after:
            yield from _known((*here, "after", value), value, "value of this switch", switch.values)


def _service(knowledge: Knowledge) -> Iterator[Remark]:
    for name, item in knowledge.service.items():
        here = ("service", name)
        yield from _known((*here, "component"), item.component, "component", knowledge.components)
        yield from _each_known((*here, "by"), item.by, "role of this pack", knowledge.pack.roles)
        yield from _each_known((*here, "remedies"), item.remedies, "remedy", knowledge.remedies)
        yield from _source(knowledge, *here, item.source)


def _repeats(names: Names) -> Iterator[Remark]:
    """Yield remarks about the rules on earlier calls: they may name faults and checks only."""
    knowledge, faults = names.knowledge, frozenset(names.knowledge.faults)
    for name, repeat in knowledge.pack.repeats.items():
        here = ("repeats", name)
        yield from _references(names, (*here, "of"), repeat.of, faults, repeat.each)
        for ref in repeat.suspects:
            yield from _reference(names, (*here, "suspects", ref), ref, faults, repeat.each)
        yield from _references(names, (*here, "settles"), repeat.settles, names.asked, repeat.each)
        yield from _source(knowledge, *here, repeat.source)
    rule = knowledge.pack.recurrence
    if rule is not None:
        yield from _known(("recurrence", "source"), rule.source, "source", knowledge.pack.sources)


def _components(knowledge: Knowledge) -> Iterator[Remark]:
    for name, part in knowledge.components.items():
        yield from _known(("components", name, "place"), part.place, "place", knowledge.pack.places)
        if part.part_of is not None:
            trail = ("components", name, "part_of")
            yield from _known(trail, part.part_of, "component", knowledge.components)
            yield from _ring(knowledge, name)


def _ring(knowledge: Knowledge, name: str) -> Iterator[Remark]:
    """Yield a remark when a component is part of itself, told from the first of the ring."""
    seen, part = [name], knowledge.components[name].part_of
    while part in knowledge.components and part not in seen:
        seen.append(part)
        part = knowledge.components[part].part_of
    order = list(knowledge.components)
    if part == name and min(seen, key=order.index) == name:
        yield remark("part_of_itself", "components", name, "part_of", ring=" is part of ".join((*seen, name)))


def _faults(knowledge: Knowledge) -> Iterator[Remark]:
    for name, fault in knowledge.faults.items():
        here = ("faults", name)
        yield from _known((*here, "component"), fault.component, "component", knowledge.components)
        yield from _known((*here, "remedy"), fault.remedy, "remedy", knowledge.remedies)
        yield from _source(knowledge, *here, fault.source)
        part = knowledge.components.get(fault.component)
        if part is not None and part.each not in (None, fault.each):
            facts = {"component": fault.component, "each": str(part.each)}
            yield remark("repeated_differently", *here, "each", **facts)
        if isinstance(fault.rate, dict):
            for channel in fault.rate:
                trail = (*here, "rate", channel)
                yield from _known(trail, channel, "sensor channel", knowledge.pack.channels)
            if fault.each != OWN_CHANNEL:
                yield remark("rates_without_channels", *here, "rate")


def _references(
    names: Names, trail: Trail, refs: Iterable[str], known: frozenset[str], each: str | None
) -> Iterator[Remark]:
    for index, text in enumerate(refs):
        yield from _reference(names, (*trail, index), text, known, each)


def _reference(
    names: Names, trail: Trail, text: str, known: frozenset[str], each: str | None
) -> Iterator[Remark]:
    """Yield a remark when a reference names nothing, or nothing at the place it says."""
    base = split_reference(text)[0]
    if base not in known:
        kind = _kind(names, known)
        also = "symptom" if base in names.knowledge.symptoms and known == names.causes else ""
        rule = "symptom_as_cause" if also else "unknown_name"
        facts = {} if also else {"kind": kind, "hint": did_you_mean(base, sorted(known))}
        yield remark(rule, *trail, name=base, **facts)
        return
    for layout in names.layouts:
        for spot in layout.spots(each):
            try:
                resolve(text, spot, layout, names.repeated)
            except ValueError as error:
                yield remark("no_such_place", *trail, why=str(error))
                return


def _kind(names: Names, known: frozenset[str]) -> str:
    """Return what a reference must name, in words."""
    if known == names.causes:
        return "fault or event"
    return "fault" if known <= names.causes else "check"


def _likely(names: Names, trail: Trail, element: Likely, each: str | None) -> Iterator[Remark]:
    for word in LIKELIHOOD_WORDS:
        yield from _references(names, (*trail, word), getattr(element, word), names.causes, each)


def _heard(names: Names) -> Iterator[Remark]:
    """Yield remarks about lines that are kept for nothing there is."""
    knowledge = names.knowledge
    for name in knowledge.heard.symptoms:
        yield from _known(("symptoms", name), name, "symptom", knowledge.symptoms)
    for check, answers in knowledge.heard.answers.items():
        yield from _known(("answers", check), check, "check", knowledge.checks)
        for outcome in answers if check in knowledge.checks else ():
            known = names.outcomes(check)
            yield from _known(("answers", check, outcome), outcome, f'outcome of "{check}"', known)


def _symptoms(names: Names) -> Iterator[Remark]:
    knowledge = names.knowledge
    for name, symptom in knowledge.symptoms.items():
        here = ("symptoms", name)
        yield from _likely(names, here, symptom, symptom.each)
        yield from _known((*here, "place"), symptom.place, "place", knowledge.pack.places)
        yield from _each_known((*here, "roles"), symptom.roles, "role of this pack", knowledge.pack.roles)
        yield from _source(knowledge, *here, symptom.source)
        for field in ("unless", "covers"):
            for ref, outcomes in getattr(symptom, field).items():
                yield from _answers(names, (*here, field, ref), ref, outcomes, symptom.each)
        if symptom.danger is not None:
            yield from _known((*here, "danger"), symptom.danger, "caution", knowledge.cautions)


def _checks(names: Names) -> Iterator[Remark]:
    from graph.physics import WORKOUTS  # noqa: PLC0415 - only an audit asks for all of it

    knowledge = names.knowledge
    pack = knowledge.pack
    for name, check in knowledge.checks.items():
        here = ("checks", name)
        if check.component is not None:
            yield from _known((*here, "component"), check.component, "component", knowledge.components)
        yield from _known((*here, "place"), check.place, "place", pack.places)
        yield from _each_known((*here, "roles"), check.roles, "role of this pack", pack.roles)
        yield from _each_known((*here, "cautions"), check.cautions, "caution", knowledge.cautions)
        yield from _each_known((*here, "gates"), check.gates, "gate", knowledge.gates)
        yield from _source(knowledge, *here, check.source)
        for field in ("needs", "unless"):
            for ref, outcomes in getattr(check, field).items():
                yield from _answers(names, (*here, field, ref), ref, outcomes, check.each)
        if check.reading is not None:
            yield from _quantity(names, (*here, "reading"), check.reading, check.each)
        if check.work_out is not None:
            yield from _known((*here, "work_out"), check.work_out, "calculation", WORKOUTS)
        if check.usual is not None:
            yield from _known((*here, "usual"), check.usual, "outcome of this check", check.outcomes)
        yield from _outcomes(names, here, check)


def _outcomes(names: Names, here: Trail, check: Check) -> Iterator[Remark]:
    for outcome, answer in check.outcomes.items():
        trail = (*here, "outcomes", outcome)
        yield from _likely(names, trail, answer, check.each)
        for ref, outcomes in answer.covers.items():
            yield from _answers(names, (*trail, "covers", ref), ref, outcomes, check.each)
        if answer.danger is not None:
            yield from _known((*trail, "danger"), answer.danger, "caution", names.knowledge.cautions)
    for ref, numbers in check.rows.items():
        yield from _reference(names, (*here, "rows", ref), ref, names.causes, check.each)
        for outcome in numbers:
            trail = (*here, "rows", ref, outcome)
            yield from _known(trail, outcome, "outcome of this check", check.outcomes)


def _answers(
    names: Names, trail: Trail, ref: str, outcomes: Iterable[str], each: str | None
) -> Iterator[Remark]:
    """Yield remarks about outcomes of an earlier check, and about the check itself."""
    yield from _reference(names, trail, ref, names.asked, each)
    base = split_reference(ref)[0]
    if base in names.asked:
        yield from _each_known(trail, outcomes, f'outcome of "{base}"', names.outcomes(base))


def _quantity(names: Names, trail: Trail, quantity: str, each: str | None) -> Iterator[Remark]:
    if quantity == OWN_CHANNEL:
        if each != OWN_CHANNEL:
            yield remark("channel_reading_elsewhere", *trail)
        return
    yield from _known(trail, quantity, "quantity", names.knowledge.pack.quantities)


def _remedies(names: Names) -> Iterator[Remark]:
    knowledge = names.knowledge
    roles = knowledge.pack.roles
    places: dict[str, dict[str | None, None]] = {}
    for fault in knowledge.faults.values():
        places.setdefault(fault.remedy, {})[fault.each] = None
    for name, remedy in knowledge.remedies.items():
        here = ("remedies", name)
        yield from _each_known((*here, "by"), remedy.by, "role of this pack", roles)
        yield from _known((*here, "send"), remedy.send, "role of this pack", roles)
        yield from _each_known((*here, "cautions"), remedy.cautions, "caution", knowledge.cautions)
        # A remedy stands wherever one of its faults does; what is wrong at two places is told once.
        found = (r for each in places.get(name, {None: None}) for r in _procedure(names, here, remedy, each))
        yield from dict.fromkeys(found)
        yield from _source(knowledge, *here, remedy.source)
    for name, gate in knowledge.gates.items():
        here = ("gates", name)
        yield from _each_known((*here, "cautions"), gate.cautions, "caution", knowledge.cautions)
        yield from _steps(names, here, gate.steps, None)
        yield from _source(knowledge, *here, gate.source)


def _procedure(names: Names, here: Trail, remedy: Remedy, each: str | None) -> Iterator[Remark]:
    checks = frozenset(names.knowledge.checks)
    yield from _references(names, (*here, "proof"), remedy.proof, checks, each)
    yield from _steps(names, here, remedy.steps, each)
    yield from _verify(names, here, remedy.verify, each)


def _steps(names: Names, here: Trail, steps: Iterable[Step], each: str | None) -> Iterator[Remark]:
    knowledge = names.knowledge
    for index, step in enumerate(steps):
        trail = (*here, "steps", index)
        if step.gate is not None:
            yield from _known((*trail, "gate"), step.gate, "gate", knowledge.gates)
        yield from _each_known((*trail, "roles"), step.roles, "role of this pack", knowledge.pack.roles)
        yield from _each_known((*trail, "cautions"), step.cautions, "caution", knowledge.cautions)
        if step.read is not None:
            yield from _quantity(names, (*trail, "read"), step.read, each)
        for name, way in step.instead.items():
            spot = (*trail, "instead", name, "cautions")
            yield from _each_known(spot, way.cautions, "caution", knowledge.cautions)
        for name, accept in step.either.items():
            yield from _quantity(names, (*trail, "either", name), name, each)
            spot = (*trail, "either", name, "source")
            yield from _known(spot, accept.source, "source", knowledge.pack.sources)


def _verify(names: Names, here: Trail, items: Iterable[Verification], each: str | None) -> Iterator[Remark]:
    for index, item in enumerate(items):
        trail = (*here, "verify", index)
        if item.check is not None:
            yield from _answers(names, (*trail, "check"), item.check, (), each)
            base = split_reference(item.check)[0]
            if base in names.asked:
                known = names.outcomes(base)
                yield from _each_known((*trail, "outcomes"), item.outcomes, f'outcome of "{base}"', known)
        if item.read is not None:
            yield from _quantity(names, (*trail, "read"), item.read, each)
