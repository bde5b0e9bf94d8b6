"""The writing side of a session record: every event is on disk before its effects are seen.

The rule this file keeps: `take` an event, then `keep` what was shown for it; `keep` returns only when
the operating system says that the line is on the disk. If the program breaks in between, `rescue`
writes the event down as failed.
"""

from __future__ import annotations

import os
from contextlib import suppress
from typing import TYPE_CHECKING

from assistant.errors import RecordUnwritable
from assistant.record import Entry, entry_line, header_line

if TYPE_CHECKING:
    from io import FileIO
    from pathlib import Path

    from assistant.engine.effects import Effect
    from assistant.engine.events import Event
    from assistant.record import Header, Record


class Ledger:
    """An open session record, to which events are appended one by one."""

    def __init__(self, path: Path, stream: FileIO, count: int, size: int) -> None:
        self.path = path
        self._stream = stream
        self._count = count
        self._size = size
        self._taken: tuple[str, Event] | None = None

    @classmethod
    def create(cls, path: Path, header: Header) -> Ledger:
        """Return a ledger with a new file that holds the header; raise RecordUnwritable."""
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise _unwritable(path, error) from error
        try:
            ledger = cls(path, path.open("xb", buffering=0), 0, 0)
        except FileExistsError as error:
            raise RecordUnwritable(f"{path} exists already; a record is never overwritten.") from error
        except OSError as error:
            raise _unwritable(path, error) from error
        ledger._append(header_line(header))
        _sync_folder(path.parent)
        return ledger

    @classmethod
    def reopen(cls, record: Record) -> Ledger:
        """Return a ledger that goes on with `record`; a torn last line is cut off now."""
        try:
            with record.path.open("r+b") as stream:
                stream.truncate(record.intact)
            ledger = cls(record.path, record.path.open("ab", buffering=0), len(record.entries), record.intact)
        except OSError as error:
            raise _unwritable(record.path, error) from error
        if not record.ends_clean:
            ledger._append(b"\n")
        return ledger

    def take(self, at: str, event: Event) -> None:
        """Remember the event that is about to be handled."""
        self._taken = (at, event)

    def keep(self, shown: tuple[Effect, ...], failed: str = "") -> Entry:
        """Write the taken event down with what is to be shown; raise RecordUnwritable."""
        if self._taken is None:
            raise RuntimeError("keep() without take()")
        entry = Entry(self._count + 1, *self._taken, shown, failed)
        self._append(entry_line(entry))
        self._count += 1
        self._taken = None
        return entry

    def rescue(self, failed: str) -> bool:
        """Write down the event that the program broke on, if there is one; return whether there was."""
        if self._taken is None:
            return False
        self.keep((), failed)
        return True

    def onto(self, path: Path) -> Ledger:
        """Return a ledger that goes on at `path`, where this one's file now stands instead of the one there.

        It is moved in one step: whoever looks finds either the whole of the old or the whole of this.
        """
        self.close()
        try:
            self.path.replace(path)
            ledger = Ledger(path, path.open("ab", buffering=0), self._count, self._size)
        except OSError as error:
            raise _unwritable(path, error) from error
        _sync_folder(path.parent)
        return ledger

    def close(self) -> None:
        """Let go of the file."""
        self._stream.close()

    def _append(self, line: bytes) -> None:
        """Append a line and wait until it is on the disk."""
        try:
            if os.fstat(self._stream.fileno()).st_size != self._size:
                raise RecordUnwritable(
                    f"Another program writes to {self.path}; go on in one window only, or resume there again."
                )
            rest = memoryview(line)
            while rest:
                rest = rest[self._stream.write(rest) :]
            os.fsync(self._stream.fileno())
        except OSError as error:
            raise _unwritable(self.path, error) from error
        self._size += len(line)


def _unwritable(path: Path, error: OSError) -> RecordUnwritable:
    return RecordUnwritable(
        f"Cannot write the session record {path} ({error.strerror or error}); "
        "make room or name another folder with --records."
    )


def _sync_folder(folder: Path) -> None:
    """Make the file's name durable too, where the system can (Windows does it by itself)."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
