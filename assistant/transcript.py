"""A record as readable text: who it was about, what was typed, what was shown."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from assistant import shell_wording as words
from assistant.engine.effects import Ask, Decide
from assistant.engine.events import Asked, Began, Chose, Event, Measured, Said
from assistant.layout import WIDTH, text_of
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from assistant.record import Entry, Header, Record


def transcript(record: Record, width: int = WIDTH) -> str:
    """Return the text of a whole session, without a final line feed."""
    titles = {**_causes(record), **dict(record.header.titles)}
    parts = [_head(record.header, titles, width)]
    parts += [text for entry in record.entries for text in _entry(entry, titles, width)]
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


def _causes(record: Record) -> dict[str, str]:
    """Return the titles of the causes that the session named."""
    shown = (effect for entry in record.entries for effect in entry.shown)
    listed = (effect.causes for effect in shown if isinstance(effect, Ask | Decide))
    return {cause.id: cause.title for causes in listed for cause in causes}


def _head(header: Header, titles: Mapping[str, str], width: int) -> str:
    machine = ", ".join((titles.get(header.profile, header.profile), *header.flavours))
    pack = titles.get(header.pack, header.pack)
    lines = [words.session_of(header.started), words.machine_of(machine, pack, header.pack_version)]
    if header.cause:
        causes = (titles.get(name, name) for name in header.cause.split(", "))
        lines.append(words.true_cause("; ".join(causes)))
    if header.continues:
        lines.append(words.continues(header.continues))
    return "\n".join(textwrap.fill(visible(line), width) for line in lines)


def _entry(entry: Entry, titles: Mapping[str, str], width: int) -> Iterator[str]:
    event = entry.event
    yield _began(event, titles, width) if isinstance(event, Began) else f"\n{_quoted(typed(event), width)}"
    if entry.failed:
        yield textwrap.fill(visible(words.not_folded(entry.n, entry.failed)), width)
    yield text_of(entry.shown, width)


def _began(began: Began, titles: Mapping[str, str], width: int) -> str:
    """Return who was there."""
    trained, role = words.TRAINED if began.trained else "", titles.get(began.role, began.role)
    there = (began.site, began.unit, began.person, role, began.others, trained)
    return textwrap.fill(visible(", ".join(filter(None, there))), width)


def _quoted(text: str, width: int) -> str:
    """Return what was typed after a prompt, the lines of a paste under each other; a long one hangs."""
    return "\n".join(_hanging(visible(line), width) for line in text.split("\n"))


def _hanging(line: str, width: int) -> str:
    if len(words.PROMPT) + len(line) <= width:
        return f"{words.PROMPT}{line}"
    indent = " " * len(words.PROMPT)
    return textwrap.fill(line, width, initial_indent=words.PROMPT, subsequent_indent=indent)
