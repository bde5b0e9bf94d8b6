"""Templates and a profile make a plain machine: `expand(knowledge, profile) -> Machine`.

The rule: nothing is decided here but repetition. An element with `each: barrel` or `each: channel`
becomes one instance per barrel or channel, `{barrel}`, `{flavour}` and `{channel}` in its texts
are filled in, and its references find the instances they mean (`places.resolve`).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from graph.errors import PackMissing
from graph.expand.asking import checks_of, symptoms_of
from graph.expand.earlier import ageing_of, repeats_of, service_of
from graph.expand.frame import frame_of, layout_of, repetition
from graph.expand.plant import components_of, events_of, faults_of, quantities_of
from graph.expand.work import gates_of, remedies_of
from graph.machine import Caution, Machine, Place, Profile, Recurrence, Sensor, Settings, Source, Window

if TYPE_CHECKING:
    from collections.abc import Mapping

    from graph import pack as written

__all__ = ["counts", "expand", "layout_of", "repetition"]


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
    frame = frame_of(knowledge, plan)
    faults = faults_of(frame)
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
        quantities=quantities_of(frame),
        components=components_of(frame),
        faults=faults,
        events=events_of(frame, {fault.id for fault in faults}),
        checks=(*checks_of(frame), *symptoms_of(frame)),
        remedies=remedies_of(frame, faults),
        gates=gates_of(frame),
        cautions=tuple(
            Caution(id=name, **caution.model_dump()) for name, caution in knowledge.cautions.items()
        ),
        written=counts(knowledge),
        repeats=repeats_of(frame, {fault.id for fault in faults}),
        recurrence=Recurrence(**pack.recurrence.model_dump()) if pack.recurrence else None,
        services=tuple(service_of(name, item) for name, item in knowledge.service.items()),
        ageing=ageing_of(pack),
        profiles=tuple(Profile(name, each.title, each.barrels) for name, each in knowledge.profiles.items()),
    )


def counts(knowledge: written.Knowledge) -> dict[str, int]:
    """Return how many elements of each kind the authors wrote."""
    kinds = ("components", "faults", "events", "symptoms", "checks", "remedies", "gates", "cautions")
    return {kind: len(getattr(knowledge, kind)) for kind in kinds}


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
