"""Sessions held for the tests of reports: a record in memory, with a clock that is told to go on."""

from __future__ import annotations

from copy import copy
from datetime import datetime, timedelta, timezone
from functools import cache
from pathlib import Path

from casts import PARLOUR
from honest import Honest
from repairing import SHUT

from assistant.conversation import Setup
from assistant.engine.effects import Ask
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.live import Live
from assistant.record import Entry, Record, entry_line, header_line
from assistant.report.gather import gather
from assistant.report.told import told

SITE = "Pier Lantern Cinemas, Westhaven"
START = datetime(2026, 11, 25, 9, 15, 30, tzinfo=timezone(timedelta(hours=1)))


@cache
def live(pack=PARLOUR, profile="two_barrel"):
    """Return the conversation about a machine of a pack, the parlour's unless said."""
    return Live.of(Setup(str(pack), profile))


class Held:
    """A session as it is held; every event takes `pace` minutes."""

    def __init__(self, role="operator", *, pack=PARLOUR, pace=1.0, site=SITE, **began):
        self.live, self.pace, self.now = live(pack), pace, START
        self.state, self.entries = self.live.open(), []
        self.event(Began(site=site, role=role, **began))

    def event(self, event):
        at = self.now.isoformat(timespec="seconds")
        self.state, shown = self.live.step(self.state, event, at)
        self.entries.append(Entry(len(self.entries) + 1, at, event, shown))
        self.now += timedelta(minutes=self.pace)
        return self

    def chose(self, *options):
        for option in options:
            self.event(Chose(option))
        return self

    def said(self, text, *facts, rest=""):
        return self.event(Said(text, tuple(facts), rest))

    def read(self, value, unit="", quantity=""):
        return self.event(Measured(value, unit, quantity))

    def word(self, word, argument=""):
        return self.event(Asked(word, argument))

    def wait(self, minutes):
        self.now += timedelta(minutes=minutes)
        return self

    @property
    def ask(self):
        """Return the open question, None after the end."""
        last = self.entries[-1].shown[-1]
        return last if isinstance(last, Ask) else None

    @property
    def record(self):
        header = self.live.header("0.1.0", START.isoformat(timespec="seconds"))
        return Record(Path("2026-11-25-091530-westhaven.jsonl"), header, tuple(self.entries))

    def told(self, pack=None):
        return told(self.record, self.live if pack is None else live(pack))

    def report(self, pack=None):
        return gather(self.told(pack))

    def write(self, folder):
        """Write the record into a folder and return its path."""
        folder.mkdir(exist_ok=True)
        path = folder / self.record.path
        path.write_bytes(header_line(self.record.header) + b"".join(map(entry_line, self.entries)))
        return path


def offered(role="operator", **more):
    """Return a session in which opening the valve has just been offered."""
    return (
        Held(role, person="Rosa", unit="foyer, left", **more)
        .chose("none", "dry")
        .said("the drinks are flat", *SHUT)
    )


def at_work(role="operator", **more):
    """Return a session at the first step of the gate before the valve."""
    return offered(role, **more).chose("yes", "yes")


def cured(role="operator", **more):
    """Return a session that ended well: the valve was shut, and opening it was proved."""
    held = at_work(role, **more).read(0.1, "%").chose("yes", "yes").read(70, "psi")
    return held.read(69, "psi").chose("yes", "yes").said("next service: March 2027")


def repairing(fault, until, role="technician", **more):
    """Return a session with the shipped pack about a machine with a fault, at the first question of an id.

    `until` is the id of a question, or "" for the whole session. It is held once and then handed out again.
    """
    held = copy(_repairing(fault, until, role, tuple(more.items())))
    held.entries = list(held.entries)
    return held


@cache
def _repairing(fault, until, role, more):
    held = Held(role, pack="", trained=True, **dict(more))
    person = Honest(held.live.case, (fault,))
    while held.ask is not None and held.ask.id != until:
        held.event(person.answer(held.ask, held.state))
    return held
