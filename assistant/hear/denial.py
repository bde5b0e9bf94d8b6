"""Whether a stretch of words denies a trouble rather than telling one: "not flat", "screen ok".

Rule of the file: both readings are compared with the symptoms, the words as they stand and with the opposite
meaning; how the two compare decides. Logistic regression (Hastie, Tibshirani and Friedman 2009, section
4.4.1) of what was right on practice lines; `tests/fit_denial.py` fits the weights again.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.hear import odds
from assistant.hear.joined import Joined
from assistant.hear.polarity import NEGATIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

DENIED = 0.5  # how probable a denial is that is heard as one
SURE = 0.85  # how probable one reading is that leaves the other out of the question
OVER_LEAD = 0.1  # how much closer to a symptom words come without "has stopped" where that says it is over
EARLY = 3  # words among which a negation stands early
FINE = frozenset(
    [
        "fine",
        "ok",
        "good",
        "perfect",
        "great",
        "normal",
        "alright",
        "grand",
        "lovely",
        "spot",
        "sound",
        "brilliant",
        "working",
        "works",
        "normally",
        "properly",
    ]
)


# What was there is over: "the banging has stopped", "the warning cleared itself".
OVER = re.compile(
    r"(?<= )(has |have |is |are |all |now |just |it |itself |since )*"
    r"(stopped|gone( (away|off|now))?|cleared( up| off)?|vanished|disappeared|went away|sorted|cured|over|"
    r"finished|fixed)"
    r"( itself| by itself| on its own| now| today| again| ok| completely| altogether| any more)*( [,.!])*$"
)


@dataclass(frozen=True, slots=True)
class Readings:
    """How the two readings of some words compare."""

    lead: float  # how much closer to a symptom the words come with the opposite meaning
    close: float  # how close they come so
    agreement: float  # how far the words as they stand agree with the symptom that would be denied
    probability: float  # of that symptom among all, given the words with the opposite meaning
    fine: float  # 1 where the words call something fine
    early: float  # 1 where a negation stands early, or the words end by saying that it is over


WEIGHTS = Readings(
    lead=10.6,
    close=0.856,
    agreement=-1.75,
    probability=1.6,
    fine=0.975,
    early=0.772,
)
BASE = -5.19


def is_fine(said: Sequence[Word]) -> float:
    """Return 1 where words call something fine, else 0."""
    return float(any(word.text in FINE for word in said))


def denies_early(said: Sequence[Word]) -> bool:
    """Tell whether a negation stands among the first words."""
    return any(word.text in NEGATIONS for word in said[:EARLY])


def without_end(said: Sequence[Word]) -> tuple[Word, ...] | None:
    """Return the words before "has stopped", "went away" and the like, None where they do not end so."""
    joined = Joined.of(said)
    over = OVER.search(joined.text)
    before = tuple(said[: joined.span(over)[0]]) if over else ()
    return before if any(not word.is_mark for word in before) else None


def probability(seen: Readings) -> float:
    """Return how probable it is that the words deny a trouble, 0 to 1."""
    return odds.probability(BASE, WEIGHTS, seen)
