"""A record folded by the engine: the state at every moment, under the pack as it is now.

Where the record no longer replays (the pack or the program has changed), its answers are told again one
by one, as `resume` does it; beliefs are then those of the pack at hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from assistant.carry import carry_on
from assistant.engine.state import Stage
from assistant.errors import WrongUse
from assistant.live import Live
from assistant.record import read_record
from assistant.replay import replay
from assistant.report import wording as words
from assistant.session import Desk
from assistant.sessions import find, records_folder
from assistant.shell_wording import other_pack
from assistant.start import setup_for, what_changed
from assistant.version import program_version

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.engine.effects import Effect
    from assistant.engine.events import Event
    from assistant.engine.state import State
    from assistant.record import Header, Record
    from graph import Case


@dataclass(frozen=True, slots=True)
class Moment:
    """One event and what it made of the state."""

    at: str
    event: Event
    before: State
    after: State


@dataclass(frozen=True, slots=True)
class Told:
    """A record with its case and its moments; `remarks` say what a reader must know about it."""

    record: Record
    case: Case
    moments: tuple[Moment, ...]
    start: State
    again: bool = False  # told again under another pack, not folded as it stands
    remarks: tuple[str, ...] = ()

    @property
    def end(self) -> State:
        """Return the state after the last event."""
        return self.moments[-1].after if self.moments else self.start

    def roles(self) -> tuple[str, ...]:
        """Return who was there at each event of the record, by role."""
        known = {moment.at: moment.before.role or moment.after.role for moment in self.moments}
        found, role = list[str](), ""
        for entry in self.record.folded:
            role = known.get(entry.at) or role
            found.append(role)
        return tuple(found)


@dataclass(slots=True)
class _List:
    """A book in memory: what would be written down."""

    events: list[tuple[str, Event]]

    def take(self, at: str, event: Event) -> None:
        self.events.append((at, event))

    def keep(self, shown: tuple[Effect, ...], failed: str = "") -> None:
        del shown, failed


def tell(name: str, records: Path | None, pack: str) -> Told:
    """Return the session that a file or the beginning of a record's name means.

    Raises SessionNotFound, RecordUnreadable, WrongUse where it belongs to another pack, and what
    loading a pack raises.
    """
    record = read_record(find(name, records_folder(records)))
    return told(record, Live.of(setup_for(record.header, pack)))


def told(record: Record, live: Live) -> Told:
    """Return a record folded by the conversation that it belongs to; raise WrongUse for another pack."""
    header = live.header(program_version(), record.header.started)
    if header.pack != record.header.pack:
        raise WrongUse(other_pack(record.path.stem, record.header.pack, header.pack))
    changed = header.digest != record.header.digest
    differs = bool(replay(live, record).differences)
    events = _again(live, record) if differs else [(entry.at, entry.event) for entry in record.folded]
    moments = list[Moment]()
    state = live.open()
    for at, event in events:
        after, _ = live.step(state, event, at)
        moments.append(Moment(at, event, state, after))
        state = after
    lost = len(record.entries) - len(record.folded)
    remarks = (
        *record.remarks,
        *_changes(record, header, differs=differs, changed=changed),
        *((words.not_folded(lost),) if lost else ()),
    )
    return Told(record, live.case, tuple(moments), live.open(), differs, remarks)


def _changes(record: Record, header: Header, *, differs: bool, changed: bool) -> tuple[str, ...]:
    """Return in one line that pack or program are others now, and what that means for the report."""
    if not (changed or differs):
        return ()
    said = (*what_changed(record.header, header), *((words.told_again(),) if differs else ()))
    return (" ".join(said),)


def _again(live: Live, record: Record) -> list[tuple[str, Event]]:
    """Return the events that a record is told again with."""
    book = _List([])
    carry_on(Desk(live, book, lambda: datetime.fromtimestamp(0, UTC)), record)  # every event has its time
    return book.events


def doing(state: State) -> bool:
    """Return whether a repair is under way."""
    stage = state.after if state.stage is Stage.HALTED else state.stage
    return stage is Stage.DOING
