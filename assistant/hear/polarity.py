"""What is said and what is denied: the reach of "not", "hardly any", "lost its", "has gone".

Rule of the file: a flag per word, nothing about what the words mean. A negation reaches to the next mark,
the next word of contrast or joining, and at most `REACH` words that carry meaning; what fails or is lost
reaches one such word. "Not stop" denies nothing.
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
# What is as good as a negation of the one thing that it speaks of: "hardly any fizz", "stopped turning".
FAILS = listed(
    """
    hardly barely scarcely lost lose loses losing lack lacks lacking missing refuses refusing stopped stops
    fails lacked
    """
)
STOPS = frozenset(["cease", "stop", "stops", "stopping", "stopped", "quit", "end", "ends", "fail", "fails"])
# What is elsewhere is not here: "miles away from the plug", "nowhere near it".
APART = {"away": "from", "far": "from", "clear": "of", "nowhere": "near"}
GIVES_OVER = [["give", "over"], ["shut", "up"], ["let", "up"], ["pack", "up"], ["give", "up"], ["quit", "it"]]
VANISHED = frozenset(["gone", "vanished", "disappeared", "missing", "lost"])
AFTER_VANISHED = frozenset(
    ["and", "so", "in", "from", "on", "out", "now", "today", "since", "completely", "totally"]
)
BEFORE_VANISHED = listed("that which has have had is are was were all just the its it completely totally")


def answers(words: Sequence[Word], at: int) -> bool:
    """Tell whether a "no" answers a question rather than denying what follows."""
    following = words[at + 1] if at + 1 < len(words) else None
    return words[at].text == "no" and (
        following is None or following.is_mark or following.text in AFTER_ANSWER
    )


def negated(words: Sequence[Word]) -> tuple[bool, ...]:
    """Return for each word whether a negation reaches it; the negation itself is not reached."""
    flags: list[bool] = []
    left = 0
    for at, word in enumerate(words):
        following = words[at + 1].text if at + 1 < len(words) else ""
        if word.text in NEGATIONS:
            flags.append(False)
            left = 0 if answers(words, at) or ends(words, at + 1) else REACH
            continue
        undone = at > 0 and words[at - 1].text in NEGATIONS  # "never stops ticking"
        if (word.text in FAILS or APART.get(word.text) == following) and not left and not undone:
            flags.append(False)
            left = 1
            continue
        if word.is_mark or word.text in CONTRAST or word.text in {"and", "so"}:
            left = 0
        flags.append(left > 0)
        if left and word.text not in SMALL_WORDS:
            left -= 1
    for at, word in enumerate(words):
        if word.text in VANISHED:
            _deny_before(words, at, flags)
    return tuple(flags)


def ends(words: Sequence[Word], at: int) -> bool:
    """Tell whether words say to stop, so that "not" before them denies nothing: "won't give over"."""
    said = [word.text for word in words[at : at + 2]]
    if said and said[0] == "stopped" and at > 1 and words[at - 2].text in {"is", "are", "was", "were"}:
        return False  # "the paddle is not stopped"
    return bool(said) and (said[0] in STOPS or said in GIVES_OVER)


def _deny_before(words: Sequence[Word], at: int, flags: list[bool]) -> None:
    """Deny the word of which it is said, at the end of a clause, that it has gone: "the fizz has gone"."""
    following = words[at + 1] if at + 1 < len(words) else None
    if following is not None and not following.is_mark and following.text not in CONTRAST | AFTER_VANISHED:
        return
    before = at - 1
    while before >= 0 and words[before].text in BEFORE_VANISHED:
        before -= 1
    if 0 <= before < at - 1 and not words[before].is_mark and words[before].text not in SMALL_WORDS:
        flags[before] = not flags[before]
