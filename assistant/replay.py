"""Replaying a record: fold its events again and compare what is shown with what was.

Two showings are the same when every word is; numbers may differ by what other arithmetic hardware
makes of the last bits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from difflib import unified_diff
from typing import TYPE_CHECKING, Generic

from assistant.codec import encode
from assistant.conversation import Conversation, S
from assistant.layout import text_of
from assistant.session import opened

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.record import Entry, Record
    from assistant.session import Session

_RELATIVE, _ABSOLUTE = 1e-6, 1e-9


@dataclass(frozen=True, slots=True)
class Difference:
    """An entry that shows something else now."""

    entry: Entry
    now: tuple[Effect, ...]

    def lines(self) -> tuple[str, ...]:
        """Return a unified diff: of the words where they differ, else of the plain values."""
        was, now = text_of(self.entry.shown).splitlines(), text_of(self.now).splitlines()
        if was == now:
            was, now = _values(self.entry.shown), _values(self.now)
        return tuple(unified_diff(was, now, f"event {self.entry.n}, recorded", "now", lineterm="", n=1))


@dataclass(frozen=True, slots=True)
class Replay(Generic[S]):
    """What came of folding a record again."""

    session: Session[S]
    events: int
    differences: tuple[Difference, ...] = ()


def replay(conversation: Conversation[S], record: Record) -> Replay[S]:
    """Return the state that a record makes, with every entry that shows something else now."""
    session = opened(conversation)
    differences: list[Difference] = []
    for entry in record.folded:
        session = session.after(*conversation.step(session.state, entry.event, entry.at))
        if not same_showing(entry.shown, session.shown):
            differences.append(Difference(entry, session.shown))
    return Replay(session, len(record.folded), tuple(differences))


def same_showing(one: tuple[Effect, ...], other: tuple[Effect, ...]) -> bool:
    """Return whether two steps showed the same, the last bits of numbers aside."""
    return _same([encode(effect) for effect in one], [encode(effect) for effect in other])


def _same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=_RELATIVE, abs_tol=_ABSOLUTE)
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_same, one, other))
    return one == other


def _values(effects: tuple[Effect, ...]) -> list[str]:
    return [f"{kind}: {value!r}" for effect in effects for kind, value in encode(effect).items()]
