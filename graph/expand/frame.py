"""What every part of an expansion looks things up in, and how it names what is repeated."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from graph.errors import PackMissing
from graph.places import SHARED, Layout, Spot, resolve

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from graph import pack as written


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


def frame_of(knowledge: written.Knowledge, profile: written.Profile) -> Frame:
    """Return what an expansion of `profile` looks things up in; raises PackMissing on an unknown switch."""
    factors: dict[str, float] = defaultdict(lambda: 1.0)
    for switch, value in profile.switches.items():
        known = knowledge.pack.switches.get(switch)
        if known is None or value not in known.values:
            raise PackMissing(f'The switch "{switch}: {value}" is not one of this pack.')
        for fault, factor in known.values[value].items():
            factors[fault] *= factor
    return Frame(knowledge, profile, layout_of(knowledge.pack, profile), repetition(knowledge), factors)


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


def titled(frame: Frame, title: str, here: Spot) -> str:
    """Return a title that says which instance it is, unless the author's own words do."""
    if here is SHARED or "{" in title:
        return frame.words(title, here)
    where = frame.words("{channel}" if here.channel else "{barrel}", here)
    return f"{title}, {where}"


def conditions(
    frame: Frame, conditions: Mapping[str, tuple[str, ...]], spot: Spot
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the instances that `needs`, `unless` or `covers` name, each with its outcomes."""
    return tuple((name, outcomes) for ref, outcomes in conditions.items() for name in frame.ids((ref,), spot))


def reading_of(frame: Frame, quantity: str | None, spot: Spot) -> str:
    """Return the instance of the quantity that a check reads; `channel` means the channel's own."""
    if quantity is None:
        return ""
    pack = frame.knowledge.pack
    if quantity == "channel":
        quantity = pack.channels[spot.channel].quantity
    return f"{quantity}@{spot.barrel}" if pack.quantities[quantity].each and spot.barrel else quantity
