"""The prompt of a real terminal: completion with Tab, history with the arrow keys, a toolbar.

A pasted text of several lines is one answer: line two must not answer a question that nobody has seen.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from prompt_toolkit import PromptSession, print_formatted_text
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.history import History, InMemoryHistory
from prompt_toolkit.output import ColorDepth
from prompt_toolkit.styles import Style

from assistant.layout import laid_out
from assistant.shell_wording import PROMPT, toolbar
from assistant.talk.completer import AnswerCompleter
from assistant.talk.painting import painted
from assistant.talk.view import View
from assistant.visible import visible

if TYPE_CHECKING:
    from prompt_toolkit.input import Input
    from prompt_toolkit.output import Output

    from assistant.engine.effects import Effect

WIDEST = 100  # columns; longer lines are hard to read
_PLAIN_BAR = Style.from_dict({"bottom-toolbar": "noreverse", "bottom-toolbar.text": "noreverse"})


class PromptTerminal:
    """A terminal with a prompt; input and output are the process's own unless given."""

    def __init__(
        self,
        history: History | None = None,
        *,
        colour: bool = True,
        source: Input | None = None,
        output: Output | None = None,
    ) -> None:
        self._view = View()
        self._depth = None if colour else ColorDepth.DEPTH_1_BIT
        self._session: PromptSession[str] = PromptSession(
            PROMPT,
            completer=AnswerCompleter(lambda: self._view),
            complete_while_typing=False,
            history=history if history is not None else InMemoryHistory(),
            bottom_toolbar=self._toolbar,
            style=_PLAIN_BAR,
            color_depth=self._depth,
            input=source,
            output=output,
        )

    def listen(self, view: View) -> str:
        """Return the line typed; raise EOFError for Ctrl-D, KeyboardInterrupt for Ctrl-C."""
        self._view = view
        return self._session.prompt()

    def show(self, effects: tuple[Effect, ...]) -> None:
        """Print some effects in their looks."""
        self._print(painted(laid_out(effects, self._columns())))

    def say(self, text: str) -> None:
        """Print a sentence."""
        self._print([("", f"{visible(text)}\n")])

    def _print(self, fragments: list[tuple[str, str]]) -> None:
        output = self._session.output
        print_formatted_text(FormattedText(fragments), end="", output=output, color_depth=self._depth)

    def _toolbar(self) -> str:
        return visible(toolbar(self._view.status, self._columns(), self._view.ask))

    def _columns(self) -> int:
        return min(self._session.output.get_size().columns, WIDEST)
