"""A plain machine: what a pack and a profile say about one machine, every template expanded.

Plain frozen dataclasses, so that a running conversation needs neither pydantic nor YAML. An
instance of a repeated element carries its place behind an `@`: `blending.syrup_solenoid.shut@2`
(barrel 2), `sensors.sensor.dead_low@syrup2` (the sensor of syrup 2).
"""

from __future__ import annotations

from dataclasses import dataclass, field

Limits = tuple[float | None, float | None]


@dataclass(frozen=True, slots=True)
class Place:
    id: str
    title: str
    minutes: float


@dataclass(frozen=True, slots=True)
class Source:
    id: str
    kind: str
    title: str
    edition: str
    place: str
    note: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """Something that can be read as a number; `barrel` is set where there is one per barrel."""

    id: str
    base: str
    title: str
    unit: str
    sigma: float
    say: tuple[str, ...]
    typical: tuple[float, float] | None
    ask_unit: bool
    mistaken_for: str
    difference: str
    barrel: int | None


@dataclass(frozen=True, slots=True)
class Component:
    id: str
    base: str
    ref: str
    title: str
    part_of: str
    place: str
    explain: str
    chapter: str


@dataclass(frozen=True, slots=True)
class Fault:
    """One failure mode of one component; `rate` is primary faults per 1000 calls."""

    id: str
    base: str
    ref: str
    title: str
    plain: str
    component: str
    rate: float
    remedy: str
    falsifies_reading: bool
    source: str
    chapter: str


@dataclass(frozen=True, slots=True)
class Event:
    """An intermediate event; `of` are ids of faults and events."""

    id: str
    base: str
    ref: str
    title: str
    gate: str
    k: int
    of: tuple[str, ...]
    chapter: str


@dataclass(frozen=True, slots=True)
class Outcome:
    id: str
    ref: str
    label: str
    say: tuple[str, ...]
    band: Limits | None
    danger: str
    then: str
    confirm: str = ""  # whether what `then` orders is done
    affects: str = ""  # how many barrels do not give a proper drink by this answer: all, some, none
    covers: tuple[tuple[str, tuple[str, ...]], ...] = ()  # answers that say the same, so count no more


@dataclass(frozen=True, slots=True)
class Row:
    """P(outcome | `key`), one probability per outcome; `key` is a fault or an event."""

    key: str
    probabilities: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """A question or test, or a symptom that can be told or asked (`kind` says which).

    `usual` is the position of the usual outcome, -1 where there is none; `otherwise` is the row of
    every hypothesis that has no row of its own.
    """

    id: str
    base: str
    kind: str  # "check" or "symptom"
    ref: str
    title: str
    component: str
    barrel: int | None
    channel: str
    ask: dict[str, str]
    why: str
    roles: tuple[str, ...]
    minutes: float
    place: str
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    gates: tuple[str, ...]
    needs: tuple[tuple[str, tuple[str, ...]], ...]
    unless: tuple[tuple[str, tuple[str, ...]], ...]
    reading: str
    work_out: str
    displayed: bool
    usual: int
    otherwise: tuple[float, ...]
    slip: float | None
    phase: str
    outcomes: tuple[Outcome, ...]
    rows: tuple[Row, ...]
    say: tuple[str, ...]  # of a symptom: how people report it
    source: str
    chapter: str
    undo: str = ""  # what has to be put back once it is answered
    history: bool = False  # a symptom that tells how it began, not how it is now
    recent: bool = False  # of a symptom: it tells of something done just before

    def outcome_index(self, name: str) -> int:
        """Return the position of the outcome called `name` by id or by ref; -1 if there is none."""
        for index, outcome in enumerate(self.outcomes):
            if name in (outcome.id, outcome.ref):
                return index
        return -1


@dataclass(frozen=True, slots=True)
class Accept:
    """The limits of one of several quantities, one of which is to be read."""

    quantity: str
    limits: Limits
    source: str


@dataclass(frozen=True, slots=True)
class Instead:
    """What keeps a step from being done as it stands, and what to try then."""

    id: str
    label: str
    do: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    do: str
    gate: str
    roles: tuple[str, ...]
    cautions: tuple[str, ...]
    wait: float
    confirm: str
    read: str
    limits: Limits | None
    cannot: str
    by_gate: bool = False  # passed with its gate
    either: tuple[Accept, ...] = ()
    redo: str = ""
    instead: tuple[Instead, ...] = ()

    @property
    def reads(self) -> tuple[tuple[str, Limits | None], ...]:
        """Return the quantities of which one is read here, each with its limits; none where none is."""
        own = ((self.read, self.limits),) if self.read else ()
        return (*own, *((each.quantity, each.limits) for each in self.either))


