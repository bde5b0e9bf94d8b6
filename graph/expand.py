"""Templates and a profile make a plain machine: `expand(knowledge, profile) -> Machine`.

The rule: nothing is decided here but repetition. An element with `each: barrel` or `each: channel`
becomes one instance per barrel or channel, `{barrel}`, `{flavour}` and `{channel}` in its texts
are filled in, and its references find the instances they mean (`places.resolve`).
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from graph.errors import PackMissing
from graph.likelihood import LIKELIHOOD_WORDS, otherwise_row, row_from_anchors
from graph.machine import (
    Accept,
    Ageing,
    Caution,
    Check,
    Component,
    Event,
    Fault,
    Gate,
    Instead,
    Machine,
    Outcome,
    Place,
    Quantity,
    Recurrence,
    Remedy,
    Repeat,
    Row,
    Sensor,
    Service,
    Settings,
    Source,
    Step,
    Verification,
    Window,
)
from graph.places import SHARED, Layout, Spot, resolve, split_reference

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from graph import pack as written

BARRELS_OF_RATES = 3  # printed rates of repeated faults are for a machine with three barrels
SYMPTOM_OUTCOMES = (("present", "Yes"), ("absent", "No"))


@dataclass(frozen=True, slots=True)
class Frame:
    """What every part of the expansion looks things up in."""

    knowledge: written.Knowledge
    profile: written.Profile
    layout: Layout
    repeated: Mapping[str, str | None]
    factors: Mapping[str, float]  # fault base id -> product of the site's switches

    def ids(self, refs: Iterable[str], here: Spot) -> tuple[str, ...]:
        """Return the instances that a list of references means, each once, in order."""
        found = (name for ref in refs for name in resolve(ref, here, self.layout, self.repeated))
        return tuple(dict.fromkeys(found))

    def words(self, text: str, here: Spot) -> str:
        """Return a text with the names of barrel, flavour and channel filled in."""
        if "{" not in text:
            return text
        flavours = self.profile.flavours
        number = here.barrel or 0
        flavour = flavours[number - 1] if 0 < number <= len(flavours) else ""
        barrel = f"barrel {number}" + (f" ({flavour})" if flavour else "") if number else "that barrel"
        channel = self.knowledge.pack.channels[here.channel].title if here.channel else "that reading"
        if here.channel and number:
            channel = f"{channel} {number}"
        text = text.replace("{barrel}", barrel).replace("{channel}", channel)
        return text.replace("{flavour}", flavour or barrel)


def expand(
    knowledge: written.Knowledge,
    profile: str,
    digest: str,
    *,
    flavours: tuple[str, ...] = (),
    switches: Mapping[str, str] | None = None,
) -> Machine:
    """Return the machine that `profile` describes, optionally with a site's own flavours and switches.

    Raises PackMissing when the pack has no such profile.
    """
    if profile not in knowledge.profiles:
        known = ", ".join(knowledge.profiles)
        raise PackMissing(f'This pack has no machine profile "{profile}"; it has: {known}.')
    plan = knowledge.profiles[profile]
    plan = plan.model_copy(
        update={"flavours": flavours or plan.flavours, "switches": {**plan.switches, **(switches or {})}}
    )
    frame = _frame(knowledge, plan)
    faults = _faults(frame)
    pack = knowledge.pack
    return Machine(
        pack=pack.id,
        pack_title=pack.title,
        pack_version=pack.version,
        digest=digest,
        profile=profile,
        profile_title=plan.title,
        barrels=plan.barrels,
        flavours=plan.flavours,
        settings=_settings(pack),
        sensor=Sensor(**plan.sensor.model_dump()),
        roles={str(role): title for role, title in pack.roles.items()},
        safety=pack.safety,
        windows={name: Window(**window.model_dump()) for name, window in plan.windows.items()},
        switches=dict(plan.switches),
        glossary=dict(pack.glossary),
        lexicon=dict(pack.lexicon),
        places=tuple(Place(name, place.title, place.minutes) for name, place in pack.places.items()),
        sources=tuple(Source(id=name, **source.model_dump()) for name, source in pack.sources.items()),
        quantities=_quantities(frame),
        components=_components(frame),
        faults=faults,
        events=_events(frame, {fault.id for fault in faults}),
        checks=(*_checks(frame), *_symptoms(frame)),
        remedies=_remedies(frame, faults),
        gates=_gates(frame),
        cautions=tuple(
            Caution(id=name, **caution.model_dump()) for name, caution in knowledge.cautions.items()
        ),
        written=counts(knowledge),
        repeats=_repeats(frame, {fault.id for fault in faults}),
        recurrence=Recurrence(**pack.recurrence.model_dump()) if pack.recurrence else None,
        services=tuple(_service(name, item) for name, item in knowledge.service.items()),
        ageing=tuple(
            Ageing(name, switch.since, tuple(switch.after.items()))
            for name, switch in pack.switches.items()
            if switch.since is not None
        ),
    )


def _service(name: str, item: written.Service) -> Service:
    return Service(**{"id": name, **item.model_dump(), "from_days": item.from_days or item.days})


def counts(knowledge: written.Knowledge) -> dict[str, int]:
    """Return how many elements of each kind the authors wrote."""
    kinds = ("components", "faults", "events", "symptoms", "checks", "remedies", "gates", "cautions")
    return {kind: len(getattr(knowledge, kind)) for kind in kinds}


def layout_of(pack: written.Pack, profile: written.Profile) -> Layout:
    """Return the barrels and channels of a profile."""
    channels = tuple((name, channel.each is not None) for name, channel in pack.channels.items())
    return Layout(profile.barrels, channels)


def repetition(knowledge: written.Knowledge) -> dict[str, str | None]:
    """Return for every id that likelihood rows and gates may name how it is repeated."""
    named: dict[str, str | None] = {}
    for kind in (knowledge.faults, knowledge.events, knowledge.symptoms, knowledge.checks):
        named.update({name: element.each for name, element in kind.items()})
    return named


def _frame(knowledge: written.Knowledge, profile: written.Profile) -> Frame:
    factors: dict[str, float] = defaultdict(lambda: 1.0)
    for switch, value in profile.switches.items():
        known = knowledge.pack.switches.get(switch)
        if known is None or value not in known.values:
            raise PackMissing(f'The switch "{switch}: {value}" is not one of this pack.')
        for fault, factor in known.values[value].items():
            factors[fault] *= factor
    return Frame(knowledge, profile, layout_of(knowledge.pack, profile), repetition(knowledge), factors)


def _repeats(frame: Frame, present: set[str]) -> tuple[Repeat, ...]:
    """Return the rules about earlier calls that can say something about this machine."""
    pack = frame.knowledge.pack
    return tuple(
        found
        for base, repeat in pack.repeats.items()
        for spot in frame.layout.spots(repeat.each)
        if (found := _repeat(frame, base, repeat, spot, present)).of and found.suspects
    )


def _repeat(frame: Frame, base: str, repeat: written.Repeat, spot: Spot, present: set[str]) -> Repeat:
    """Return a rule without the faults that this machine does not have."""
    suspects = {
        name: factor
        for ref, factor in repeat.suspects.items()
        for name in frame.ids((ref,), spot)
        if name in present
    }
    return Repeat(
        id=spot.name(base),
        ref=repeat.ref,
        title=_titled(frame, repeat.title, spot),
        of=tuple(name for name in frame.ids(repeat.of, spot) if name in present),
        unfound=repeat.unfound,
        days=repeat.days,
        count=repeat.count,
        suspects=suspects,
        settles=frame.ids(repeat.settles, spot),
        say=frame.words(repeat.say, spot),
        source=repeat.source,
    )


def _settings(pack: written.Pack) -> Settings:
    belief = pack.belief
    return Settings(
        multiple_share=belief.multiple_share,
        nothing_share=belief.nothing_share,
        unknown_share=belief.unknown_share,
        unknown_mix=belief.unknown_mix,
        stop=pack.stop.model_dump(),
        slips={str(role): slip for role, slip in pack.slips.items()},
        costs=pack.costs.model_dump(),
        part_prices=dict(pack.parts),
        van=pack.van,
    )


def _quantities(frame: Frame) -> tuple[Quantity, ...]:
    return tuple(
        Quantity(
            id=f"{base}@{spot.suffix}" if spot.suffix else base,
            base=base,
            title=f"{quantity.title} {spot.barrel}" if spot.barrel else quantity.title,
            unit=quantity.unit,
            sigma=quantity.sigma,
            say=quantity.say,
            typical=quantity.typical,
            ask_unit=quantity.ask_unit,
            barrel=spot.barrel,
        )
        for base, quantity in frame.knowledge.pack.quantities.items()
        for spot in frame.layout.spots(quantity.each)
    )


def _components(frame: Frame) -> tuple[Component, ...]:
    return tuple(
        Component(
            id=spot.name(base),
            base=base,
            ref=part.ref,
            title=_titled(frame, part.title, spot),
            part_of=part.part_of or "",
            place=part.place,
            explain=frame.words(part.explain, spot),
            chapter=frame.knowledge.chapter_of[base],
        )
        for base, part in frame.knowledge.components.items()
        for spot in frame.layout.spots(part.each)
    )


def _titled(frame: Frame, title: str, here: Spot) -> str:
    """Return a title that says which instance it is, unless the author's own words do."""
    if here is SHARED or "{" in title:
        return frame.words(title, here)
    where = frame.words("{channel}" if here.channel else "{barrel}", here)
    return f"{title}, {where}"


