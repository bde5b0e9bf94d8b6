"""Where an instance of a repeated element stands, and how references find their way to it.

A `Place` here is a position in the expanded machine: nowhere special, a barrel, or a sensor channel
(which may belong to a barrel). The module knows nothing of what the elements are.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Spot:
    """One position: `suffix` is what stands behind the `@` of an instance there."""

    suffix: str = ""
    barrel: int | None = None
    channel: str = ""  # kind of channel, e.g. "syrup"

    def name(self, base: str) -> str:
        """Return the id of the instance of `base` at this spot."""
        return f"{base}@{self.suffix}" if self.suffix else base


SHARED = Spot()


@dataclass(frozen=True, slots=True)
class Layout:
    """All spots of one machine: its barrels and its sensor channels."""

    barrels: int
    channels: tuple[tuple[str, bool], ...]  # kind, whether there is one per barrel

    def spots(self, each: str | None) -> tuple[Spot, ...]:
        """Return the spots at which an element repeated per `each` stands, in pack order."""
        if each is None:
            return (SHARED,)
        if each == "barrel":
            return tuple(Spot(str(n), n) for n in range(1, self.barrels + 1))
        return tuple(spot for kind, per_barrel in self.channels for spot in self.channel(kind, per_barrel))

    def channel(self, kind: str, per_barrel: bool) -> tuple[Spot, ...]:  # noqa: FBT001 - a fact, not a switch
        """Return the spots of one kind of channel."""
        if not per_barrel:
            return (Spot(kind, None, kind),)
        return tuple(Spot(f"{kind}{n}", n, kind) for n in range(1, self.barrels + 1))


def split_reference(text: str) -> tuple[str, str, str]:
    """Return base id, what stands behind the `@`, and the channel behind ` if ` (both may be empty)."""
    name, _, condition = text.partition(" if ")
    base, _, where = name.strip().partition("@")
    return base, where, condition.strip()


def resolve(text: str, here: Spot, layout: Layout, repeated: Mapping[str, str | None]) -> tuple[str, ...]:
    """Return the ids of the instances that a reference written at `here` means.

    `repeated` gives for every known base id how it is repeated. Raises KeyError with the base id
    where it is unknown, and ValueError where the part behind the `@` fits no instance.
    """
    base, where, condition = split_reference(text)
    each = repeated[base]
    if condition and condition != here.channel:
        if condition not in {kind for kind, _ in layout.channels}:
            raise ValueError(f'"{condition}" is no sensor channel.')
        return ()
    spots = layout.spots(each)
    if where == "*" or each is None:
        return _all(base, spots, where)
    if where:
        spots = tuple(spot for spot in spots if where in (spot.suffix, spot.channel))
        if not spots:
            raise ValueError(f'"{base}" has no instance at "{where}".')
        if where in {spot.suffix for spot in spots}:
            return tuple(spot.name(base) for spot in spots)
    return tuple(spot.name(base) for spot in _nearest(spots, here))


def _all(base: str, spots: tuple[Spot, ...], where: str) -> tuple[str, ...]:
    if where not in ("", "*"):
        raise ValueError(f'"{base}" stands once in a machine, so "@{where}" means nothing.')
    return tuple(spot.name(base) for spot in spots)


def _nearest(spots: tuple[Spot, ...], here: Spot) -> tuple[Spot, ...]:
    """Return the spots that fit where we are: the same channel, else the same barrel, else all."""
    same = tuple(spot for spot in spots if spot.channel and spot.suffix == here.suffix)
    if same:
        return same
    if here.barrel is not None:
        mine = tuple(spot for spot in spots if spot.barrel == here.barrel)
        return mine or spots
    return spots
