"""Sessions over the line protocol in a process of their own, which is killed at a random moment.

A line counts as answered once the question (or the end) that follows it has been read. After each kill
the record must hold every answered line, in order, and going on must open with the question that the
record says is open.
"""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.lines import output
from assistant.record import read_record
from assistant.session import Session

if TYPE_CHECKING:
    from collections.abc import Callable
    from random import Random

ROOT = Path(__file__).parents[1]
OPENING = ("talk", "--role", "helpdesk", "--site", "Pier Lantern")
OPEN = ("about", "id", "ref", "text", "outcomes")  # what makes a question the one that was open
MOST_ANSWERS = 12  # answered before the clock of the kill starts
LONGEST_RUN = 0.3  # seconds from then to the kill
LONGEST_START = 1.5  # seconds from the start to the kill, for those killed while they start


@dataclass
class Tally:
    """What was seen over all kills; `wrong` holds every broken promise in words."""

    kills: int = 0
    answered: int = 0
    kept: int = 0
    torn: int = 0
    early: int = 0
    resumed: int = 0
    sessions: int = 0
    wrong: list[str] = field(default_factory=list)


class Caller:
    """One process that holds a session, and what it has said so far."""

    def __init__(self, *arguments: str) -> None:
        self.process = subprocess.Popen(  # noqa: S603 -- our own program
            [sys.executable, "-m", "assistant", *arguments, "--lines"],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        self.error = ""

    def listen(self) -> dict | None:
        """Return the next question or end, None when the process is gone."""
        for line in self.process.stdout:
            if not line.endswith(b"\n"):
                return None  # killed while it was writing
            said = json.loads(line)
            if said["kind"] in {"ask", "closed", "error"}:
                return said
        return None

    def say(self, request: dict) -> None:
        """Send one line; a process that is gone hears nothing."""
        try:
            self.process.stdin.write(json.dumps(request).encode() + b"\n")
            self.process.stdin.flush()
        except OSError:
            return

    def end(self) -> None:
        """Kill the process, if it still runs, and let go of its pipes."""
        self.process.kill()
        self.error = self.process.stderr.read().decode()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout, self.process.stderr):
            try:
                stream.close()
            except OSError:
                continue


def answer_to(ask: dict, random: Random) -> dict:
    """Return a request that answers a question in one of its offered ways."""
    if ask["outcomes"]:
        return {"outcome": random.choice(ask["outcomes"])["id"]}
    return {"text": "Pier Lantern"}


def kill_at_random(
    folder: Path, kills: int, random: Random, watch: Callable[[Tally], None] = lambda _: None
) -> Tally:
    """Return what came of killing sessions in `folder` so many times; `watch` sees the tally after each."""
    tally = Tally()
    while tally.kills < kills:
        _one_life(folder, _open_record(folder), tally, random)
        watch(tally)
    return tally


def _open_record(folder: Path) -> Path | None:
    """Return the record of a session that is not over; one killed before its header is none."""
    records = [path for path in sorted(folder.glob("*.jsonl")) if path.stat().st_size]
    return next((path for path in records if not _session(path).closed), None)


def _one_life(folder: Path, path: Path | None, tally: Tally, random: Random) -> None:
    """Start a process, new or going on with `path`, answer until it is killed, then look at the record."""
    known, before = set(folder.glob("*.jsonl")), _events(path)
    arguments = ("resume", str(path)) if path is not None else OPENING
    tally.sessions += path is None
    caller = Caller(*arguments, "--records", str(folder))
    early = random.random() < 0.1
    killer = threading.Timer(random.uniform(0, LONGEST_START), caller.process.kill)
    if early:
        killer.start()
    answered = _answer(caller, path, tally, random, early=early)
    killer.cancel()
    caller.end()
    tally.kills += 1
    if caller.error:
        tally.wrong.append(f"standard error: {caller.error}")
    _compare(before, answered, path or _newest(folder, known), tally)


def _newest(folder: Path, known: set[Path]) -> Path | None:
    """Return the record that was not there before."""
    return next((path for path in folder.glob("*.jsonl") if path not in known and path.stat().st_size), None)


def _answer(caller: Caller, path: Path | None, tally: Tally, random: Random, *, early: bool) -> list[dict]:
    """Answer questions until the process is gone; return the requests that were answered.

    The kill is counted in answers first, so that a slow machine answers as many as a fast one.
    """
    answered: list[dict] = []
    first = said = caller.listen()
    if first is None:
        tally.early += 1
        return answered
    expected = _shown(path) if path is not None else {}
    if expected and any(first[key] != expected[key] for key in OPEN):
        tally.wrong.append(f"resume opened with {first}, the record with {expected}")
    tally.resumed += bool(expected)
    before_kill = 0 if early else random.randint(0, MOST_ANSWERS)
    killer = threading.Timer(0.0 if early else random.uniform(0, LONGEST_RUN), caller.process.kill)
    while said is not None and said["kind"] == "ask":
        if len(answered) == before_kill:
            killer.start()
        request = answer_to(said, random)
        caller.say(request)
        said = caller.listen()
        if said is not None:
            answered.append(request)
    killer.cancel()
    return answered


def _compare(before: list, answered: list[dict], path: Path | None, tally: Tally) -> None:
    """Note what the record lacks of the lines that were answered."""
    tally.answered += len(answered)
    if path is None:
        if answered:
            tally.wrong.append("lines were answered, and there is no record")
        return
    record = read_record(path)
    tally.torn += bool(record.remarks)
    events = [entry.event for entry in record.entries]
    new = events[max(len(before), 1) :] if events else []
    told = [request.get("outcome", request.get("text")) for request in answered]
    kept = [getattr(event, "option", getattr(event, "text", "")) for event in new]
    if events[: len(before)] != before or kept[: len(told)] != told or len(kept) > len(told) + 1:
        tally.wrong.append(f"answered {told}, kept {kept}")
    tally.kept += len(kept)


def _events(path: Path | None) -> list:
    return [entry.event for entry in read_record(path).entries] if path is not None else []


def _session(path: Path) -> Session[None]:
    session: Session[None] = Session(None)
    for entry in read_record(path).folded:
        session = session.after(None, entry.shown)
    return session


def _shown(path: Path) -> dict:
    """Return the open question of a record as the protocol shows it, its stage aside."""
    ask = _session(path).ask
    return output(ask, "") if ask is not None else {}
