"""A line's normal words as one text, so that patterns can be written as regular expressions."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
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
    def of(cls, words: Sequence[Word], *, mended: bool = True) -> Joined:
        """Return the joined words, mended or as they were typed; marks count as words."""
        return cls.of_texts([word.text if mended else word.typed or word.text for word in words])

    @classmethod
    def of_texts(cls, texts: Sequence[str]) -> Joined:
        """Return texts, one for each word, joined."""
        starts, length = [], 0
        for text in texts:
            starts.append(length)
            length += len(text) + 1
        return cls(" ".join(texts), tuple(starts))

    def span(self, match: re.Match[str], group: int | str = 0) -> Span:
        """Return which words a match covers."""
        first = bisect_right(self.starts, match.start(group)) - 1
        return max(first, 0), bisect_right(self.starts, max(match.end(group) - 1, match.start(group)))

    def place(self, letter: int) -> int:
        """Return the first word that begins at a letter or behind it."""
        return bisect_left(self.starts, letter)
