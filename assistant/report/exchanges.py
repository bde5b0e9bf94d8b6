"""A record as exchanges: which question was open, what was said to it, what was shown then.

Everything here comes from the record alone, so it is what people saw, whatever the pack says now. An
answer that was taken back does not stand.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.engine.effects import Ask, Closed, Tell, Warn
from assistant.engine.events import Asked, Began, Chose, Measured, Said

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.engine.events import Event
    from assistant.record import Record

ANSWERING = ("unsure", "cannot", "skip")  # slash words that answer the open question
_OWN_CONFIRMS = ("trained", "role", "safe")  # confirmations that are questions of their own


@dataclass(frozen=True, slots=True)
class Exchange:
    """Entry `n`: the question that was open (None: none), the event, what was shown, the next question."""

    n: int
    at: str
    ask: Ask | None
    event: Event
    shown: tuple[Effect, ...]
    then: Ask | None


@dataclass(frozen=True, slots=True)
class Reply:
    """A question with its answer in words. `done` is true once it led on, false where the work stopped."""

    at: str
    ask: Ask
    answer: str
    choice: str
    done: bool
    seen: tuple[Effect, ...]  # what was shown up to the next question
    then: Ask | None


def exchanges(record: Record) -> tuple[Exchange, ...]:
    """Return every entry of a record with the question that was open before and after it."""
    found, ask = list[Exchange](), None
    for entry in record.folded:
        then = open_after(entry.shown, ask)
        found.append(Exchange(entry.n, entry.at, ask, entry.event, entry.shown, then))
        ask = then
    return tuple(found)


def open_after(shown: tuple[Effect, ...], before: Ask | None) -> Ask | None:
    """Return the question that is open after a step: the last shown, none after the end."""
    marks = [effect for effect in shown if isinstance(effect, Ask | Closed)]
    if not marks:
        return before
    return marks[-1] if isinstance(marks[-1], Ask) else None


def standing(every: tuple[Exchange, ...]) -> tuple[Exchange, ...]:
    """Return the exchanges that were not taken back, each leading to the question that then stood."""
    if not every:
        return ()
    kept: list[Exchange] = []
    for exchange in every:
        if _takes_back(exchange):
            kept = _without_last(kept, exchange.then)
        else:
            kept.append(exchange)
    following = [exchange.ask for exchange in kept[1:]]
    thens = (*following, every[-1].then)[: len(kept)]
    return tuple(replace(each, then=then) for each, then in zip(kept, thens, strict=True))


def _takes_back(exchange: Exchange) -> bool:
    refused = any(isinstance(each, Tell) and each.topic == "refused" for each in exchange.shown)
    return isinstance(exchange.event, Asked) and exchange.event.word == "back" and not refused


def _without_last(kept: list[Exchange], then: Ask | None) -> list[Exchange]:
    """Return the exchanges up to the last one that answered the question now open again."""
    for index in range(len(kept) - 1, -1, -1):
        if _same(kept[index].ask, then):
            return kept[:index]
    return kept


def replies(kept: tuple[Exchange, ...]) -> dict[int, Reply]:
    """Return the replies that led on or stopped something, by the position of their exchange.

    A question that is asked again got no reply yet; one about what was just said comes in between.
    """
    found = {index: _reply(kept, index) for index in range(len(kept))}
    return {index: reply for index, reply in found.items() if reply is not None}


def _reply(kept: tuple[Exchange, ...], index: int) -> Reply | None:
    first = kept[index]
    if first.ask is None or _in_between(first.ask) or not answers(first.event):
        return None
    last = index
    while last + 1 < len(kept) and _in_between(kept[last].then):
        last += 1
    seen = tuple(effect for each in kept[index : last + 1] for effect in each.shown)
    halted = any(isinstance(effect, Warn) and effect.stop for effect in seen)
    if halted and first.ask.about in {"step", "gate", "caution", "verification"}:
        return None  # danger came between; it is asked again once it is safe
    stopped = any(isinstance(effect, Tell) and effect.topic == "stopped" for effect in seen)
    if _same(first.ask, kept[last].then) and not stopped:
        return None
    told, then = _told(first, kept[last]), kept[last].then
    choice = first.event.option if isinstance(first.event, Chose) else ""
    return Reply(first.at, first.ask, told, choice, not stopped, seen, then)


def _told(first: Exchange, last: Exchange) -> str:
    """Return an answer in words, with what was confirmed about it."""
    if last is first or last.ask is None or last.ask.about != "confirm":
        return worded(first)
    if last.ask.id == "early":
        return worded(last)
    return ", ".join(dict.fromkeys(filter(None, (worded(first), worded(last)))))


def answers(event: Event) -> bool:
    """Return whether an event answers the open question."""
    return event.word in ANSWERING if isinstance(event, Asked) else not isinstance(event, Began)


def _in_between(ask: Ask | None) -> bool:
    return ask is not None and ask.about == "confirm" and ask.id not in _OWN_CONFIRMS


def _same(one: Ask | None, other: Ask | None) -> bool:
    if one is None or other is None:
        return one is other
    return (one.about, one.id) == (other.about, other.id)


def worded(exchange: Exchange) -> str:
    """Return an answer in words: the label of an option, a number with its unit, or what was typed."""
    match exchange.event:
        case Chose() as chose:
            options = exchange.ask.options if exchange.ask is not None else ()
            return next((each.label for each in options if chose.option == each.id), chose.option)
        case Measured() as measured:
            return f"{measured.value:g} {measured.unit}".strip()
        case Said() as said:
            return said.text
        case Asked() as asked:
            return asked.argument or asked.word
    return ""
