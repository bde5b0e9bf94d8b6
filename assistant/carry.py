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
from assistant.facts import REPLY_KINDS
from assistant.reply import said
from assistant.session import Desk, Session, opened
from assistant.shell_wording import earlier
from assistant.spotting import without

if TYPE_CHECKING:
    from collections.abc import Iterable

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


@dataclass(frozen=True, slots=True)
class Old:
    """An event of a record, when it happened, and the question that was open before it."""

    at: str
    event: Event
    then: Ask | None


def old_events(record: Record) -> tuple[Old, ...]:
    """Return the events that made the session of a record."""
    found: list[Old] = []
    then: Ask | None = None
    for entry in record.folded:
        found.append(Old(entry.at, entry.event, then))
        then = _open_after(entry.shown, then)
    return tuple(found)


def carry_on(desk: Desk[S], record: Record) -> Carried[S]:
    """Return the session of `record` told again at `desk`, at the times when things were said."""
    return tell_again(desk, old_events(record))


def tell_again(desk: Desk[S], events: Iterable[Old], *, anew: bool = False) -> Carried[S]:
    """Return the session of some events told again at `desk`.

    With `anew`, for another machine, lines are heard again: the left barrel is another one there.
    """
    session, taken, noted = opened(desk.conversation), 0, 0
    fitted = True
    for old in events:
        if session.closed:
            break
        told = _heard_anew(desk.conversation, old, session.ask) if anew else old.event
        event = _as_now(desk.conversation, told, old.then, session.ask, fitted=fitted)
        fitted = event is not None
        if event is not None or not _is_back(old.event):
            session = desk.move(session, event or _note(old.event, old.then), old.at)
        taken, noted = taken + fitted, noted + (not fitted)
    return Carried(session, taken, noted)


def _heard_anew(conversation: Conversation[S], old: Old, now: Ask | None) -> Event:
    """Return a line as it is heard now; out of turn nothing in it is a reply. The places it names stay."""
    if not isinstance(old.event, Said):
        return old.event
    same = _same_question(old.event, old.then, now)
    places = tuple(fact for fact in old.event.facts if fact.kind == "place")
    text = without(old.event.text, places) if places else old.event.text
    heard = said(text, now if same else None, conversation) if text else Said("")
    facts = tuple(fact for fact in heard.facts if same or fact.kind not in REPLY_KINDS)
    return Said(old.event.text, (*places, *facts), heard.rest if facts or not places else "")


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
