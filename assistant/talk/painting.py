"""What each style of line looks like in a terminal. Every style also says its piece in words."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from assistant.layout import Line, Style

LOOKS: Mapping[Style, str] = MappingProxyType(
    {
        "question": "bold",
        "option": "",
        "quiet": "italic",
        "plain": "",
        "caution": "bold ansiyellow",
        "stop": "bold ansired",
        "decision": "bold ansigreen",
        "closed": "bold",
    }
)


def painted(lines: Iterable[Line]) -> list[tuple[str, str]]:
    """Return lines as text fragments with their looks, a line feed after each."""
    return [(LOOKS[line.style], f"{line.text}\n") for line in lines]
