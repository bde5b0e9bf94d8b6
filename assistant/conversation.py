"""What a shell needs of a conversation: open it, step it, ask its status, hear a line.

The engine's state is opaque here; a shell only carries it from one step to the next. `Conversation`
is given to every shell as an argument, so that a shell can be driven without pack or engine.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeVar

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.engine.effects import Effect
    from assistant.engine.events import Event
    from assistant.engine.leading import Status
    from assistant.engine.placing import Wanted
    from assistant.facts import Fact
    from assistant.history import Past, Repetition
    from assistant.record import Header
    from assistant.upkeep import Upkeep

S = TypeVar("S")


@dataclass(frozen=True, slots=True)
class Setup:
    """Which machine a conversation is about, and how the next check is ranked."""

    pack: str = ""  # folder of the pack; empty: the shipped one
    profile: str = ""  # empty: the pack's usual one
    flavours: tuple[str, ...] = ()
    switches: tuple[tuple[str, ...], ...] = ()
    by: str = "minutes"
    factors: tuple[tuple[str, float], ...] = ()  # (fault, factor on its rate): what happened here before
    costs: tuple[tuple[str, float], ...] = ()  # (cost, amount): the site's own


@dataclass(frozen=True, slots=True)
class SlashWord:
    """A word after a slash, with the line of help that goes with it."""

    word: str
    help: str


class Conversation(Protocol[S]):
    """A conversation about one machine: pure functions of the state that they are handed."""

    def header(self, program: str, started: str) -> Header:
        """Return the head of a new record: pack, digest, profile and what else decides the answers."""
        ...

    def repetition(self, past: tuple[Past, ...]) -> Repetition:
        """Return what earlier sessions about the same machine say of this one."""
        ...

    def upkeep(self, ages: Mapping[str, float], past: tuple[Past, ...]) -> Upkeep:
        """Return what ages in days of the machine and its service, and earlier sessions, say of it."""
        ...

    def open(self) -> S:
        """Return the state before the first event."""
        ...

    def step(self, state: S, event: Event, at: str = "") -> tuple[S, tuple[Effect, ...]]:
        """Return the next state and what is to be shown; `at` is when the event happened."""
        ...

    def wanted(self, state: S) -> Wanted | None:
        """Return what was said of which machine it is, where that is still to be looked up."""
        ...

    def status(self, state: S) -> Status:
        """Return where the conversation stands."""
        ...

    def hear(self, text: str, asked: str) -> tuple[tuple[Fact, ...], str]:
        """Return what was understood of a line, and its rest; `asked` is the open check or empty."""
        ...

    def roles(self) -> tuple[str, ...]:
        """Return who may take part."""
        ...

    def words(self) -> tuple[SlashWord, ...]:
        """Return the slash words that the conversation knows."""
        ...

    def carried(self, event: Event, asked: str) -> Event | None:
        """Return an earlier event as this pack can take it, told out of turn; None if it cannot."""
        ...
