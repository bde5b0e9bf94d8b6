"""The JSON Lines protocol: one JSON value a line in, every effect as one JSON object a line out.

In: {"text": ...} or a JSON string, {"outcome": id, ref or number}, {"reading": 70, "unit": "psi",
"quantity": ...}, {"word": "why", "argument": ...}. Anything else is answered with an object of kind
"error" and one sentence, and changes nothing. The end of the input keeps the session.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Generic

from assistant import shell_wording as words
from assistant.conversation import S
from assistant.engine.effects import Ask, Cause, Closed, Decide, Effect, Tell, Warn
from assistant.engine.events import Asked, Chose, Event, Measured
from assistant.json_line import NotJson, dumps, loads
from assistant.reply import reply
from assistant.visible import without_surrogates

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import BinaryIO

    from assistant.codec import Plain
    from assistant.session import Desk, Session

LONGEST = 4000  # characters of one text
LONGEST_LINE = 1 << 20  # bytes; one line more is refused without being kept in memory
_KINDS = ("text", "outcome", "reading", "word")
_EXTRA = {"text": set(), "outcome": set(), "reading": {"unit", "quantity"}, "word": {"argument"}}


class NotUnderstood(ValueError):
    """An input line is no request; the message is one sentence."""


@dataclass(frozen=True, slots=True)
class LineTalk(Generic[S]):
    """A conversation held over two byte streams."""

    desk: Desk[S]
    write: Callable[[bytes], object]

    def run(self, session: Session[S], stream: BinaryIO) -> Session[S]:
        """Return the session after every line of `stream`; after an end, another may take over."""
        talk = self
        talk.show(session)
        while line := stream.readline(LONGEST_LINE):
            if len(line) == LONGEST_LINE and not line.endswith(b"\n"):
                _skip_line(stream)
                talk._error(f"A line is longer than {LONGEST_LINE} bytes; send shorter ones.")
            elif line.strip():
                talk, session = talk.take(session, line)
        return session

    def take(self, session: Session[S], line: bytes) -> tuple[LineTalk[S], Session[S]]:
        """Return the talk and the session after one line, which may change nothing."""
        try:
            event = self._event(loads(line), session.ask)
        except (NotJson, NotUnderstood) as error:
            self._error(f"Line not understood: {error}.")
            return self, session
        desk, session = self.desk.take(session, event)
        talk = self if desk is self.desk else replace(self, desk=desk)
        talk.show(session)
        return talk, session

    def show(self, session: Session[S]) -> None:
        """Write what the last step showed."""
        stage = self.desk.conversation.status(session.state).stage
        for effect in session.shown:
            self.write(dumps(output(effect, stage)))

    def tell(self, topic: str, text: str, name: str = "") -> None:
        """Write a sentence of the shell's own."""
        self.write(dumps(output(Tell(topic, text, name), "")))

    def _error(self, text: str) -> None:
        self.write(dumps({"kind": "error", "text": text}))

    def _event(self, value: object, ask: Ask | None) -> Event:
        request = {"text": value} if isinstance(value, str) else value
        kind = _kind(request)
        if not isinstance(request, dict):  # _kind has refused it; for the type checker
            raise NotUnderstood("expected an object or text")
        if kind == "outcome":
            return _chosen(request["outcome"], ask)
        if kind == "reading":
            return _reading(request)
        if kind == "word":
            return Asked(_text(request, "word").casefold(), _text(request, "argument"))
        event = reply(_text(request, "text"), ask, self.desk.conversation)
        if event is None:
            raise NotUnderstood('"text" is empty')
        return event


