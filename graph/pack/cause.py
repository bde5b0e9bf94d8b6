"""What can fail and how: components, faults, and the events that they make true."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from graph.pack.terms import Amount, Each, Id, Model, Refs, Text


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
