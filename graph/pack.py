"""What an author writes: frozen models of a knowledge pack.

Rules of the file: models only say what a *field* may be; what must hold between elements is
checked in `check.py`, so that all problems of a pack can be reported at once. References are
plain strings, resolved in `expand.py`:

    gas_supply.cylinder.empty            a fault, event or symptom by its id
    blending.syrup_solenoid.shut         a repeated element: the same barrel where the element that
                                         refers to it is repeated too, otherwise every barrel
    sensors.sensor.dead_low@water        one instance of an element that is repeated per channel
    sensors.sensor.dead_low@*            every instance
    gas_supply.cylinder.empty if gas_supply    only where the referring element stands for that channel
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Probability = Annotated[float, Field(ge=0.0, le=1.0, strict=True, allow_inf_nan=False)]
Positive = Annotated[float, Field(gt=0.0, strict=True, allow_inf_nan=False)]
Amount = Annotated[float, Field(ge=0.0, strict=True, allow_inf_nan=False)]
Text = Annotated[str, Field(min_length=1)]
Id = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*(\.[a-z0-9][a-z0-9_]*)*$")]
Refs = tuple[Text, ...]
Each = Literal["barrel", "channel"]
Role = Literal[
    "operator",
    "helpdesk",
    "technician",
    "refrigeration",
    "electrician",
    "plumber",
    "gas_supplier",
    "supervisor",
]


class Model(BaseModel):
    """Frozen all the way down: every container field is a tuple or a mapping nobody writes to."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Source(Model):
    """Where a figure comes from."""

    kind: Literal["published", "common_practice", "estimate"]
    title: Text
    edition: str = ""
    place: str = ""
    note: str = ""


class Belief(Model):
    """What the prior rests on; see `compile.py` for how one scale turns rates into odds."""

    multiple_share: Probability  # share of calls with more than one fault
    nothing_share: Probability  # share of calls where nothing is wrong
    unknown_share: Probability  # share of calls whose cause is not in this graph
    otherwise: Probability = 0.9  # the usual outcome's probability in a row that nobody wrote
    unknown_mix: Probability = 0.5  # weight of the uniform row in what an unknown cause shows
    symptom_otherwise: Probability = 0.02  # how often people report a symptom without its causes


class StopRule(Model):
    """When asking ends; see `choose.Stop`."""

    certain: Probability = 0.9
    try_at: Probability = 0.6
    unknown: Probability = 0.3
    humble: Probability = 0.4
    tells_nothing: Amount = 0.02  # bits


class Words(Model):
    """Likelihood words and the numbers they stand for."""

    almost_always: Probability = 0.95
    usually: Probability = 0.75
    sometimes: Probability = 0.4
    rarely: Probability = 0.1


class Place(Model):
    title: Text
    minutes: Amount  # to get there from anywhere else


class Channel(Model):
    """A pressure that has a sensor, a lead and a board input of its own."""

    title: Text
    each: Literal["barrel"] | None = None
    quantity: Id


class Quantity(Model):
    """Something that can be read as a number."""

    title: Text
    unit: Text
    sigma: Amount  # standard deviation of one reading, in `unit`
    each: Literal["barrel"] | None = None
    say: Refs = ()  # how people name it
    typical: tuple[float, float] | None = None  # a plausible range, to catch wrong units
    ask_unit: bool = False  # whether a number without a unit must be questioned


class Switch(Model):
    """A fact about a site that changes how often faults happen."""

    title: Text
    values: dict[Id, dict[str, Amount]]  # value -> fault (or fault pattern) -> factor on its rate


class Repeat(Model):
    """Earlier calls about the same machine that make something else more likely: look behind them."""

    ref: str = ""
    title: Text
    each: Each | None = None  # counted for every barrel or channel by itself
    of: Annotated[Refs, Field(min_length=1)]  # faults that such a call ended with
    unfound: bool = False  # calls that ended without a cause count, too
    days: Positive  # how far back calls count
    count: Annotated[int, Field(ge=1, strict=True)]  # how many of them, not counting the call at hand
    suspects: Annotated[dict[Text, Positive], Field(min_length=1)]  # fault -> factor on its rate
    settles: tuple[Id, ...] = ()  # checks that ask for the same history, so need not be asked
    say: Text  # {count} calls in {days} days; one more is the {nth}
    source: Id = "estimate"


class Recurrence(Model):
    """The general rule: what was found on this machine a short while ago is likelier again."""

    days: Positive  # how far back
    factor: Positive  # on the rate of the fault that was found
    say: Text  # {fault} was found {ago}
    source: Id = "estimate"


