"""What may be completed of a half-typed line: answers to the open question, slash words.

Pure; the terminal's completer only hands lines in and candidates out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.layout import picker
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.conversation import SlashWord
    from assistant.engine.effects import Ask


@dataclass(frozen=True, slots=True)
class Candidate:
    """A completion: it replaces the whole line before the cursor with `text`."""

    text: str
    shown: str
    note: str = ""


def candidates(line: str, ask: Ask | None, words: Iterable[SlashWord]) -> tuple[Candidate, ...]:
    """Return what the line before the cursor may become, in the order in which it is offered.

    A line with a slash word and a blank after it has become an argument and gets none.
    """
    begun = line.lstrip()
    if begun.startswith("/"):
        return _slash_words(begun[1:].casefold(), words)
    return _answers(begun.casefold(), ask)


def _slash_words(begun: str, words: Iterable[SlashWord]) -> tuple[Candidate, ...]:
    fitting = (each for each in words if each.word.startswith(begun))
    return tuple(Candidate(f"/{each.word}", f"/{each.word}", each.help) for each in fitting)


def _answers(begun: str, ask: Ask | None) -> tuple[Candidate, ...]:
    """Return the options that begin so: by number or letter, or by any word of their label."""
    if ask is None:
        return ()
    keyed = [(picker(ask, index), option.label) for index, option in enumerate(ask.options)]
    return tuple(Candidate(label, visible(label), key) for key, label in keyed if _begins(begun, key, label))


def _begins(begun: str, key: str, label: str) -> bool:
    plain = " ".join(label.casefold().split())
    return begun == key or plain.startswith(begun) or any(word.startswith(begun) for word in plain.split())
