"""How probable it is that the outcome which a reply comes closest to is what was meant.

A reply may be taken without asking again or offered. How far ahead the outcome is tells most; it also counts
how many of the words its own phrases have, and those of the next, how long the reply is and whether only a
part of it says so. Logistic regression (Hastie, Tibshirani and Friedman 2009, section 4.4.1) of what was
right on practice lines; `tests/fit_surety.py` fits the weights again.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log1p
from typing import TYPE_CHECKING

from assistant.hear import odds
from assistant.hear.features import weighty
from assistant.hear.table import comparable

if TYPE_CHECKING:
    from assistant.hear.asked import Choice
    from assistant.hear.line import Line
    from assistant.hear.phrasebook import Phrasebook
    from graph.machine import Check

TAKEN = 0.91  # how probable an outcome is that is taken without asking again
FEARED = 0.6  # likewise a dangerous one of the safety checks: asking first costs more than stopping
MOST = 6.0  # words counted at most


@dataclass(frozen=True, slots=True)
class Signs:
    """What speaks for and against an outcome being meant."""

    score: float  # how close the words come
    margin: float  # how far ahead of the next outcome
    shared: float  # words that carry meaning and that phrases of the outcome have
    rival: float  # likewise those of the next outcome
    length: float  # log(1 + words of the whole reply that carry meaning)
    number: float  # 1 where a number is told
    usual: float  # 1 where the outcome is the usual one
    part: float  # 1 where only a part of the reply is compared
    talk: float  # 1 where the reply also says "not sure" or "can't"
    agreement: float  # how far the words agree with the outcome, below 0 where they contradict it


WEIGHTS = Signs(
    score=0.745,
    margin=6.66,
    shared=0.889,
    rival=-0.59,
    length=-1.4,
    number=-0.682,
    usual=-1.27,
    part=-1.74,
    talk=-1.3,
    agreement=0.17,
)
BASE = 1.78


def signs(check: Check, choice: Choice, line: Line, book: Phrasebook, *, talks: bool) -> Signs:
    """Return what speaks for and against the best outcome; `talks` where the reply also says "not sure"."""
    first, end = choice.span
    said = comparable(line.words[first:end], book.barrels)
    rows = [book.outcomes.meanings.index(meaning) for meaning, _ in choice.ranked[:2]]
    shared = [sum(book.outcomes.has(word, [row]) for word in said if weighty(word)) for row in rows]
    usual = check.outcomes[check.usual].id if check.usual >= 0 else ""
    return Signs(
        choice.score,
        choice.margin,
        min(float(shared[0]), MOST),
        min(float(shared[-1]), MOST),
        log1p(sum(map(weighty, line.words))),
        float(line.figures_in((0, len(line.words)))),
        float(choice.ranked[0][0].outcome == usual),
        float(choice.span != (0, len(line.words))),
        float(talks),
        book.outcomes.leans.agreement(said, rows[0]),
    )


def probability(seen: Signs) -> float:
    """Return how probable it is that the outcome is meant, 0 to 1."""
    return odds.probability(BASE, WEIGHTS, seen)
