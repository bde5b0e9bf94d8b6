"""What can be seen or asked: symptoms, checks, and what shows under which fault."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from graph.pack.terms import Each, Id, Model, Positive, Probability, Refs, Role, Text

Affects = Literal["all", "some", "none"]


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
    then: str = ""  # what is ordered at once where it is there
    confirm: str = ""  # a yes-or-no question whether that is done; asked at once
    affects: Affects | None = None  # how many barrels do not give a proper drink, where it says so
    covers: dict[Id, tuple[Id, ...]] = Field(default_factory=dict)  # answers that its presence repeats
    recent: bool = False  # it tells of something done just before: what was done long ago does not count
    history: bool = False  # it tells how the trouble began: nothing to look at again after a repair
    unless: dict[Id, tuple[Id, ...]] = Field(default_factory=dict)  # answers that make asking it pointless
    source: Id = "estimate"


class Outcome(Likely):
    """One answer of a check."""

    ref: str = ""
    label: Text
    say: Refs = ()
    band: tuple[float | None, float | None] | None = None  # of the check's reading, in its unit
    danger: Id | None = None  # caution that stops everything else
    then: str = ""  # a remark shown when this is the answer
    confirm: str = ""  # a yes-or-no question whether what the remark orders is done; asked at once
    affects: Affects | None = None  # how many barrels do not give a proper drink, where it says so
    covers: dict[Id, tuple[Id, ...]] = Field(default_factory=dict)  # answers that this one repeats


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
    undo: str = ""  # what has to be opened, plugged or set back once it is answered
    roles: Annotated[tuple[Role, ...], Field(min_length=1)]
    minutes: Positive
    place: Id
    tools: Refs = ()
    cautions: tuple[Id, ...] = ()
    gates: tuple[Id, ...] = ()  # to be confirmed before the check is done
    needs: dict[Id, tuple[Id, ...]] = Field(
        default_factory=dict
    )  # earlier check -> outcomes that allow this one
    unless: dict[Id, tuple[Id, ...]] = Field(
        default_factory=dict
    )  # earlier check -> outcomes that make this one pointless
    reading: Id | None = None  # the quantity whose bands stand at the outcomes
    work_out: str | None = None  # a calculation whose result falls into the bands
    displayed: bool = False  # the answer is what the machine displays, not the true value
    usual: Id | None = None  # the outcome when nothing that has a row is present
    otherwise: Probability | None = None
    slip: Probability | None = None
    phase: Literal["narrowing", "safety", "intake", "proving"] = "narrowing"
    outcomes: Annotated[dict[Id, Outcome], Field(min_length=2)]
    rows: dict[str, dict[Id, Probability]] = Field(
        default_factory=dict
    )  # explicit numbers, where words are too coarse
    source: Id = "estimate"
