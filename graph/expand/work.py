"""What is done to a machine: remedies, their steps and proofs, and gates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.expand.frame import Frame, reading_of, titled
from graph.machine import Accept, Fault, Gate, Instead, Remedy, Step, Verification
from graph.places import SHARED, Spot

if TYPE_CHECKING:
    from collections.abc import Iterable

    from graph import pack as written


def remedies_of(frame: Frame, faults: tuple[Fault, ...]) -> tuple[Remedy, ...]:
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
        title=titled(frame, remedy.title, spot),
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
        read=reading_of(frame, step.read, spot),
        limits=step.limits,
        cannot=frame.words(step.cannot, spot),
        by_gate=step.by_gate,
        either=tuple(
            Accept(reading_of(frame, name, spot), accept.limits, accept.source)
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
        read=reading_of(frame, item.read, spot),
        limits=item.limits or _limits(frame, item, spot),
        text=frame.words(item.text, spot),
    )


def _limits(frame: Frame, item: written.Verification, spot: Spot) -> tuple[float | None, float | None] | None:
    """Return the limits that the profile's window gives for the quantity read."""
    if not item.read or not item.window:
        return None
    quantity = reading_of(frame, item.read, spot).partition("@")[0]
    window = frame.profile.windows.get(quantity)
    if window is None:
        return None
    if item.window == "static":
        return window.static
    if item.window == "flowing_min":
        return (window.flowing_min, None)
    return (None, window.dip_max)


def gates_of(frame: Frame) -> tuple[Gate, ...]:
    """Return the gates, which are the same for the whole machine."""
    return tuple(
        Gate(
            id=name,
            ref=gate.ref,
            title=gate.title,
            cautions=gate.cautions,
            steps=_steps(frame, gate.steps, SHARED),
            undo=gate.undo,
        )
        for name, gate in frame.knowledge.gates.items()
    )