def _faults(frame: Frame) -> tuple[Fault, ...]:
    parts = frame.knowledge.components
    found = []
    for base, fault in frame.knowledge.faults.items():
        for spot in frame.layout.spots(fault.each):
            rate = _rate(fault, spot) * frame.factors.get(base, 1.0)
            if rate <= 0.0:
                continue
            part = fault.component
            here = spot if parts[part].each == fault.each else SHARED
            found.append(
                Fault(
                    id=spot.name(base),
                    base=base,
                    ref=fault.ref,
                    title=_titled(frame, fault.title, spot),
                    plain=frame.words(fault.plain, spot),
                    component=here.name(part),
                    rate=rate,
                    remedy=spot.name(fault.remedy),
                    falsifies_reading=fault.falsifies_reading,
                    source=fault.source,
                    chapter=frame.knowledge.chapter_of[base],
                )
            )
    return tuple(found)


def _rate(fault: written.Fault, spot: Spot) -> float:
    """Return faults per 1000 calls of one instance."""
    rate = fault.rate.get(spot.channel, 0.0) if isinstance(fault.rate, dict) else fault.rate
    return rate / BARRELS_OF_RATES if spot.barrel else rate


def _events(frame: Frame, present: set[str]) -> tuple[Event, ...]:
    """Return the events, less the inputs that this machine does not have."""
    found: list[Event] = []
    gone = set()
    for base, event in frame.knowledge.events.items():
        for spot in frame.layout.spots(event.each):
            inputs = frame.ids(event.of, spot)
            kept = tuple(
                name
                for name in inputs
                if name in present or split_reference(name)[0] in frame.knowledge.events
            )
            lost = len(kept) < len(inputs)
            if not kept or (event.gate == "all" and lost):
                gone.add(spot.name(base))
                continue
            found.append(
                Event(
                    id=spot.name(base),
                    base=base,
                    ref=event.ref,
                    title=_titled(frame, event.title, spot),
                    gate=event.gate,
                    k={"any": 1, "all": len(kept)}.get(event.gate, event.k or 1),
                    of=kept,
                    chapter=frame.knowledge.chapter_of[base],
                )
            )
    return _without(tuple(found), gone)


