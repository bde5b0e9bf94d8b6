"""Playing a scenario: the conversation, the record and the transcript are the real ones.

Only the clock is fixed: answering a question takes as long as the pack says.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path

from demo_person import Person
from demo_scenario import Scenario, scenarios

from assistant.ledger import Ledger
from assistant.live import Live
from assistant.record import read_record
from assistant.reply import reply
from assistant.session import Desk, opened
from assistant.transcript import transcript
from assistant.version import program_version

LONGEST = 300  # lines typed
HALF_A_MINUTE = 0.5  # for what the pack gives no time


@dataclass
class Clock:
    """A clock that moves only when it is told to."""

    now: datetime

    def __call__(self):
        return self.now

    def wait(self, minutes):
        self.now += timedelta(seconds=round(minutes * 60))


@dataclass(frozen=True)
class Played:
    """What came of a scenario: the bytes of both files, and what is to be looked at."""

    record: bytes
    text: str
    session: object
    remarks: tuple


@cache
def live(setup):
    """Return the conversation about a machine."""
    return Live.of(setup)


def play(scenario: Scenario, program: str = "") -> Played:
    """Hold the session of a scenario to its end."""
    again = live(scenario.setup).repetition(scenario.earlier)
    conversation = live(replace(scenario.setup, factors=again.factors))
    began = replace(scenario.began, repeats=again.said, known=again.known)
    clock = Clock(scenario.started)
    header = conversation.header(program or program_version(), scenario.started.isoformat(timespec="seconds"))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / scenario.record.name
        ledger = Ledger.create(path, replace(header, cause=scenario.cause))
        person = Person(conversation, scenario)
        session = _held(Desk(conversation, ledger, clock), began, person, clock)
        ledger.close()
        text = transcript(read_record(path)) + "\n"
        remarks = (*person.remarks, *(f"never asked: {key}" for key in person.unused()))
        return Played(path.read_bytes(), text, session, remarks)


def _held(desk, began, person, clock):
    session = desk.move(opened(desk.conversation), began)
    for _ in range(LONGEST):
        typed = person.line(session)
        if typed is None:
            break
        clock.wait(typed.later + ((session.ask.minutes if session.ask else None) or HALF_A_MINUTE))
        event = reply(typed.text, session.ask, desk.conversation)
        session = desk.move(session, event)
    return session


def main(names):
    """Write the files of the named scenarios, of all without names; all are played before any is written."""
    chosen = [scenario for scenario in scenarios() if not names or scenario.name in names]
    for scenario, played in [(scenario, play(scenario)) for scenario in chosen]:
        scenario.record.write_bytes(played.record)
        scenario.text.write_text(played.text, encoding="utf-8", newline="\n")
        end = played.session.end
        ended = f"{end.outcome}, {end.cause}" if end else "still open"
        sys.stdout.write("\n  ".join((f"{scenario.name}: {ended}", *played.remarks)) + "\n")