class Costs(Model):
    """What time and visits cost, in one currency unit; a site may override each."""

    minute_on_phone: Amount
    minute_on_site: Amount
    visit: Amount  # travel there and back
    second_visit: Amount  # the same plus goodwill
    downtime_hour: Amount  # sales lost while a machine is down
    carry_part: Amount  # carrying one part that is not needed
    part_default: Amount
    not_found: Amount  # ending with a cause that no repair of ours meets


class Pack(Model):
    """The head of a pack, `pack.yaml`: what holds for all its chapters."""

    id: Id
    title: Text
    version: Text
    belief: Belief
    stop: StopRule = StopRule()
    words: Words = Words()
    slips: dict[Role, Probability]  # chance that an answer given by this role is wrong
    roles: dict[Role, Text]
    places: dict[Id, Place]
    channels: dict[Id, Channel]
    quantities: dict[Id, Quantity]
    switches: dict[Id, Switch] = {}
    repeats: dict[Id, Repeat] = {}
    recurrence: Recurrence | None = None
    costs: Costs
    parts: dict[Id, Amount] = {}  # price of a part where it differs from the default
    safety: tuple[Id, ...]  # checks that open every session, in order
    sources: dict[Id, Source]
    glossary: dict[str, Text] = {}
    lexicon: dict[str, Refs] = {}  # concept -> ways of saying it


class Window(Model):
    """Acceptable values of one quantity on this machine."""

    static: tuple[float, float] | None = None
    flowing_min: float | None = None
    dip_max: float | None = None
    warn_low: float | None = None


class SensorType(Model):
    """A ratiometric pressure sensor: its output is a fraction of its supply."""

    full_scale: Positive  # psi
    supply: Positive  # volts
    low_fraction: Probability
    high_fraction: Probability
    display_low: Amount
    display_high: Positive


class Profile(Model):
    """One kind of machine: how many barrels, which set points, which sensors."""

    title: Text
    barrels: Annotated[int, Field(ge=1, le=8)]
    flavours: tuple[Text, ...] = ()
    windows: dict[Id, Window]
    sensor: SensorType
    switches: dict[Id, Id] = {}
    source: Id = "estimate"


class Component(Model):
    """A thing that can fail, part of a larger one."""

    ref: str = ""
    title: Text
    part_of: Id | None = None
    each: Each | None = None
    place: Id
    explain: Text  # what it is, where it is, what it looks like


class Fault(Model):
    """One failure mode of one component."""

    ref: str = ""
    title: Text
    plain: Text  # what an operator is told
    component: Id
    each: Each | None = None
    rate: Amount | dict[Id, Amount]  # primary faults per 1000 calls; per channel where repeated so
    remedy: Id
    falsifies_reading: bool = False  # hides true values in every check marked `displayed`
    source: Id = "estimate"


class EventModel(Model):
    """An intermediate event of the fault tree."""

    ref: str = ""
    title: Text
    each: Each | None = None
    gate: Literal["any", "all", "at_least"] = "any"
    k: int | None = None
    of: Annotated[Refs, Field(min_length=1)]
    source: Id = "common_practice"


class Likely(Model):
    """Likelihood words: which faults and events show this, and how often."""

    almost_always: Refs = ()
    usually: Refs = ()
    sometimes: Refs = ()
    rarely: Refs = ()


class Symptom(Likely):
    """What a person notices or the machine shows: a top event of the tree."""

    ref: str = ""
    title: Text
    each: Each | None = None
    ask: Text  # a yes-or-no question
    say: Refs
    minutes: Positive = 1.0
    place: Id = "counter"
    roles: tuple[Role, ...] = ("operator", "helpdesk", "technician")
    danger: Id | None = None  # caution that stops everything else
    source: Id = "estimate"


class Outcome(Likely):
    """One answer of a check."""

    ref: str = ""
    label: Text
    say: Refs = ()
    band: tuple[float | None, float | None] | None = None  # of the check's reading, in its unit
    danger: Id | None = None  # caution that stops everything else
    then: str = ""  # a remark shown when this is the answer


class Ask(Model):
    """The wording per role; helpdesk reads the operator's question out unless it has its own."""

    operator: Text | None = None
    helpdesk: Text | None = None
    technician: Text | None = None
    refrigeration: Text | None = None