def _without(events: tuple[Event, ...], gone: set[str]) -> tuple[Event, ...]:
    """Return the events with vanished inputs taken out, until nothing changes."""
    while gone:
        kept = []
        vanished = set()
        for event in events:
            inputs = tuple(name for name in event.of if name not in gone)
            if not inputs or (event.gate != "any" and len(inputs) < event.k):
                vanished.add(event.id)
                continue
            values = {name: getattr(event, name) for name in event.__slots__}
            kept.append(Event(**{**values, "of": inputs}))
        events, gone = tuple(kept), vanished
    return events


def _checks(frame: Frame) -> tuple[Check, ...]:
    return tuple(
        _check(frame, base, check, spot)
        for base, check in frame.knowledge.checks.items()
        for spot in frame.layout.spots(check.each)
    )


def _check(frame: Frame, base: str, check: written.Check, spot: Spot) -> Check:
    names = tuple(check.outcomes)
    usual = names.index(check.usual) if check.usual else -1
    belief = frame.knowledge.pack.belief
    asked = {role: frame.words(text, spot) for role, text in check.ask.model_dump().items() if text}
    return Check(
        id=spot.name(base),
        base=base,
        kind="check",
        ref=check.ref,
        title=_titled(frame, check.title, spot),
        component=_component_instance(frame, check.component, spot),
        barrel=spot.barrel,
        channel=spot.channel,
        ask=asked,
        why=check.why,
        roles=check.roles,
        minutes=check.minutes,
        place=check.place,
        tools=check.tools,
        cautions=check.cautions,
        gates=check.gates,
        needs=_conditions(frame, check.needs, spot),
        unless=_conditions(frame, check.unless, spot),
        reading=_reading(frame, check.reading, spot),
        work_out=check.work_out or "",
        displayed=check.displayed,
        usual=usual,
        otherwise=otherwise_row(len(names), usual, check.otherwise or belief.otherwise),
        slip=check.slip,
        phase=check.phase,
        outcomes=tuple(_outcome(frame, name, outcome, spot) for name, outcome in check.outcomes.items()),
        rows=_rows(frame, check, spot),
        say=(),
        source=check.source,
        chapter=frame.knowledge.chapter_of[base],
    )


