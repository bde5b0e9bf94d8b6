"""Carrying a session on under a changed pack or program: its events are told again, one by one.

Where the same question is open again, the event goes in as it was. Where another is, an answer goes in
as something volunteered, by the id of its check. What no longer fits is kept as a note. The old record
stays as it is; the new one replays by itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic

from assistant.conversation import S
from assistant.engine.effects import Ask, Closed
from assistant.engine.events import Asked, Began, Chose, Event, Measured, Said
from assistant.session import Desk, Session, opened
from assistant.shell_wording import earlier

if TYPE_CHECKING:
    from assistant.conversation import Conversation
    from assistant.record import Record

_CHECKS = ("check", "symptom")  # what an answer is about that can also be told out of turn
_BACK = "back"


@dataclass(frozen=True, slots=True)
class Carried(Generic[S]):
    """A session told again: how many entries went in, and how many became notes."""

    session: Session[S]
    taken: int
    noted: int


def carry_on(desk: Desk[S], record: Record) -> Carried[S]:
    """Return the session of `record` told again at `desk`, at the times when things were said."""
    session, open_then, taken, noted = opened(desk.conversation), None, 0, 0
    fitted = True
    for entry in record.folded:
        if session.closed:
            break
        event = _as_now(desk.conversation, entry.event, open_then, session.ask, fitted=fitted)
        fitted = event is not None
        if event is not None or not _is_back(entry.event):
            session = desk.move(session, event or _note(entry.event, open_then), entry.at)
        taken, noted = taken + fitted, noted + (not fitted)
        open_then = _open_after(entry.shown, open_then)
    return Carried(session, taken, noted)


def _as_now(
    conversation: Conversation[S], event: Event, then: Ask | None, now: Ask | None, *, fitted: bool
) -> Event | None:
    """Return what to tell instead of `event`; None where it no longer fits."""
    if _is_back(event):
        return event if fitted else None
    if isinstance(event, Began | Asked) or _same_question(event, then, now):
        return event
    about_check = then is not None and then.about in _CHECKS
    return conversation.carried(event, then.id if then is not None and about_check else "")


def _same_question(event: Event, then: Ask | None, now: Ask | None) -> bool:
    """Return whether the question that was open is open again, with the option that was chosen."""
    if then is None or now is None or (then.about, then.id) != (now.about, now.id):
        return False
    return not isinstance(event, Chose) or event.option in [option.id for option in now.options]


def _is_back(event: Event) -> bool:
    return isinstance(event, Asked) and event.word == _BACK


def _note(event: Event, then: Ask | None) -> Asked:
    """Return the note that keeps what was said."""
    return Asked("note", earlier(then.text if then is not None else "", _typed(event, then)))


def _typed(event: Event, then: Ask | None) -> str:
    match event:
        case Chose():
            options = then.options if then is not None else ()
            label = next((option.label for option in options if option.id == event.option), event.option)
            return event.text if event.text and not event.text.isdigit() else label
        case Measured():
            return event.text or f"{event.value:g} {event.unit}".strip()
        case Said():
            return event.text
    return ""


def _open_after(shown: tuple[object, ...], before: Ask | None) -> Ask | None:
    """Return the question that was open after an entry."""
    if any(isinstance(effect, Closed) for effect in shown):
        return None
    return next((effect for effect in reversed(shown) if isinstance(effect, Ask)), before)
