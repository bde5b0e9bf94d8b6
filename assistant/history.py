"""What happened at a machine before: its earlier sessions, and what the pack's rules make of them.

The rule: a session counts from when it began, at the machine it was begun for, by the cause it ended
with. What a person confirmed afterwards (the `cause` of the header) goes before what the session itself
closed with. Damaged records are passed over; a session that went on in a newer record counts there.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import islice, pairwise
from typing import TYPE_CHECKING

from assistant import sites_wording as words
from assistant.engine.effects import Ask, Decide
from assistant.errors import RecordUnreadable
from assistant.json_line import NotJson, loads
from assistant.record import read_record
from assistant.session import end_of
from assistant.sessions import all_records

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from pathlib import Path

    from assistant.engine.effects import Cause, Closed
    from assistant.record import Record
    from graph.machine import Machine, Recurrence, Repeat

CURED = ("cured", "cured_for_now")  # ends after which the cause is known, not only suspected
UNDECIDED = ("", "stopped", "made_safe")  # still open, or left before anything was decided
UNFOUND = "not_found"
_FIRST_LINES = 9  # a header and the entries within which the site is asked


@dataclass(frozen=True, slots=True)
class Past:
    """One earlier session about a machine; `causes` are fault instances, none where none was named."""

    name: str
    pack: str
    started: datetime
    days: float  # how long ago it began
    outcome: str  # empty while it is open
    causes: tuple[str, ...] = ()
    titles: tuple[str, ...] = ()  # of the causes, as they were shown; an id where none was
    found: bool = False  # whether the cause was found, not only the likeliest when somebody was sent

    @property
    def cured(self) -> bool:
        """Return whether the session ended with the machine put right."""
        return self.outcome in CURED


@dataclass(frozen=True, slots=True)
class Repetition:
    """What earlier sessions say of a new one: factors on rates, sentences, checks that need not be asked."""

    factors: tuple[tuple[str, float], ...] = ()
    said: tuple[str, ...] = ()
    known: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Heading:
    """What the first lines of a record say, without reading all of it."""

    path: Path
    site: str
    unit: str
    continues: str


def folded(name: str) -> str:
    """Return a name as names are compared: letter case and spacing do not count, `_` is a space."""
    return " ".join(name.casefold().replace("_", " ").split())


def headings(folder: Path) -> tuple[Heading, ...]:
    """Return the headings of the records in `folder`, newest first, less those that went on in another."""
    found = [heading for path in all_records(folder) if (heading := _heading(path)) is not None]
    gone_on = {heading.continues for heading in found}
    return tuple(heading for heading in found if heading.path.name not in gone_on)


def about(known: Iterable[Heading], sites: Iterable[str], units: Iterable[str]) -> tuple[Heading, ...]:
    """Return the headings of one machine; `sites` and `units` are the names that it goes by."""
    here, machine = {folded(name) for name in sites}, {folded(name) for name in units}
    return tuple(one for one in known if folded(one.site) in here and folded(one.unit) in machine)


def past_sessions(known: Iterable[Heading], now: datetime) -> Iterator[Past]:
    """Yield what became of the sessions with these headings, in their order."""
    for heading in known:
        with suppress(RecordUnreadable, ValueError):  # the latter: no time that we can read
            past = _past(read_record(heading.path), now)
            if past.days >= 0.0:  # a clock that was wrong then or is now
                yield past


def _heading(path: Path) -> Heading | None:
    """Return the heading of a record, None where its first lines cannot be read."""
    try:
        with path.open("rb") as file:
            header, *entries = [loads(line) for line in islice(file, _FIRST_LINES) if line.endswith(b"\n")]
    except (OSError, NotJson, ValueError):  # the latter: not a single line
        return None
    continues = _text(header, "continues")
    events = [_part(entry, "event") for entry in entries]
    named = [event for event in events if _text(event, "type") == "Began" and _text(event, "site")]
    began = (named or events[:1] or [None])[-1]  # where it is may come to light, or be put right, later
    site = _text(began, "site") or _site_told(entries)
    return Heading(path, site, _text(began, "unit"), continues)


def _site_told(entries: Sequence[object]) -> str:
    """Return the site that was told in words when it was asked for."""
    for before, entry in pairwise(entries):
        shown, event = _part(before, "shown"), _part(entry, "event")
        last = shown[-1] if isinstance(shown, list) and shown else None
        asked = (_text(last, "about"), _text(last, "id")) == ("intake", "site")
        if asked and _text(event, "type") == "Said":
            return _text(event, "text")
    return ""


def _part(plain: object, name: str) -> object:
    return plain.get(name) if isinstance(plain, dict) else None


def _text(plain: object, name: str) -> str:
    found = _part(plain, name)
    return found if isinstance(found, str) else ""


def _past(record: Record, now: datetime) -> Past:
    started = datetime.fromisoformat(record.header.started).astimezone()
    ago = (now.astimezone() - started) / timedelta(days=1)
    end = end_of(record)
    outcome = end.outcome if end is not None else ""
    confirmed = tuple(record.header.cause.replace(",", " ").split())
    causes = confirmed or _closed_with(end)
    found = bool(confirmed) or outcome in CURED
    shown = {cause.id: cause.title for cause in _shown(record)}
    titles = tuple(shown.get(cause, cause) for cause in causes)
    return Past(record.path.stem, record.header.pack, started, ago, outcome, causes, titles, found)


def _shown(record: Record) -> Iterator[Cause]:
    """Yield every cause that a session showed with its title."""
    for entry in record.folded:
        for effect in entry.shown:
            yield from effect.causes if isinstance(effect, Ask | Decide) else ()


def _closed_with(end: Closed | None) -> tuple[str, ...]:
    decided = end is not None and end.outcome not in UNDECIDED
    return (end.cause,) if end is not None and decided and end.cause else ()


def repetition(machine: Machine, past: Sequence[Past]) -> Repetition:
    """Return what the rules of the machine's pack make of earlier sessions about it."""
    past = tuple(each for each in past if each.pack == machine.pack)
    factors: dict[str, float] = {}
    said: list[str] = []
    known: list[str] = []
    for repeat in machine.repeats:
        count = sum(_counts(repeat, each) for each in past)
        if count >= repeat.count:
            _multiply(factors, repeat.suspects)
            said.append(words.repeated(repeat.say, count, repeat.days))
            known += repeat.settles
    if machine.recurrence is not None:
        recent = _recent(machine.recurrence, past)
        titles = {fault.id: fault.title for fault in machine.faults}
        for cause, days in recent.items():
            if cause in titles:
                _multiply(factors, {cause: machine.recurrence.factor})
                said.append(words.recurred(machine.recurrence.say, titles[cause], days))
    return Repetition(tuple(factors.items()), tuple(said), tuple(dict.fromkeys(known)))


def _counts(repeat: Repeat, past: Past) -> bool:
    """Return whether a session is one of those that a rule counts."""
    unfound = repeat.unfound and past.outcome == UNFOUND and not past.causes
    return past.days <= repeat.days and (unfound or bool(set(past.causes) & set(repeat.of)))


def _recent(rule: Recurrence, past: Iterable[Past]) -> dict[str, float]:
    """Return the causes that were found within the days of the general rule, with how long ago at last."""
    recent: dict[str, float] = {}
    for each in past:
        if each.found and each.days <= rule.days:
            for cause in each.causes:
                recent[cause] = min(each.days, recent.get(cause, each.days))
    return recent


def _multiply(factors: dict[str, float], more: Mapping[str, float]) -> None:
    for name, factor in more.items():
        factors[name] = factors.get(name, 1.0) * factor
