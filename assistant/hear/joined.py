"""A line's normal words as one text, so that patterns can be written as regular expressions."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import re
    from collections.abc import Sequence

    from assistant.hear.words import Word

Span = tuple[int, int]  # words[first:end]


@dataclass(frozen=True, slots=True)
class Joined:
    """Words with single blanks between them; `starts` are where each begins in `text`."""

    text: str
    starts: tuple[int, ...]

    @classmethod
    def of(cls, words: Sequence[Word]) -> Joined:
        """Return the joined words; marks count as words."""
        starts, length = [], 0
        for word in words:
            starts.append(length)
            length += len(word.text) + 1
        return cls(" ".join(word.text for word in words), tuple(starts))

    def span(self, match: re.Match[str], group: int = 0) -> Span:
        """Return which words a match covers."""
        first = bisect_right(self.starts, match.start(group)) - 1
        return max(first, 0), bisect_right(self.starts, max(match.end(group) - 1, match.start(group)))