class Check(Model):
    """A question or test: one fact, asked of one person."""

    ref: str = ""
    title: Text
    each: Each | None = None
    component: Id | None = None
    ask: Ask
    why: str = ""  # what it rules in or out, in a few words
    roles: Annotated[tuple[Role, ...], Field(min_length=1)]
    minutes: Positive
    place: Id
    tools: Refs = ()
    cautions: tuple[Id, ...] = ()
    gates: tuple[Id, ...] = ()  # to be confirmed before the check is done
    needs: dict[Id, tuple[Id, ...]] = {}  # earlier check -> outcomes that allow this one
    unless: dict[Id, tuple[Id, ...]] = {}  # earlier check -> outcomes that make this one pointless
    reading: Id | None = None  # the quantity whose bands stand at the outcomes
    work_out: str | None = None  # a calculation whose result falls into the bands
    displayed: bool = False  # the answer is what the machine displays, not the true value
    usual: Id | None = None  # the outcome when nothing that has a row is present
    otherwise: Probability | None = None
    slip: Probability | None = None
    phase: Literal["narrowing", "safety", "intake", "proving"] = "narrowing"
    outcomes: Annotated[dict[Id, Outcome], Field(min_length=2)]
    rows: dict[str, dict[Id, Probability]] = {}  # explicit numbers, where words are too coarse
    source: Id = "estimate"


class Step(Model):
    """One step of a remedy or gate."""

    do: Text
    each: Literal["barrel"] | None = None  # once for every barrel, or for the remedy's own barrel
    gate: Id | None = None  # a gate to pass here, before the next step shows
    roles: tuple[Role, ...] = ()  # who may do it; empty: whoever may do the remedy
    cautions: tuple[Id, ...] = ()
    wait: Amount = 0.0  # minutes
    confirm: str = ""  # a yes-or-no question that must be answered yes
    read: Id | None = None  # a quantity to read here
    limits: tuple[float | None, float | None] | None = None
    cannot: str = ""  # what to do when this step can't be done


class Verification(Model):
    """A reading or check that must come out right after the work."""

    check: Id | None = None
    outcomes: tuple[Id, ...] = ()  # of `check`, all of which pass
    read: Id | None = None
    window: Literal["static", "flowing_min", "dip_max"] | None = None  # from the profile
    limits: tuple[float | None, float | None] | None = None
    text: str = ""


class Remedy(Model):
    """What to do about a fault."""

    ref: str = ""
    title: Text
    plain: Text  # what an operator is told
    by: Annotated[tuple[Role, ...], Field(min_length=1)]  # who may do it
    trained: bool = False  # an operator may do it only when trained
    send: Role = "technician"  # whom to send when the person here may not do it
    minutes: Positive
    parts: tuple[Id, ...] = ()
    tools: Refs = ()
    cautions: tuple[Id, ...] = ()
    isolates: tuple[Literal["water", "gas", "syrup", "electricity", "motion"], ...] = ()
    opens_product_path: bool = False
    proof: tuple[Id, ...] = ()  # checks to record before a part is condemned
    steps: Annotated[tuple[Step, ...], Field(min_length=1)]
    verify: Annotated[tuple[Verification, ...], Field(min_length=1)]
    serve: str = ""  # what the site may serve meanwhile
    source: Id = "common_practice"


class Gate(Model):
    """A block of steps that must be confirmed, one by one, before work goes on."""

    ref: str = ""
    title: Text
    cautions: tuple[Id, ...] = ()
    steps: Annotated[tuple[Step, ...], Field(min_length=1)]
    source: Id = "common_practice"


class Caution(Model):
    """A hazard: what to do, what not to do, who may do the work."""

    ref: str = ""
    title: Text
    do: Text
    do_not: str = ""
    who: Text
    acknowledge: bool = False
    bars: tuple[Id, ...] = ()  # cautions whose work nobody is guided to by phone after this danger
    source: Id = "common_practice"


class Chapter(Model):
    """One file of a pack: a subsystem read like a chapter."""

    title: Text
    components: dict[Id, Component] = {}
    faults: dict[Id, Fault] = {}
    events: dict[Id, EventModel] = {}
    symptoms: dict[Id, Symptom] = {}
    checks: dict[Id, Check] = {}
    remedies: dict[Id, Remedy] = {}
    gates: dict[Id, Gate] = {}
    cautions: dict[Id, Caution] = {}


class Profiles(Model):
    """The file `profiles.yaml`."""

    profiles: dict[Id, Profile]


class Knowledge(Model):
    """A whole pack, its chapters merged in file order."""

    pack: Pack
    profiles: dict[Id, Profile]
    components: dict[Id, Component]
    faults: dict[Id, Fault]
    events: dict[Id, EventModel]
    symptoms: dict[Id, Symptom]
    checks: dict[Id, Check]
    remedies: dict[Id, Remedy]
    gates: dict[Id, Gate]
    cautions: dict[Id, Caution]
    chapter_of: dict[str, str]  # element id -> chapter
