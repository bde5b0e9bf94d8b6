"""One kind of machine, and the file `profiles.yaml`."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from graph.pack.terms import Amount, Id, Model, Positive, Probability, Text


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
    switches: dict[Id, Id] = Field(default_factory=dict)
    source: Id = "estimate"


class Profiles(Model):
    """The file `profiles.yaml`."""

    profiles: dict[Id, Profile]
