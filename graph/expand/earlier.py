"""What earlier calls and dates say about a machine: repeats, service, switches that age."""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.expand.frame import Frame, titled
from graph.machine import Ageing, Repeat, Service

if TYPE_CHECKING:
    from graph import pack as written
    from graph.places import Spot


def repeats_of(frame: Frame, present: set[str]) -> tuple[Repeat, ...]:
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
        title=titled(frame, repeat.title, spot),
        of=tuple(name for name in frame.ids(repeat.of, spot) if name in present),
        unfound=repeat.unfound,
        days=repeat.days,
        count=repeat.count,
        suspects=suspects,
        settles=frame.ids(repeat.settles, spot),
        say=frame.words(repeat.say, spot),
        source=repeat.source,
    )


def service_of(name: str, item: written.Service) -> Service:
    return Service(**{"id": name, **item.model_dump(), "from_days": item.from_days or item.days})


def ageing_of(pack: written.Pack) -> tuple[Ageing, ...]:
    """Return the switches whose value follows from how long ago something was done."""
    return tuple(
        Ageing(name, switch.since, tuple(switch.after.items()))
        for name, switch in pack.switches.items()
        if switch.since is not None
    )
