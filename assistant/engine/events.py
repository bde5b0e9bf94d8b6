"""What can happen to a conversation: the events that the engine folds over.

A record is a list of these; everything else is recomputed from them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.facts import Fact


@dataclass(frozen=True, slots=True)
class Began:
    """The session opens. What is empty is asked at intake."""

    site: str = ""
    unit: str = ""  # which machine at the site
    person: str = ""
    role: str = ""  # operator, helpdesk, technician, ...
    others: str = ""  # who else is there
    trained: bool = False  # an operator trained to change cylinders and the like
    repeats: tuple[str, ...] = ()  # what earlier sessions about this machine say, a sentence each
    known: tuple[str, ...] = ()  # checks that the earlier sessions answer, so need not be asked
    serviced: tuple[tuple[str, float], ...] = ()  # piece of service -> days since it was done here
    sized: bool = False  # the number of barrels was said, whatever else of the machine is not known


@dataclass(frozen=True, slots=True)
class Said:
    """A person's line, as typed, with what was understood of it (and what was not)."""

    text: str
    facts: tuple[Fact, ...] = ()
    rest: str = ""  # words that nothing was made of


@dataclass(frozen=True, slots=True)
class Chose:
    """An offered option was picked by number or id, without any doubt."""

    option: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Measured:
    """A number for a quantity, in any unit we know; `quantity` may be empty: the one asked for."""

    value: float
    unit: str = ""
    quantity: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """A slash word: why, causes, facts, back, change, cannot, note, handover, stop, help, ..."""

    word: str
    argument: str = ""


Event = Began | Said | Chose | Measured | Asked
