"""What is done about a fault: remedies, their steps, gates and cautions."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from graph.pack.terms import Amount, Id, Model, Positive, Refs, Role, Text


class Accept(Model):
    """What is acceptable of one of several things that may be read, and where that comes from."""

    limits: tuple[float | None, float | None]
    source: Id = "common_practice"


class Instead(Model):
    """What keeps a step from being done as it stands, and what to try then; after it the step comes again."""

    label: Text  # as the person would say it
    do: Text
    cautions: tuple[Id, ...] = ()


class Step(Model):
    """One step of a remedy or gate."""

    do: Text
    each: Literal["barrel"] | None = None  # once for every barrel, or for the remedy's own barrel
    gate: Id | None = None  # a gate to pass here, before the next step shows
    by_gate: bool = False  # the gate is all there is to this step: nothing more is confirmed
    roles: tuple[Role, ...] = ()  # who may do it; empty: whoever may do the remedy
    cautions: tuple[Id, ...] = ()
    wait: Amount = 0.0  # minutes
    confirm: str = ""  # a yes-or-no question that must be answered yes
    read: Id | None = None  # a quantity to read here
    limits: tuple[float | None, float | None] | None = None
    either: dict[Id, Accept] = Field(default_factory=dict)  # or one of several quantities to read here
    redo: str = ""  # what to do before it is read once more; without it, a gate's number ends the work
    instead: dict[Id, Instead] = Field(default_factory=dict)  # ways on where it can't be done as it stands
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
    proof: Refs = ()  # checks to record before a part is condemned, of one place or wherever they stand
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
    undo: str = ""  # how what it made safe for a check is put back afterwards
    source: Id = "common_practice"


class Caution(Model):
    """A hazard: what to do, what not to do, who may do the work."""

    ref: str = ""
    title: Text
    do: Text
    do_not: str = ""
    who: Text
    hold: str = ""  # what holds until somebody calls the danger over, in one sentence
    acknowledge: bool = False
    bars: tuple[Id, ...] = ()  # cautions whose work nobody is guided to by phone after this danger
    source: Id = "common_practice"
