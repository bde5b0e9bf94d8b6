"""The prompt's completer: hands half-typed lines to the pure completion."""

from __future__ import annotations

from typing import TYPE_CHECKING

from prompt_toolkit.completion import CompleteEvent, Completer, Completion

from assistant.talk.completion import candidates

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from prompt_toolkit.document import Document

    from assistant.talk.view import View


class AnswerCompleter(Completer):
    """Completes for whatever view the prompt has at the moment."""

    def __init__(self, view: Callable[[], View]) -> None:
        self._view = view

    def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterable[Completion]:
        """Return the completions of the text before the cursor."""
        del complete_event  # asked for with Tab or by typing: the answer is the same
        view, line = self._view(), document.text_before_cursor
        for each in candidates(line, view.ask, view.words):
            yield Completion(each.text, -len(line), display=each.shown, display_meta=each.note)
