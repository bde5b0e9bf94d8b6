"""The head of a pack, `pack.yaml`: what holds for all its chapters."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from graph.pack.terms import Amount, Each, Id, Model, Positive, Probability, Refs, Role, Text


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
    questions: Amount = 30.0  # asked in a row without a decision: then what is known must do


class Words(Model):
    """Likelihood words and the numbers they stand for."""

    almost_always: Probability = 0.95
    usually: Probability = 0.75
    sometimes: Probability = 0.4
    rarely: Probability = 0.1


class Place(Model):
    title: Text
    minutes: Amount  # to get there from anywhere else
    caution: Id | None = None  # shown before anything that is done there


class Channel(Model):
    """A pressure that has a sensor, a lead and a board input of its own."""

    title: Text
    each: Literal["barrel"] | None = None
    quantity: Id


# Before less after; after less before; a reading less what it should be; the same whatever its sign; the
# largest less the smallest.
Difference = Literal["fall", "rise", "above", "apart", "spread"]


class Quantity(Model):
    """Something that can be read as a number."""

    title: Text
    unit: Text
    sigma: Amount  # standard deviation of one reading, in `unit`
    each: Literal["barrel"] | None = None
    say: Refs = ()  # how people name it
    typical: tuple[float, float] | None = None  # a plausible range, to catch wrong units
    ask_unit: bool = False  # whether a number without a unit must be questioned
    mistaken_for: Id | None = None  # the quantity that people read out in its place
    difference: Difference | None = None  # where it is one of two or more numbers: how it follows from them


class Switch(Model):
    """A fact about a site that changes how often faults happen; one that ages may follow from a date.

    `since` names what the age counts from: `installed`, a piece of service, or `visit`, the last of those
    that only a trade does. The value with the most days in `after` that are over then holds, unless the site
    says otherwise.
    """

    title: Text
    since: Id | None = None
    after: dict[Id, Amount] = Field(default_factory=dict)  # value -> days
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
    carry_tool: Amount = 7.5  # the same of a tool
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
    switches: dict[Id, Switch] = Field(default_factory=dict)
    repeats: dict[Id, Repeat] = Field(default_factory=dict)
    recurrence: Recurrence | None = None
    costs: Costs
    parts: dict[Id, Amount] = Field(default_factory=dict)  # price of a part where it differs from the default
    van: tuple[Id, ...] = ()  # parts at hand on every visit, so that nobody need think of them
    safety: tuple[Id, ...]  # checks that open every session, in order
    sources: dict[Id, Source]
    glossary: dict[str, Text] = Field(default_factory=dict)
    lexicon: dict[str, Refs] = Field(default_factory=dict)  # concept -> ways of saying it
