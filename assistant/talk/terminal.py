"""What a conversation needs of a terminal, and the plain one: lines in, lines out.

The plain terminal serves pipes, answer files, and terminals that can move no cursor. One line is one
answer there; a pasted text of several lines is several answers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from assistant.layout import WIDTH, text_of
from assistant.shell_wording import PROMPT
from assistant.visible import visible

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from typing import TextIO

    from assistant.engine.effects import Effect
    from assistant.talk.view import View


class Terminal(Protocol):
    """Where a conversation is held."""

    def listen(self, view: View) -> str:
        """Return the next thing typed; raise EOFError or KeyboardInterrupt when the person leaves."""
        ...

    def show(self, effects: tuple[Effect, ...]) -> None:
        """Show what a step wants shown."""
        ...

    def say(self, text: str) -> None:
        """Show a sentence of the shell's own."""
        ...


class PlainTerminal:
    """Answers from any lines; `echo` writes each after the prompt, as if it had been typed there."""

    def __init__(self, lines: Iterable[str], out: TextIO, *, echo: bool, width: int = WIDTH) -> None:
        self._lines = iter(lines)
        self._out = out
        self._echo = echo
        self._width = width

    def listen(self, view: View) -> str:
        """Return the next line; raise EOFError after the last."""
        del view  # there is nothing to complete and no toolbar
        self._write(PROMPT)
        try:
            line = next(self._lines)
        except StopIteration:
            self._write("\n")
            raise EOFError from None
        if self._echo:
            self._write(f"{visible(line)}\n")
        return line

    def show(self, effects: tuple[Effect, ...]) -> None:
        """Write the lines of some effects."""
        if effects:
            self._write(f"{text_of(effects, self._width)}\n")

    def say(self, text: str) -> None:
        """Write a sentence."""
        self._write(f"{visible(text)}\n")

    def _write(self, text: str) -> None:
        self._out.write(text)
        self._out.flush()


def answers(lines: Iterable[str]) -> Iterator[str]:
    """Return the answers of a script: one a line, without blank lines and `#` comments."""
    for line in lines:
        answer = line.strip("\ufeff \t\r\n")
        if answer and not answer.startswith("#"):
            yield answer