def output(effect: Effect, stage: str) -> Plain:
    """Return an effect as an object of the protocol; `text` is always there."""
    match effect:
        case Ask():
            return _ask(effect, stage)
        case Tell():
            return {
                "kind": "tell",
                "topic": effect.topic,
                "id": effect.id,
                "ref": effect.ref,
                "text": effect.text,
            }
        case Warn():
            return _all_of(effect, "warn", words.warn_text(effect))
        case Decide():
            causes = [_cause(cause) for cause in effect.causes]
            return _all_of(effect, "decide", words.decision_text(effect)) | {"causes": causes}
        case Closed():
            return _all_of(effect, "closed", words.closed_text(effect))


def _ask(ask: Ask, stage: str) -> Plain:
    return {
        "kind": "ask",
        "about": ask.about,
        "id": ask.id,
        "ref": ask.ref,
        "text": ask.text,
        "outcomes": [{"id": each.id, "ref": each.ref, "label": each.label} for each in ask.options],
        "unit": ask.unit,
        "gain_bits": ask.bits,
        "minutes": ask.minutes,
        "why": ask.why,
        "place": ask.place,
        "causes": [_cause(cause) for cause in ask.causes],
        "bits_left": ask.bits_left,
        "stage": stage,
    }


def _cause(cause: Cause) -> Plain:
    return {"id": cause.id, "ref": cause.ref, "title": cause.title, "probability": cause.probability}


def _all_of(effect: Tell | Warn | Decide | Closed, kind: str, text: str) -> Plain:
    """Return every field of an effect, the kind of effect before the kind of decision."""
    plain = {name: getattr(effect, name) for name in effect.__dataclass_fields__}
    decision = {"decision": plain.pop("kind")} if "kind" in plain else {}
    return {"kind": kind, **decision, **plain, "text": text}


def _kind(request: object) -> str:
    """Return which of the four requests this is; raise NotUnderstood."""
    if not isinstance(request, dict):
        raise NotUnderstood('expected text or an object with "text", "outcome", "reading" or "word"')
    kinds = [kind for kind in _KINDS if kind in request]
    if len(kinds) != 1:
        raise NotUnderstood('expected exactly one of "text", "outcome", "reading", "word"')
    unknown = sorted(set(request) - {kinds[0]} - _EXTRA[kinds[0]])
    if unknown:
        raise NotUnderstood(f'"{unknown[0][:40]}" does not go with "{kinds[0]}"')
    return kinds[0]


def _chosen(value: object, ask: Ask | None) -> Chose:
    """Return the option of the open question that an id, a ref or a number from 1 names."""
    options = ask.options if ask is not None else ()
    if isinstance(value, int) and not isinstance(value, bool):
        if not 1 <= value <= len(options):
            raise NotUnderstood(f'"outcome" must be from 1 to {len(options)} here')
        return Chose(options[value - 1].id, str(value))
    for option in options:
        if isinstance(value, str) and value in (option.id, option.ref):
            return Chose(option.id, value)
    names = ", ".join(option.id for option in options) or "none: the open question has no outcomes"
    raise NotUnderstood(f'"outcome" is none of the open question\'s: {names}')


def _reading(request: Plain) -> Measured:
    """Return the reading of a request; its number must be finite."""
    value = request["reading"]
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise NotUnderstood('"reading" must be a number')
    try:
        number = float(value)
    except OverflowError as error:
        raise NotUnderstood('"reading" is too large') from error
    if not math.isfinite(number):
        raise NotUnderstood('"reading" is too large')
    unit, quantity = _text(request, "unit"), _text(request, "quantity")
    return Measured(number, unit, quantity, f"{number:g} {unit}".strip())


def _text(request: Plain, key: str) -> str:
    value = request.get(key, "")
    if not isinstance(value, str):
        raise NotUnderstood(f'"{key}" must be text')
    if len(value) > LONGEST:
        raise NotUnderstood(f'"{key}" is longer than {LONGEST} characters')
    return without_surrogates(value).strip()


def _skip_line(stream: BinaryIO) -> None:
    """Read on to the end of a line that is too long."""
    while (rest := stream.readline(LONGEST_LINE)) and not rest.endswith(b"\n"):
        pass
