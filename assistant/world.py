"""The outside as the commands see it: streams, environment, clock, and where conversations come from.

The commands are handed a `World`; the one at the process's own streams is made in `cli.py`.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, TextIO, cast

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from assistant.conversation import Conversation, Setup
    from assistant.ledger import Ledger


def local_time() -> datetime:
    """Return the time on this machine's clock, with its zone."""
    return datetime.now().astimezone()


def live(setup: Setup) -> Conversation[object]:
    """Return a conversation about a real pack."""
    from assistant.live import Live  # noqa: PLC0415 -- brings in numpy and the engine

    return cast("Conversation[object]", Live.of(setup))  # nobody here looks into its state


@dataclass(slots=True)
class Keeper:
    """Holds the open ledger, so that the last resort can save what was being handled."""

    ledger: Ledger | None = None

    def rescue(self, failed: str) -> None:
        """Write down the event that the program broke on."""
        if self.ledger is not None:
            self.ledger.rescue(failed)

    def close(self) -> None:
        """Let go of the ledger's file."""
        if self.ledger is not None:
            self.ledger.close()


@dataclass(frozen=True, slots=True)
class World:
    """Streams, environment, clock, conversations; `keeper` is the one thing in it that changes."""

    environ: Mapping[str, str]
    stdin: TextIO = field(default_factory=lambda: sys.stdin)
    stdout: TextIO = field(default_factory=lambda: sys.stdout)
    stderr: TextIO = field(default_factory=lambda: sys.stderr)
    clock: Callable[[], datetime] = local_time
    load: Callable[[Setup], Conversation[object]] = live
    keeper: Keeper = field(default_factory=Keeper)

    def print(self, text: str) -> None:
        """Write a text and a line feed to standard output."""
        self.stdout.write(f"{text}\n")
        self.stdout.flush()

    def remark(self, text: str) -> None:
        """Write a sentence to standard error, where it disturbs nobody who reads the output."""
        self.stderr.write(f"{text}\n")
        self.stderr.flush()

    def at_terminal(self) -> bool:
        """Return whether a person sits at both ends, before a terminal that can move its cursor."""
        return self.stdin.isatty() and self.stdout.isatty() and self.environ.get("TERM") != "dumb"
