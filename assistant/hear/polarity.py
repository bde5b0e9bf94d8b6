"""What is said and what is denied: the reach of "not", and words of doubt.

Rule of the file: a flag per word, nothing about what the words mean. A negation reaches to the next mark,
the next word of contrast or joining, and at most `REACH` words that carry meaning.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.hear.english import SMALL_WORDS, listed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

NEGATIONS = frozenset(["not", "no", "never", "without", "nobody", "nothing", "none", "neither", "nor"])
# A "no" before these answers a question and denies nothing: "no still slow".
AFTER_ANSWER = listed(
    """
    still it they the i we not nothing all just that this there same was is same but my our you he she sorry
    mate yes ok its only everything everyone now then because when
    """
)
CONTRAST = frozenset(
    ["but", "just", "though", "however", "instead", "only", "because", "since", "while", "rather"]
)
REACH = 3


def answers(words: Sequence[Word], at: int) -> bool:
    """Tell whether a "no" answers a question rather than denying what follows."""
    following = words[at + 1] if at + 1 < len(words) else None
    return words[at].text == "no" and (
        following is None or following.is_mark or following.text in AFTER_ANSWER
    )


def negated(words: Sequence[Word]) -> tuple[bool, ...]:
    """Return for each word whether a negation before it reaches it; the negation itself is not reached."""
    flags = []
    left = 0
    for at, word in enumerate(words):
        if word.text in NEGATIONS:
            flags.append(False)
            left = 0 if answers(words, at) else REACH
            continue
        if word.is_mark or word.text in CONTRAST or word.text in {"and", "so"}:
            left = 0
        flags.append(left > 0)
        if left and word.text not in SMALL_WORDS:
            left -= 1
    return tuple(flags)
