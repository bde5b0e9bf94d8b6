"""A session that turns out to be about another machine is told again about that one.

While only who and where was asked, the record is written anew in its place. After that what people saw
is not to be lost: the session goes on in a new record that names the old one, which stays as it is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import shell_wording as words
from assistant.carry import Old, old_events, tell_again
from assistant.engine.effects import Ask, Effect, Tell
from assistant.engine.events import Began, Chose, Said
from assistant.ledger import Ledger
from assistant.record import read_record
from assistant.session import Desk, Session
from assistant.sessions import new_path
from assistant.spotting import without
from assistant.start import site_of
from assistant.version import program_version
from assistant.wording import barrels_said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.conversation import Conversation
    from assistant.record import Record
    from assistant.world import World

WHO_AND_WHERE = ("role", "site", "place", "barrels")
IN_PLACE = ".part"  # of a record that is about to stand in the place of another
NO_STORY = ("place", "which", "fine", "began", "correct", "ask", "yes", "no", "unsure", "cannot")


@dataclass(frozen=True, slots=True)
class Retold:
    """Desk and session for the machine that it is about by now."""

    desk: Desk[object]
    session: Session[object]


def retold(
    world: World,
    desk: Desk[object],
    session: Session[object],
    conversation: Conversation[object],
    found: Began | None,
    *,
    sized: bool,
) -> Retold:
    """Return the session told again about the machine of `conversation`.

    `found` says where that is, where the last thing said was the place; `sized`, that the number of
    barrels has been said.
    """
    ledger = world.keeper.ledger
    if ledger is None:  # a session without a record: nothing to tell again
        return Retold(desk, session)
    record = read_record(ledger.path)
    before = old_events(record)
    early = all(_who_or_where(old) for old in before)
    sized = sized and not (early and _asked(before[-1], "barrels"))  # else that is answered there again
    new = _record(world, conversation, record, early=early)
    world.keeper.ledger = new
    moved = Desk(conversation, new, world.clock, desk.front)
    carried = tell_again(moved, tuple(_told(before, found, sized=sized)), anew=True)
    ledger.close()
    if found is not None:
        said = _said_since(read_record(new.path), found)
    else:
        said = _said_of_number(session, carried.session, before[-1], sized=sized)
    if early:
        world.keeper.ledger = new = new.onto(ledger.path)
        moved = replace(moved, book=new)
    else:
        remark = words.carried_on(new.path.stem, carried.taken, carried.noted)
        said = (*said, Tell("record", remark, new.path.stem))
    last = (carried.session.ask,) if carried.session.ask is not None else ()
    return Retold(moved, replace(carried.session, shown=(*said, *last)))


def _said_of_number(
    was: Session[object], now: Session[object], last: Old, *, sized: bool
) -> tuple[Effect, ...]:
    """Return what was said of a number of barrels, and of what else the line told."""
    if not sized:
        return _tells(now.shown)
    alone = _less_number(last) is None
    return _tells(was.shown) if alone else (*_tells(was.shown)[:1], *_tells(now.shown))


def _record(world: World, conversation: Conversation[object], record: Record, *, early: bool) -> Ledger:
    """Return a new record, to stand in the place of the old one or to go on from it."""
    now = world.clock()
    started = record.header.started if early else now.isoformat(timespec="seconds")
    head = replace(conversation.header(program_version(), started), cause=record.header.cause)
    if early:
        path = record.path.with_suffix(IN_PLACE)
        path.unlink(missing_ok=True)
        return Ledger.create(path, replace(head, continues=record.header.continues))
    path = new_path(record.path.parent, now, site_of(record))
    return Ledger.create(path, replace(head, continues=record.path.name))


def _told(events: tuple[Old, ...], found: Began | None, *, sized: bool) -> Iterator[Old]:
    """Yield what is to be told again.

    The place goes in as the book has it, instead of the lines that named it, and the number of barrels
    with the machine; what else those lines say stays.
    """
    for number, old in enumerate(events):
        event = old.event
        if number == 0 and isinstance(event, Began):
            yield replace(old, event=replace(event, sized=event.sized or sized))
        elif found is not None and _about_place(old):
            if number == len(events) - 1:
                yield replace(old, event=found)
            if (story := _story(old)) is not None:
                yield replace(old, event=story, then=None)
        elif not sized:
            yield old
        elif (left := _less_number(old)) is not None:
            yield left


def _less_number(old: Old) -> Old | None:
    """Return an event without the number of barrels that it says, which is settled; None for no more."""
    if not isinstance(old.event, Said):
        return None if _asked(old, "barrels") and isinstance(old.event, Chose) else old
    said = barrels_said(old.event.text, asked=_asked(old, "barrels"))
    if said is None:
        return old
    return replace(old, event=replace(old.event, text=said.rest)) if said.rest else None


def _about_place(old: Old) -> bool:
    """Return whether an event names a place of the book, or answers which one is meant."""
    if isinstance(old.event, Said) and any(fact.kind == "place" for fact in old.event.facts):
        return True
    return isinstance(old.event, Said | Chose) and _asked(old, "place")


def _story(old: Old) -> Said | None:
    """Return a line that tells anything of the machine, less the words for its place; None for any other."""
    if not isinstance(old.event, Said) or all(fact.kind in NO_STORY for fact in old.event.facts):
        return None
    places = [fact for fact in old.event.facts if fact.kind == "place"]
    return Said(without(old.event.text, places)) if places else old.event


def _asked(old: Old, *names: str) -> bool:
    return old.then is not None and old.then.about == "intake" and old.then.id in names


def _who_or_where(old: Old) -> bool:
    """Return whether an event answers who and where, whatever else it tells, but for a danger."""
    danger = isinstance(old.event, Said) and any(fact.kind == "danger" for fact in old.event.facts)
    return isinstance(old.event, Began) or (_asked(old, *WHO_AND_WHERE) and not danger)


def _said_since(record: Record, found: Began) -> tuple[Effect, ...]:
    """Return what was said from the moment at which the place was found, less the questions."""
    entries = record.folded
    at = next((n for n, entry in enumerate(entries) if entry.event == found), len(entries))
    return tuple(tell for entry in entries[at:] for tell in _tells(entry.shown))


def _tells(shown: tuple[Effect, ...]) -> tuple[Effect, ...]:
    return tuple(each for each in shown if not isinstance(each, Ask))