@dataclass(frozen=True, slots=True)
class Verification:
    """What must come out right: outcomes of a check, or a reading within limits."""

    check: str
    outcomes: tuple[str, ...]
    read: str
    limits: Limits | None
    text: str


@dataclass(frozen=True, slots=True)
class Remedy:
    id: str
    base: str
    ref: str
    title: str
    plain: str
    by: tuple[str, ...]
    trained: bool
    send: str
    minutes: float
    parts: tuple[str, ...]
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    isolates: tuple[str, ...]
    opens_product_path: bool
    proof: tuple[str, ...]
    steps: tuple[Step, ...]
    verify: tuple[Verification, ...]
    serve: str
    source: str
    chapter: str


@dataclass(frozen=True, slots=True)
class Gate:
    id: str
    ref: str
    title: str
    cautions: tuple[str, ...]
    steps: tuple[Step, ...]
    undo: str = ""  # how what it made safe for a check is put back


@dataclass(frozen=True, slots=True)
class Caution:
    id: str
    ref: str
    title: str
    do: str
    do_not: str
    who: str
    hold: str
    acknowledge: bool
    bars: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Settings:
    """The pack's numbers that inference needs; see `pack.Belief`."""

    multiple_share: float
    nothing_share: float
    unknown_share: float
    unknown_mix: float
    stop: dict[str, float]
    slips: dict[str, float]
    costs: dict[str, float]
    part_prices: dict[str, float]
    van: tuple[str, ...]  # parts that every van has aboard


@dataclass(frozen=True, slots=True)
class Sensor:
    """The ratiometric pressure sensors of this machine; see `pack.SensorType`."""

    full_scale: float
    supply: float
    low_fraction: float
    high_fraction: float
    display_low: float
    display_high: float


@dataclass(frozen=True, slots=True)
class Window:
    static: tuple[float, float] | None
    flowing_min: float | None
    dip_max: float | None
    warn_low: float | None


@dataclass(frozen=True, slots=True)
class Repeat:
    """Earlier calls about one machine that raise the rates of others.

    It holds when `count` calls or more of the last `days` days ended with a fault of `of`, or, where
    `unfound` says so, without a cause. `suspects` gives faults the factor on their rates.
    """

    id: str
    ref: str
    title: str
    of: tuple[str, ...]
    unfound: bool
    days: float
    count: int
    suspects: dict[str, float]
    settles: tuple[str, ...]
    say: str
    source: str


@dataclass(frozen=True, slots=True)
class Recurrence:
    """A fault that was found on this machine in the last `days` days has its rate times `factor`."""

    days: float
    factor: float
    say: str
    source: str


@dataclass(frozen=True, slots=True)
class Service:
    """Regular work on a component: due `from_days` after it was done, overdue after `days`.

    `remedies` are base ids of repairs after which it counts as done.
    """

    id: str
    ref: str
    title: str
    component: str
    days: float
    from_days: float
    also: str
    by: tuple[str, ...]
    remedies: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Ageing:
    """A switch that follows from how long ago something was: the days after which each value holds."""

    switch: str
    since: str  # "installed", or the id of a piece of service
    after: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Profile:
    """A kind of machine that the pack knows: this one, or one that it may turn out to be."""

    id: str
    title: str
    barrels: int


@dataclass(frozen=True, slots=True)
class Machine:
    """Everything a conversation needs to know about one machine."""

    pack: str
    pack_title: str
    pack_version: str
    digest: str
    profile: str
    profile_title: str
    barrels: int
    flavours: tuple[str, ...]
    settings: Settings
    sensor: Sensor
    roles: dict[str, str]
    safety: tuple[str, ...]
    windows: dict[str, Window]
    switches: dict[str, str]
    glossary: dict[str, str]
    lexicon: dict[str, tuple[str, ...]]
    places: tuple[Place, ...]
    sources: tuple[Source, ...]
    quantities: tuple[Quantity, ...]
    components: tuple[Component, ...]
    faults: tuple[Fault, ...]
    events: tuple[Event, ...]
    checks: tuple[Check, ...]
    remedies: tuple[Remedy, ...]
    gates: tuple[Gate, ...]
    cautions: tuple[Caution, ...]
    written: dict[str, int] = field(default_factory=dict)  # counts before expansion
    repeats: tuple[Repeat, ...] = ()
    recurrence: Recurrence | None = None
    services: tuple[Service, ...] = ()
    ageing: tuple[Ageing, ...] = ()
    profiles: tuple[Profile, ...] = ()  # every one of the pack, in its order
