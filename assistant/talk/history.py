"""Lines typed before, in memory and in a file; a file that cannot be used is done without."""

from __future__ import annotations

from typing import TYPE_CHECKING

from prompt_toolkit.history import FileHistory

from assistant.visible import without_surrogates

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path


class KindHistory(FileHistory):
    """A history file that never stops a conversation: unreadable is empty, unwritable is forgotten."""

    def __init__(self, path: Path) -> None:
        super().__init__(str(path))
        self._path = path

    def load_history_strings(self) -> Iterable[str]:
        """Return the lines kept, the newest first; none where there is no file to read."""
        try:
            return list(super().load_history_strings())
        except OSError:
            return []

    def store_string(self, string: str) -> None:
        """Keep a line in the file, where that is possible."""
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            super().store_string(without_surrogates(string))
        except OSError:
            return  # the line stays in memory, which is enough to go on
