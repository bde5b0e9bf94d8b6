"""What a terminal may know of a conversation while it waits for a line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.engine.leading import Status

if TYPE_CHECKING:
    from assistant.conversation import Conversation, S, SlashWord
    from assistant.engine.effects import Ask
    from assistant.session import Session


NOWHERE = Status("")


@dataclass(frozen=True, slots=True)
class View:
    """The open question, the slash words, and where the conversation stands."""

    ask: Ask | None = None
    words: tuple[SlashWord, ...] = ()
    status: Status = NOWHERE


def view_of(conversation: Conversation[S], session: Session[S]) -> View:
    """Return the view of a session."""
    return View(session.ask, conversation.words(), conversation.status(session.state))
