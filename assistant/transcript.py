"""A record as readable text: who it was about, what was typed, what was shown."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from assistant import shell_wording as words
from assistant.engine.events import Asked, Began, Chose, Event, Measured, Said
from assistant.layout import WIDTH, text_of
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.record import Entry, Header, Record


def transcript(record: Record, width: int = WIDTH) -> str:
    """Return the text of a whole session, without a final line feed."""
    parts = [_head(record.header)]
    parts += [text for entry in record.entries for text in _entry(entry, width)]
    return "\n".join(part for part in parts if part).strip("\n")


def typed(event: Event) -> str:
    """Return what a person typed, or would have typed, for an event; several lines as they were."""
    match event:
        case Began():
            return ""
        case Said():
            return event.text
        case Chose():
            return event.text or event.option
        case Measured():
            return event.text or f"{event.value:g} {event.unit}".strip()
        case Asked():
            return f"/{event.word} {event.argument}".strip()


def _head(header: Header) -> str:
    machine = ", ".join((header.profile, *header.flavours))
    lines = [words.session_of(header.started), words.machine_of(machine, header.pack, header.pack_version)]
    if header.cause:
        lines.append(words.true_cause(header.cause))
    if header.continues:
        lines.append(words.continues(header.continues))
    return "\n".join(map(visible, lines))


def _entry(entry: Entry, width: int) -> Iterator[str]:
    yield _began(entry.event) if isinstance(entry.event, Began) else f"\n{_quoted(typed(entry.event))}"
    if entry.failed:
        yield textwrap.fill(visible(words.not_folded(entry.n, entry.failed)), width)
    yield text_of(entry.shown, width)


def _began(began: Began) -> str:
    """Return who was there, one line."""
    trained = words.TRAINED if began.trained else ""
    return visible(
        ", ".join(filter(None, (began.site, began.unit, began.person, began.role, began.others, trained)))
    )


def _quoted(text: str) -> str:
    """Return what was typed after a prompt, the lines of a paste under each other."""
    return "\n".join(f"{words.PROMPT}{visible(line)}" for line in text.split("\n"))