def _component_instance(frame: Frame, component: str | None, spot: Spot) -> str:
    if component is None:
        return ""
    spots = frame.layout.spots(frame.knowledge.components[component].each)
    return next((s for s in spots if s.suffix == spot.suffix), spots[0]).name(component)


def _conditions(
    frame: Frame, conditions: Mapping[str, tuple[str, ...]], spot: Spot
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((name, outcomes) for ref, outcomes in conditions.items() for name in frame.ids((ref,), spot))


def _reading(frame: Frame, quantity: str | None, spot: Spot) -> str:
    """Return the instance of the quantity that a check reads; `channel` means the channel's own."""
    if quantity is None:
        return ""
    pack = frame.knowledge.pack
    if quantity == "channel":
        quantity = pack.channels[spot.channel].quantity
    return f"{quantity}@{spot.barrel}" if pack.quantities[quantity].each and spot.barrel else quantity


def _outcome(frame: Frame, name: str, outcome: written.Outcome, spot: Spot) -> Outcome:
    return Outcome(
        id=name,
        ref=outcome.ref,
        label=frame.words(outcome.label, spot),
        say=outcome.say,
        band=outcome.band,
        danger=outcome.danger or "",
        then=frame.words(outcome.then, spot),
        confirm=frame.words(outcome.confirm, spot),
    )


def _rows(frame: Frame, check: written.Check, spot: Spot) -> tuple[Row, ...]:
    """Return one row for every fault or event that the check's author listed."""
    names = tuple(check.outcomes)
    words = frame.knowledge.pack.words
    anchors: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    for index, outcome in enumerate(check.outcomes.values()):
        for word in LIKELIHOOD_WORDS:
            for key in frame.ids(getattr(outcome, word), spot):
                anchors[key][index] += getattr(words, word)
    rows = {key: row_from_anchors(len(names), listed) for key, listed in anchors.items()}
    for ref, numbers in check.rows.items():
        for key in frame.ids((ref,), spot):
            rows[key] = tuple(numbers.get(name, 0.0) for name in names)
    return tuple(Row(key, row) for key, row in rows.items())


def _symptoms(frame: Frame) -> tuple[Check, ...]:
    return tuple(
        _symptom(frame, base, symptom, spot)
        for base, symptom in frame.knowledge.symptoms.items()
        for spot in frame.layout.spots(symptom.each)
    )


def _symptom(frame: Frame, base: str, symptom: written.Symptom, spot: Spot) -> Check:
    pack = frame.knowledge.pack
    share: dict[str, float] = {}
    for word in LIKELIHOOD_WORDS:
        for key in frame.ids(getattr(symptom, word), spot):
            share.setdefault(key, getattr(pack.words, word))
    rest = pack.belief.symptom_otherwise
    return Check(
        id=spot.name(base),
        base=base,
        kind="symptom",
        ref=symptom.ref,
        title=_titled(frame, symptom.title, spot),
        component="",
        barrel=spot.barrel,
        channel=spot.channel,
        ask={"operator": frame.words(symptom.ask, spot)},
        why="",
        roles=symptom.roles,
        minutes=symptom.minutes,
        place=symptom.place,
        tools=(),
        cautions=(),
        gates=(),
        needs=(),
        unless=_conditions(frame, symptom.unless, spot),
        reading="",
        work_out="",
        displayed=False,
        usual=1,
        otherwise=(rest, 1.0 - rest),
        slip=0.0,  # people may overlook a symptom, which its row says; they do not mistake it
        phase="narrowing",
        outcomes=tuple(
            Outcome(name, "", label, (), None, (symptom.danger or "") if name == "present" else "", "")
            for name, label in SYMPTOM_OUTCOMES
        ),
        rows=tuple(Row(key, (p, 1.0 - p)) for key, p in share.items()),
        say=symptom.say,
        source=symptom.source,
        chapter=frame.knowledge.chapter_of[base],
    )


def _remedies(frame: Frame, faults: tuple[Fault, ...]) -> tuple[Remedy, ...]:
    """Return one remedy for every place where a fault of this machine calls for it."""
    spots = {spot.suffix: spot for each in (None, "barrel", "channel") for spot in frame.layout.spots(each)}
    used = {fault.remedy for fault in faults}
    found = []
    for base, remedy in frame.knowledge.remedies.items():
        for suffix, spot in spots.items():
            name = f"{base}@{suffix}" if suffix else base
            if name in used:
                found.append(_remedy(frame, base, remedy, spot))
    return tuple(found)


def _remedy(frame: Frame, base: str, remedy: written.Remedy, spot: Spot) -> Remedy:
    return Remedy(
        id=spot.name(base),
        base=base,
        ref=remedy.ref,
        title=_titled(frame, remedy.title, spot),
        plain=frame.words(remedy.plain, spot),
        by=remedy.by,
        trained=remedy.trained,
        send=remedy.send,
        minutes=remedy.minutes,
        parts=remedy.parts,
        tools=remedy.tools,
        cautions=remedy.cautions,
        isolates=remedy.isolates,
        opens_product_path=remedy.opens_product_path,
        proof=frame.ids(remedy.proof, spot),
        steps=_steps(frame, remedy.steps, spot),
        verify=tuple(_verification(frame, item, spot) for item in remedy.verify),
        serve=frame.words(remedy.serve, spot),
        source=remedy.source,
        chapter=frame.knowledge.chapter_of[base],
    )


def _steps(frame: Frame, steps: Iterable[written.Step], spot: Spot) -> tuple[Step, ...]:
    """Return the steps in order, one for every barrel where a step says so."""
    barrels = frame.layout.spots("barrel")
    return tuple(
        _step(frame, step, here)
        for step in steps
        for here in (barrels if step.each and spot.barrel is None else (spot,))
    )


def _step(frame: Frame, step: written.Step, spot: Spot) -> Step:
    return Step(
        do=frame.words(step.do, spot),
        gate=step.gate or "",
        roles=step.roles,
        cautions=step.cautions,
        wait=step.wait,
        confirm=frame.words(step.confirm, spot),
        read=_reading(frame, step.read, spot),
        limits=step.limits,
        cannot=frame.words(step.cannot, spot),
        by_gate=step.by_gate,
        either=tuple(
            Accept(_reading(frame, name, spot), accept.limits, accept.source)
            for name, accept in step.either.items()
        ),
        redo=frame.words(step.redo, spot),
        instead=tuple(
            Instead(name, frame.words(way.label, spot), frame.words(way.do, spot), way.cautions)
            for name, way in step.instead.items()
        ),
    )


def _verification(frame: Frame, item: written.Verification, spot: Spot) -> Verification:
    check = frame.ids((item.check,), spot) if item.check else ()
    return Verification(
        check=check[0] if check else "",
        outcomes=item.outcomes,
        read=_reading(frame, item.read, spot),
        limits=item.limits or _limits(frame, item, spot),
        text=frame.words(item.text, spot),
    )


def _limits(frame: Frame, item: written.Verification, spot: Spot) -> tuple[float | None, float | None] | None:
    """Return the limits that the profile's window gives for the quantity read."""
    if not item.read or not item.window:
        return None
    quantity = _reading(frame, item.read, spot).partition("@")[0]
    window = frame.profile.windows.get(quantity)
    if window is None:
        return None
    if item.window == "static":
        return window.static
    if item.window == "flowing_min":
        return (window.flowing_min, None)
    return (None, window.dip_max)


def _gates(frame: Frame) -> tuple[Gate, ...]:
    return tuple(
        Gate(
            id=name,
            ref=gate.ref,
            title=gate.title,
            cautions=gate.cautions,
            steps=_steps(frame, gate.steps, SHARED),
        )
        for name, gate in frame.knowledge.gates.items()
    )
