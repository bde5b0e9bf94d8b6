"""One session in progress: a conversation's state, what was last shown, and the open question.

The rule this file keeps: an event is on disk before anybody sees what came of it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Generic, Protocol

from assistant.conversation import Conversation, S
from assistant.engine.effects import Ask, Closed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from datetime import datetime

    from assistant.engine.effects import Effect
    from assistant.engine.events import Event
    from assistant.record import Record


class Book(Protocol):
    """Where events are written down: a `Ledger`, or a list in a test."""

    def take(self, at: str, event: Event) -> None:
        """Remember the event that is about to be handled."""

    def keep(self, shown: tuple[Effect, ...], failed: str = "") -> object:
        """Write the taken event down with what is to be shown."""


@dataclass(frozen=True, slots=True)
class Session(Generic[S]):
    """The state with what the shells need to know of it."""

    state: S
    shown: tuple[Effect, ...] = ()
    ask: Ask | None = None
    end: Closed | None = None

    @property
    def closed(self) -> bool:
        """Return whether the session is over."""
        return self.end is not None

    def after(self, state: S, shown: tuple[Effect, ...]) -> Session[S]:
        """Return the session one step on.

        Its last question is the open one, its last end the end, until a later question opens it
        again; a step with neither changes neither.
        """
        marks = [effect for effect in shown if isinstance(effect, Ask | Closed)]
        if not marks:
            return replace(self, state=state, shown=shown)
        last = marks[-1]
        ask, end = (last, None) if isinstance(last, Ask) else (None, last)
        return replace(self, state=state, shown=shown, ask=ask, end=end)


class Front(Protocol[S]):
    """Who knows the places that people name, and takes a session to the machine that it is about."""

    def heard(self, event: Event, ask: Ask | None, conversation: Conversation[S]) -> Event:
        """Return an event with the places that it names."""
        ...

    def settled(self, desk: Desk[S], session: Session[S]) -> tuple[Desk[S], Session[S]]:
        """Return desk and session as they are for the machine that the session is about."""
        ...


@dataclass(frozen=True, slots=True)
class Desk(Generic[S]):
    """What it takes to move a session on: the conversation, the book, the clock."""

    conversation: Conversation[S]
    book: Book
    clock: Callable[[], datetime]
    front: Front[S] | None = None

    def take(self, session: Session[S], event: Event) -> tuple[Desk[S], Session[S]]:
        """Return the desk and the session after what a person said, perhaps about another machine."""
        if self.front is None:
            return self, self.move(session, event)
        event = self.front.heard(event, session.ask, self.conversation)
        return self.front.settled(self, self.move(session, event))

    def move(self, session: Session[S], event: Event, at: str = "") -> Session[S]:
        """Return the session after `event`, which is written down by then; `at` is now if empty."""
        at = at or self.clock().isoformat(timespec="seconds")
        self.book.take(at, event)
        state, shown = self.conversation.step(session.state, event, at)
        self.book.keep(shown)
        return session.after(state, shown)


def end_of(record: Record) -> Closed | None:
    """Return how the session of a record ended, None where it is still open."""
    session: Session[None] = Session(None)
    for entry in record.folded:
        session = session.after(None, entry.shown)
    return session.end


def opened(conversation: Conversation[S]) -> Session[S]:
    """Return a session to which nothing has happened yet."""
    return Session(conversation.open())


def folded(conversation: Conversation[S], events: Iterable[Event]) -> Session[S]:
    """Return the session that a list of events makes, which touches no file."""
    session = opened(conversation)
    for event in events:
        session = session.after(*conversation.step(session.state, event))
    return session
