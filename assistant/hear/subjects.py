"""Whether a stretch speaks on of what was named before it: "blue is runny and a growl comes from it".

Rule of the file: only the small words of a stretch count, not what it tells.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.hear.english import listed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.joined import Span
    from assistant.hear.words import Word

NEW = frozenset(["they", "this", "that", "there", "we", "i", "machine"])
PREPOSITIONS = listed("from on in of off to with at inside behind under about for")
FIRST = 4  # words among which a new subject stands


def has_new(words: Sequence[Word], span: Span) -> bool:
    """Tell whether a stretch begins with another subject, said by a small word."""
    said = [word.text for word in words[span[0] : span[1]] if not word.is_mark][:FIRST]
    return any(text in NEW for text in said)


def refers_back(words: Sequence[Word], span: Span) -> bool:
    """Tell whether a stretch speaks of what was named before it: "there's a grinding coming from it"."""
    said = [word.text for word in words[span[0] : span[1]]]
    return any(before in PREPOSITIONS and text == "it" for before, text in pairwise(said))
