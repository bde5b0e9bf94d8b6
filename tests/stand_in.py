"""A small honest conversation for tests of the shells: three questions, no pack, no mathematics.

It asks who is there, then the supply reading (a number is welcome), then whether the handle drips, and
closes. Volunteered answers to checks are taken at any time; `back` takes the last answer back.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from datetime import UTC, datetime

from assistant.cli import run
from assistant.conversation import SlashWord
from assistant.engine.effects import Ask, Cause, Closed, Decide, Effect, Option, Tell, Warn
from assistant.engine.events import Asked, Began, Chose, Event, Measured, Said
from assistant.engine.leading import Status
from assistant.facts import Fact
from assistant.history import Past, Repetition
from assistant.record import Header
from assistant.upkeep import Upkeep
from assistant.world import World

CAUSE = Cause("seal", "F01", "Worn drip seal", 0.625)
ASKS = (
    Ask(
        "intake",
        "role",
        "",
        "Who is at the machine?",
        (Option("operator", "Operator"), Option("technician", "Technician")),
    ),
    Ask(
        "check",
        "supply",
        "K01",
        "What does the supply gauge show?",
        (Option("low", "too low"), Option("good", "as it should be"), Option("unsure", "not sure")),
        unit="psi",
        bits=0.5,
        minutes=2.0,
        causes=(CAUSE,),
        bits_left=1.5,
        place="beside the cylinder",
    ),
    Ask(
        "check",
        "drip",
        "K02",
        "Does the handle drip?",
        (Option("yes", "Yes"), Option("no", "No")),
        bits_left=0.25,
    ),
)
WORDS = (
    SlashWord("why", "why this question"),
    SlashWord("back", "take the last answer back"),
    SlashWord("note", "write a note"),
    SlashWord("stop", "stop here"),
)


@dataclass(frozen=True, slots=True)
class Answers:
    """The stand-in's state: the answer to each question, empty while it is open."""

    given: tuple[str, ...] = ("", "", "")
    order: tuple[int, ...] = ()
    closed: bool = False


