"""A session record: one JSON Lines file, a header and then one line an event, in order.

The event list is the truth; whatever else is known of a session is computed from it. The lines hold
what was shown too, so that a replay can be compared with what people saw.

    {"kind": "header", "format": 1, "program": ..., "pack": ..., "digest": ..., "profile": ..., ...}
    {"n": 1, "at": "2026-11-25T09:15:30+00:00", "event": {"type": "Began", ...}, "shown": [...]}

A last line that was cut off (a pulled plug) is left out with a sentence; damage anywhere before it is
refused. A line with `failed` holds an event on which the program broke: kept, but not folded.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from assistant.codec import Plain, decode_as, decode_effect, decode_event, encode, fields_of
from assistant.errors import CodecError, RecordUnreadable
from assistant.json_line import NotJson, dumps, loads

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.engine.effects import Effect
    from assistant.engine.events import Event

FORMAT = 1
_ENTRY_KEYS = {"n", "at", "event", "shown", "failed"}


@dataclass(frozen=True, slots=True)
class Header:
    """Which program, pack and machine a session belongs to; `started` is ISO 8601 with the zone."""

    program: str
    pack: str
    pack_version: str
    digest: str
    profile: str
    started: str
    flavours: tuple[str, ...] = ()
    switches: tuple[tuple[str, ...], ...] = ()  # (name, setting) each
    by: str = "minutes"  # what the next check is ranked by
    cause: str = ""  # the true cause, where it is known (demos, confirmed sessions)
    continues: str = ""  # the record that this one carries on from, after the pack changed
    factors: tuple[tuple[str, float], ...] = ()  # on the rates of faults, for what happened here before
    costs: tuple[tuple[str, float], ...] = ()  # of this site, instead of the pack's
    titles: tuple[tuple[str, str], ...] = ()  # what this line and the intake name by id: (id, title)


@dataclass(frozen=True, slots=True)
class Entry:
    """One event, when it happened, and what was shown for it."""

    n: int
    at: str
    event: Event
    shown: tuple[Effect, ...]
    failed: str = ""


@dataclass(frozen=True, slots=True)
class Record:
    """What was read from a file; `intact` bytes of it are sound, `remarks` say what is not."""

    path: Path
    header: Header
    entries: tuple[Entry, ...]
    intact: int = 0
    ends_clean: bool = True  # the last sound line has its line feed
    remarks: tuple[str, ...] = field(default=())

    @property
    def folded(self) -> tuple[Entry, ...]:
        """Return the entries that made the state: all but those on which the program broke."""
        return tuple(entry for entry in self.entries if not entry.failed)


def header_line(header: Header) -> bytes:
    """Return the first line of a record."""
    return dumps({"kind": "header", "format": FORMAT, **fields_of(header)})


def entry_line(entry: Entry) -> bytes:
    """Return the line of one entry."""
    plain: Plain = {"n": entry.n, "at": entry.at, "event": encode(entry.event)}
    if entry.failed:
        plain["failed"] = entry.failed
    return dumps(plain | {"shown": [encode(effect) for effect in entry.shown]})


def read_record(path: Path) -> Record:
    """Return the session record at `path`; raise RecordUnreadable in one sentence."""
    try:
        data = path.read_bytes()
    except OSError as error:
        raise RecordUnreadable(f"Cannot read {path} ({error.strerror or error}).") from error
    return parse_record(path, data)


def parse_record(path: Path, data: bytes) -> Record:
    """Return the record that the bytes hold; `path` names the file in messages."""
    first, *rest = data.split(b"\n")
    header = _header(path, first, torn=not rest)
    entries: list[Entry] = []
    intact = len(first) + 1
    while rest and rest[-1] == b"":
        rest.pop()
    for line in rest:
        number = len(entries) + 2
        try:
            entries.append(_entry(line, len(entries) + 1))
        except NotJson as error:
            if number <= len(rest):
                raise _damaged(path, number, error) from error
            return Record(path, header, tuple(entries), intact, remarks=(_torn(path, number),))
        except CodecError as error:
            raise _damaged(path, number, error) from error
        intact += len(line) + 1
    return Record(path, header, tuple(entries), min(intact, len(data)), ends_clean=intact <= len(data))


def _header(path: Path, line: bytes, *, torn: bool) -> Header:
    try:
        plain = loads(line)
    except NotJson as error:
        empty = "is empty" if not line.strip(b"\0 ") else f"is no session record: its first line is {error}"
        raise RecordUnreadable(f"{path} {empty}.") from error
    if not isinstance(plain, dict) or plain.get("kind") != "header" or torn:
        raise RecordUnreadable(f"{path} is no session record: its first line is no header.")
    if plain.get("format") != FORMAT or isinstance(plain["format"], bool):
        raise RecordUnreadable(
            f"{path} is a record of format {plain.get('format')!r}, this program reads format {FORMAT}; "
            "use the newer program that wrote it."
        )
    try:
        return decode_as(Header, {k: v for k, v in plain.items() if k not in {"kind", "format"}}, "header")
    except CodecError as error:
        raise RecordUnreadable(f"{path}:1: {error}") from error


def _entry(line: bytes, n: int) -> Entry:
    """Return the entry of a line; raise NotJson or CodecError."""
    plain = loads(line)
    if not isinstance(plain, dict) or not {"n", "at", "event", "shown"} <= set(plain) <= _ENTRY_KEYS:
        raise CodecError("expected an entry with n, at, event and shown")
    if plain["n"] != n or isinstance(plain["n"], bool):
        raise CodecError(f"expected entry {n}, found {plain['n']!r}")
    at, shown, failed = plain["at"], plain["shown"], plain.get("failed", "")
    if not isinstance(at, str) or not isinstance(shown, list) or not isinstance(failed, str):
        raise CodecError("at and failed must be text, shown a list")
    return Entry(n, at, decode_event(plain["event"]), tuple(map(decode_effect, shown)), failed)


def _damaged(path: Path, number: int, error: Exception) -> RecordUnreadable:
    return RecordUnreadable(f"{path}:{number}: {str(error).removesuffix('.')}; the record is damaged there.")


def _torn(path: Path, number: int) -> str:
    return (
        f"The last line of {path.name} (line {number}) was cut off and is left out; "
        "everything before it is there."
    )
