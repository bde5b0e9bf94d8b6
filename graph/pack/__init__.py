"""What an author writes: frozen models of a knowledge pack.

Rules of the file: models only say what a *field* may be; what must hold between elements is
checked in `check.py`, so that all problems of a pack can be reported at once. References are
plain strings, resolved in `expand`:

    gas_supply.cylinder.empty            a fault, event or symptom by its id
    blending.syrup_solenoid.shut         a repeated element: the same barrel where the element that
                                         refers to it is repeated too, otherwise every barrel
    sensors.sensor.dead_low@water        one instance of an element that is repeated per channel
    sensors.sensor.dead_low@*            every instance
    gas_supply.cylinder.empty if gas_supply    only where the referring element stands for that channel
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from graph.pack.cause import Component, EventModel, Fault
from graph.pack.check import Ask, Check, Likely, Outcome, Symptom
from graph.pack.head import (
    Belief,
    Channel,
    Costs,
    Pack,
    Place,
    Quantity,
    Recurrence,
    Repeat,
    Source,
    StopRule,
    Switch,
    Words,
)
from graph.pack.heard import Heard
from graph.pack.procedure import Accept, Caution, Gate, Instead, Remedy, Step, Verification
from graph.pack.profile import Profile, Profiles, SensorType, Window
from graph.pack.service import Service
from graph.pack.terms import Amount, Each, Id, Model, Positive, Probability, Refs, Role, Text

__all__ = [
    "Accept",
    "Amount",
    "Ask",
    "Belief",
    "Caution",
    "Channel",
    "Chapter",
    "Check",
    "Component",
    "Costs",
    "Each",
    "EventModel",
    "Fault",
    "Gate",
    "Heard",
    "Id",
    "Instead",
    "Knowledge",
    "Likely",
    "Model",
    "Outcome",
    "Pack",
    "Place",
    "Positive",
    "Probability",
    "Profile",
    "Profiles",
    "Quantity",
    "Recurrence",
    "Refs",
    "Remedy",
    "Repeat",
    "Role",
    "SensorType",
    "Service",
    "Source",
    "Step",
    "StopRule",
    "Switch",
    "Symptom",
    "Text",
    "Verification",
    "Window",
    "Words",
]


Sourced = Literal["faults", "events", "symptoms", "checks", "remedies", "gates", "cautions", "service"]


class Chapter(Model):
    """One file of a pack: a subsystem read like a chapter."""

    title: Text
    components: dict[Id, Component] = Field(default_factory=dict)
    faults: dict[Id, Fault] = Field(default_factory=dict)
    events: dict[Id, EventModel] = Field(default_factory=dict)
    symptoms: dict[Id, Symptom] = Field(default_factory=dict)
    checks: dict[Id, Check] = Field(default_factory=dict)
    remedies: dict[Id, Remedy] = Field(default_factory=dict)
    gates: dict[Id, Gate] = Field(default_factory=dict)
    cautions: dict[Id, Caution] = Field(default_factory=dict)
    service: dict[Id, Service] = Field(default_factory=dict)
    rests_on: dict[Sourced, Id] = Field(default_factory=dict)  # kind -> source of those that name none


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
    service: dict[Id, Service]
    chapter_of: dict[str, str]  # element id -> chapter
    heard: Heard = Heard()