class StandIn:
    """The conversation; `digest` and `drop` make another pack of it, one without a question."""

    def __init__(self, digest: str = "d1", drop: str = "", prefix: str = "", pack: str = "stand_in") -> None:
        self.digest = digest
        self.prefix = prefix
        self.pack = pack
        self.asks = tuple(ask for ask in ASKS if ask.id != drop)

    def header(self, program: str, started: str) -> Header:
        return Header(program, self.pack, "1", self.digest, "one_barrel", started)

    def repetition(self, past: tuple[Past, ...]) -> Repetition:
        del past
        return Repetition()

    def upkeep(self, ages: dict[str, float], past: tuple[Past, ...]) -> Upkeep:
        del past
        return Upkeep(serviced=tuple(ages.items()))

    def open(self) -> Answers:
        return Answers(given=("",) * len(self.asks))

    def step(self, state: Answers, event: Event, at: str = "") -> tuple[Answers, tuple[Effect, ...]]:
        del at
        if state.closed:
            return state, (Tell("refused", "It is over."),)
        match event:
            case Began():
                state, shown = self._fill(state, "role", event.role), ()
            case Chose():
                state, shown = self._fill(state, self._open_id(state), event.option), ()
            case Measured():
                state = self._fill(
                    state, event.quantity or self._open_id(state), f"{event.value:g} {event.unit}"
                )
                shown = (Tell("taken", f"I take that as {event.value:g} {event.unit}".strip() + "."),)
            case Said():
                state, shown = self._said(state, event)
            case Asked():
                state, shown = self._asked(state, event)
        return self._next(state, shown)

    def wanted(self, state: Answers) -> None:
        del state

    def status(self, state: Answers) -> Status:
        ask = next((ask for ask, given in zip(self.asks, state.given, strict=True) if not given), None)
        lead = ask.causes[0] if ask is not None and ask.causes else None
        return Status(
            "CLOSED" if state.closed else "NARROWING", lead, ask.bits_left if ask is not None else None
        )

    def hear(self, text: str, asked: str) -> tuple[tuple[Fact, ...], str]:
        if "drips" in text and asked != "nothing":
            return (Fact("answer", id="drip", value="yes", words="drips"),), text.replace("drips", "").strip()
        return (), text

    def roles(self) -> tuple[str, ...]:
        return ("operator", "technician")

    def words(self) -> tuple[SlashWord, ...]:
        return WORDS

    def carried(self, event: Event, asked: str) -> Event | None:
        if isinstance(event, Chose) and asked in [ask.id for ask in self.asks]:
            return Said(event.text, (Fact("answer", id=asked, value=event.option),))
        return event if isinstance(event, Said) and event.facts else None

    def _open_id(self, state: Answers) -> str:
        return next((ask.id for ask, given in zip(self.asks, state.given, strict=True) if not given), "")

    def _fill(self, state: Answers, name: str, value: str) -> Answers:
        index = next((i for i, ask in enumerate(self.asks) if ask.id == name), -1)
        if index < 0 or not value:
            return state
        given = (*state.given[:index], value, *state.given[index + 1 :])
        return replace(state, given=given, order=(*state.order, index))

    def _said(self, state: Answers, event: Said) -> tuple[Answers, tuple[Effect, ...]]:
        for fact in event.facts:
            state = self._fill(state, fact.id, fact.value)
        return state, () if event.facts else (Tell("ignored", f'I made nothing of "{event.text}".'),)

    def _asked(self, state: Answers, event: Asked) -> tuple[Answers, tuple[Effect, ...]]:
        if event.word == "back" and state.order:
            index = state.order[-1]
            given = (*state.given[:index], "", *state.given[index + 1 :])
            return replace(state, given=given, order=state.order[:-1]), ()
        if event.word == "break":
            raise ZeroDivisionError("a defect, on purpose")
        if event.word == "stop":
            return replace(state, closed=True), (Closed("stopped", "", "", "Stopped as you wish."),)
        if event.word == "note":
            return state, (Tell("note", f"Noted: {event.argument}"),)
        return state, (Tell("refused", f'I know no word "/{event.word}".'),)

    def _next(self, state: Answers, shown: tuple[Effect, ...]) -> tuple[Answers, tuple[Effect, ...]]:
        if state.closed:
            return state, shown
        for ask, given in zip(self.asks, state.given, strict=True):
            if not given:
                return state, (*shown, replace(ask, text=self.prefix + ask.text))
        return replace(state, closed=True), (*shown, *self._end())

    def _end(self) -> tuple[Effect, ...]:
        return (
            Warn("cold", "C01", "Cold plate", "wear gloves", "touch it bare-handed", "anybody"),
            Decide(
                "do_it",
                "new_seal",
                "R01",
                "Fit a new drip seal",
                0.625,
                "operator",
                ("drip seal",),
                ("spanner",),
                ("it drips",),
                (CAUSE,),
            ),
            Closed("cured", "seal", "F01", "It is the drip seal."),
        )


class FakeClock:
    """A clock that moves one second a look."""

    def __init__(self) -> None:
        self.looks = 0

    def __call__(self) -> datetime:
        self.looks += 1
        return datetime(2026, 11, 25, 9, 15, 30, tzinfo=UTC).replace(second=self.looks % 60)


class ListBook:
    """A book that keeps its pages in memory."""

    def __init__(self) -> None:
        self.pages: list[tuple[str, Event, tuple[Effect, ...], str]] = []
        self.taken: tuple[str, Event] | None = None

    def take(self, at: str, event: Event) -> None:
        self.taken = (at, event)

    def keep(self, shown: tuple[Effect, ...], failed: str = "") -> None:
        assert self.taken is not None
        self.pages.append((*self.taken, shown, failed))
        self.taken = None


@dataclass(frozen=True, slots=True)
class Called:
    """What one call of the command did."""

    code: int
    out: str
    err: str


def call(*arguments: str, typed: str | bytes = "", conversation: StandIn | None = None) -> Called:
    """Call `barrelside` with streams in memory and the stand-in conversation."""
    given = typed if isinstance(typed, bytes) else typed.encode()
    stdin, stdout, stderr = (
        io.TextIOWrapper(io.BytesIO(data), encoding="utf-8") for data in (given, b"", b"")
    )
    talk = conversation if conversation is not None else StandIn()
    world = World({}, stdin, stdout, stderr, FakeClock(), lambda _setup: talk)
    code = run(list(arguments), world)
    texts = [stream.buffer.getvalue().decode() for stream in (stdout, stderr)]
    return Called(code, *texts)
