"""Words for sides and totals that name no barrel: "right now", "the left side panel", "all day"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.hear.barrel_words import ADVERBIAL, AGAINST, COUNTED, HOUSING, LENGTHS, NOT_ALL
from assistant.hear.english import SMALL_WORDS, listed
from assistant.hear.mention import text_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

PUT = listed("not been fitted put pushed screwed clipped connected went go goes")


def is_no_side(words: Sequence[Word], at: int, end: int) -> bool:
    """Tell whether "right", "left" or "middle" is no barrel: "right now", "the left side panel"."""
    text, before, following = words[at].text, text_at(words, at - 1), text_at(words, end)
    if text == "right" and before == "on" and text_at(words, at - 2) in PUT:  # "was not on right"
        return True
    if text == "right" and following in {"now", "up", "next", "at", "time"}:
        return True
    leant = before == "the" and text_at(words, at - 2) in AGAINST
    return leant or following in HOUSING or (text == "middle" and following == "of")


def adds_nothing(words: Sequence[Word], at: int) -> bool:
    """Tell whether "all" or "both" counts no barrels: "all day", "straight all the way", "we both looked"."""
    text, following = words[at].text, text_at(words, at + 1)
    if text == "both":
        return text_at(words, at - 1) in {"have", "we", "us", "had", "you"}
    return text == "all" and (
        _is_adverb(words, at)
        or following in LENGTHS
        or (following == "the" and text_at(words, at + 2) in LENGTHS)
    )


def _is_adverb(words: Sequence[Word], at: int) -> bool:
    """Tell whether "all" counts nothing here: "all day", "it is all froth", "in the bottom all heavy"."""
    before = text_at(words, at - 1)
    counts = of_them(words, at + 1) > at + 1 or text_at(words, at + 1) == "the"
    thing = before.isalpha() and before not in SMALL_WORDS and not before.endswith("s")
    return (not counts and (before in ADVERBIAL or thing)) or text_at(words, at + 1) in NOT_ALL


def of_them(words: Sequence[Word], at: int) -> int:
    """Return where "of the three", "three", "sides", "one of them" end that may stand after "all"."""
    end = at
    while end < len(words) and words[end].text in COUNTED:
        end += 1
    if end > at and end < len(words) and all(word.text in {"of", "the"} for word in words[at:end]):
        return at  # "none of the usual swell" counts no barrels
    return end - 1 if end > at and words[end - 1].text in {"the", "of"} else end
