"""What a machine is made of and how it fails: quantities, components, faults and events."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.expand.frame import Frame, titled
from graph.machine import Component, Event, Fault, Quantity
from graph.places import SHARED, Spot, split_reference

if TYPE_CHECKING:
    from graph import pack as written


BARRELS_OF_RATES = 3  # printed rates of repeated faults are for a machine with three barrels


def quantities_of(frame: Frame) -> tuple[Quantity, ...]:
    """Return what can be read as a number, one for every barrel where it is repeated."""
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
            mistaken_for=_instance(frame, quantity.mistaken_for, spot),
            difference=quantity.difference or "",
            barrel=spot.barrel,
        )
        for base, quantity in frame.knowledge.pack.quantities.items()
        for spot in frame.layout.spots(quantity.each)
    )


def _instance(frame: Frame, name: str | None, spot: Spot) -> str:
    """Return the quantity of that name at a spot, where it is repeated there; empty for none."""
    repeated = name is not None and frame.knowledge.pack.quantities[name].each is not None
    return f"{name}@{spot.suffix}" if repeated else name or ""


def components_of(frame: Frame) -> tuple[Component, ...]:
    """Return the parts of the machine and of its site."""
    return tuple(
        Component(
            id=spot.name(base),
            base=base,
            ref=part.ref,
            title=titled(frame, part.title, spot),
            part_of=part.part_of or "",
            place=part.place,
            explain=frame.words(part.explain, spot),
            chapter=frame.knowledge.chapter_of[base],
        )
        for base, part in frame.knowledge.components.items()
        for spot in frame.layout.spots(part.each)
    )


def faults_of(frame: Frame) -> tuple[Fault, ...]:
    """Return the faults that this machine can have, with their rates per 1000 calls."""
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
                    title=titled(frame, fault.title, spot),
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


def events_of(frame: Frame, present: set[str]) -> tuple[Event, ...]:
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
                    title=titled(frame, event.title, spot),
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
