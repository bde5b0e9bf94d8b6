"""How a session begins, and how one goes on: the record on disk first, then the desk.

A session that replays as recorded goes on in its own record. One that shows something else now (the
pack or the program has changed) is told again into a new record, and the old one stays as it is.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import shell_wording as words
from assistant.carry import carry_on
from assistant.conversation import Setup
from assistant.engine.effects import TAKEN_UP, Tell
from assistant.engine.events import Asked, Began
from assistant.errors import RecordUnreadable, WrongUse
from assistant.ledger import Ledger
from assistant.record import read_record
from assistant.replay import replay
from assistant.session import Desk, Session, end_of, opened
from assistant.sessions import all_records, find, new_path, records_folder
from assistant.version import program_version

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from assistant.conversation import Conversation
    from assistant.engine.effects import Effect
    from assistant.record import Header, Record
    from assistant.world import World


@dataclass(frozen=True, slots=True)
class Started:
    """A session that is ready to be held, where it is written down, and what is to be said first."""

    desk: Desk[object]
    session: Session[object]
    path: Path
    remarks: tuple[str, ...] = ()


def begin(world: World, conversation: Conversation[object], records: Path | None, began: Began) -> Started:
    """Return a new session; its record holds the header and the first event."""
    now = world.clock()
    header = conversation.header(program_version(), now.isoformat(timespec="seconds"))
    path = new_path(records_folder(records), now, began.site)
    desk = _desk(world, conversation, Ledger.create(path, header))
    return Started(desk, desk.move(opened(conversation), began), path)


def open_record(name: str, records: Path | None, *, role: str = "") -> Record:
    """Return the record that `name` means, without a name the newest session that can go on.

    That is one that is open or was left for later; with `role`, to take over, any that is not cured.
    """
    folder = records_folder(records)
    if name:
        return read_record(find(name, folder))
    sound = readable(all_records(folder))
    carried = continued(sound)
    for record in sound:
        outcome = outcome_of(record)
        may_go_on = outcome != "cured" if role else outcome in ("", *TAKEN_UP)
        if record.path.name not in carried and may_go_on:
            return record
    raise WrongUse(words.nothing_to_resume(str(folder)))


def readable(paths: Iterable[Path]) -> tuple[Record, ...]:
    """Return the records among some files; what is damaged is looked at by name only."""
    records: list[Record] = []
    for path in paths:
        with suppress(RecordUnreadable):
            records.append(read_record(path))
    return tuple(records)


def continued(records: Iterable[Record]) -> frozenset[str]:
    """Return the file names of the sessions that have gone on in another record."""
    return frozenset(record.header.continues for record in records if record.header.continues)


def outcome_of(record: Record) -> str:
    """Return how the session of a record ended, empty where it is still open."""
    end = end_of(record)
    return end.outcome if end is not None else ""


def setup_for(header: Header, pack: str) -> Setup:
    """Return the machine that a record is about; the pack's folder is not part of a record."""
    return Setup(
        pack, header.profile, header.flavours, header.switches, header.by, header.factors, header.costs
    )


def go_on(world: World, conversation: Conversation[object], record: Record) -> Started:
    """Return the session of `record`, ready to go on; raise WrongUse where its pack is not at hand."""
    header = conversation.header(program_version(), record.header.started)
    if header.pack != record.header.pack:
        raise WrongUse(words.other_pack(record.path.stem, record.header.pack, header.pack))
    again = replay(conversation, record)
    if again.differences:
        return _told_again(world, conversation, record, header)
    changed = what_changed(record.header, header) if header.digest != record.header.digest else ()
    desk = _desk(world, conversation, Ledger.reopen(record))
    session = again.session if record.folded else desk.move(again.session, Began())
    return Started(desk, _asking(session), record.path, record.remarks + changed)


def _asking(session: Session[object]) -> Session[object]:
    """Return a session that shows its open question, whatever was shown last.

    What was said of the last line typed before the break ("I did not understand that") is over.
    """
    shown = session.shown if session.ask in session.shown else (*session.shown, session.ask)
    return replace(session, shown=tuple(each for each in shown if each is not None and not _passing(each)))


def _passing(shown: Effect) -> bool:
    return isinstance(shown, Tell) and shown.topic in {"ignored", "refused"}


def taken_up(started: Started, role: str) -> Started:
    """Return a session taken over by another role, or taken up again after a stop.

    Raises WrongUse for one that ended otherwise and is not handed over.
    """
    end = started.session.end
    if role:
        word = Asked("handover", role)
    elif end is None:
        return started
    elif end.outcome in TAKEN_UP:
        word = Asked("resume")
    else:
        raise WrongUse(words.closed_already(started.path.stem))
    return replace(started, session=started.desk.move(started.session, word))


def _told_again(world: World, conversation: Conversation[object], record: Record, header: Header) -> Started:
    """Return the session told again into a new record, which names the old one."""
    now = world.clock()
    path = new_path(record.path.parent, now, site_of(record))
    started = now.isoformat(timespec="seconds")
    head = replace(header, started=started, cause=record.header.cause, continues=record.path.name)
    desk = _desk(world, conversation, Ledger.create(path, head))
    carried = carry_on(desk, record)
    said = (*what_changed(record.header, header), words.carried_on(path.stem, carried.taken, carried.noted))
    return Started(desk, _asking(carried.session), path, record.remarks + said)


def what_changed(was: Header, now: Header) -> tuple[str, ...]:
    """Return what is another now than when a session was recorded."""
    if was.digest != now.digest:
        was_pack, now_pack = f"{was.pack} {was.pack_version}", f"{now.pack} {now.pack_version}"
        return (words.pack_changed(was_pack, was.digest[:8], now_pack, now.digest[:8]),)
    return (words.program_changed(was.program, now.program),)


def site_of(record: Record) -> str:
    """Return the site that a session was begun for, or that came to light; empty where only words tell it."""
    sites = [entry.event.site for entry in record.folded if isinstance(entry.event, Began)]
    return next(filter(None, reversed(sites)), "")


def _desk(world: World, conversation: Conversation[object], ledger: Ledger) -> Desk[object]:
    world.keeper.ledger = ledger
    return Desk(conversation, ledger, world.clock)
