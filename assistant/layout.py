"""Effects as plain lines of text: what the terminal, transcripts and replays show.

A line carries a style name; who paints decides what that looks like. Steering characters in any text
are written out, and nothing is wider than `width` unless a single word is.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from assistant import shell_wording as words
from assistant.engine.effects import Ask, Closed, Decide, Effect, Tell, Warn
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Style = Literal["question", "option", "quiet", "plain", "caution", "stop", "decision", "closed"]
WIDTH = 80
_LABEL_GAP = 2
_PICKERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class Line:
    """One line to show, and in what manner."""

    text: str
    style: Style = "plain"


def picker(ask: Ask, index: int) -> str:
    """Return what picks option `index`: a number, or a letter where a number means something else.

    That is a reading, or an option that goes by a number of its own ("4" is four barrels).
    """
    if ask.unit or any(o.id.isdecimal() and o.id != str(n) for n, o in enumerate(ask.options, start=1)):
        return _PICKERS[index] if index < len(_PICKERS) else ""
    return str(index + 1)


def laid_out(effects: Iterable[Effect], width: int = WIDTH) -> tuple[Line, ...]:
    """Return the lines of some effects, one after the other."""
    return tuple(line for effect in effects for line in _effect(effect, width))


def text_of(effects: Iterable[Effect], width: int = WIDTH) -> str:
    """Return the lines of some effects as one text without a final line feed."""
    return "\n".join(line.text for line in laid_out(effects, width))


def _effect(effect: Effect, width: int) -> Iterator[Line]:
    match effect:
        case Ask():
            yield from _ask(effect, width)
        case Tell():
            yield from _block(effect.text, "plain", width)
        case Warn():
            yield from _warn(effect, width)
        case Decide():
            yield from _decide(effect, width)
        case Closed():
            yield from _block(words.closed_text(effect), "closed", width)


def _ask(ask: Ask, width: int) -> Iterator[Line]:
    yield Line("")
    yield from _block(ask.text, "question", width)
    if ask.place:
        yield from _labelled("where", ask.place, "quiet", width)
    for index, option in enumerate(ask.options):
        yield from _labelled(picker(ask, index), option.label, "option", width)
    if ask.unit:
        yield from _block(words.reading_welcome(ask.unit), "quiet", width, indent="  ")


def _warn(warn: Warn, width: int) -> Iterator[Line]:
    style: Style = "stop" if warn.stop else "caution"
    yield Line("")
    yield from _block(f"{words.STOP if warn.stop else words.CAUTION} {warn.title}", style, width)
    parts = ((words.DO, warn.do), (words.DO_NOT, warn.do_not), (words.WHO, warn.who))
    for label, text in parts:
        if text:
            yield from _labelled(label, text, style, width)


def _decide(decide: Decide, width: int) -> Iterator[Line]:
    yield Line("")
    yield from _block(words.decision_head(decide), "decision", width)
    for label, texts in words.decision_parts(decide):
        for text in texts:
            yield from _labelled(label, text, "plain", width)


def _block(text: str, style: Style, width: int, indent: str = "") -> Iterator[Line]:
    """Return a text wrapped, its own line breaks and leading blanks kept."""
    for part in text.split("\n"):
        shown = visible(part)
        blanks = indent + " " * (len(shown) - len(shown.lstrip(" ")))
        for line in _wrapped(shown.strip(), width, blanks, blanks) or [""]:
            yield Line(line, style)


def _labelled(label: str, text: str, style: Style, width: int) -> Iterator[Line]:
    """Return a text wrapped beside its label."""
    head = f"  {label}{' ' * _LABEL_GAP}"
    for line in _wrapped(visible(text), width, head, " " * len(head)) or [head.rstrip()]:
        yield Line(line, style)


def _wrapped(text: str, width: int, first: str, other: str) -> list[str]:
    return textwrap.wrap(
        text,
        width=max(width, len(other) + 1),
        initial_indent=first,
        subsequent_indent=other,
        break_long_words=False,
        break_on_hyphens=False,
    )
