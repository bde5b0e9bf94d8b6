"""How probable it is that the symptom which words come closest to is what was meant.

A symptom may be taken without asking, offered, or left out. How close the words come does not tell that
alone: it also counts how far ahead the symptom is, how many of the words its own phrases have, whether a
barrel is named, and how long the line is. Logistic regression (Hastie, Tibshirani and Friedman 2009, section
4.4.1) of what was right on practice lines; `tests/fit_trust.py` fits the weights again.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log1p
from typing import TYPE_CHECKING, Literal

from assistant.hear import odds
from assistant.hear.features import weighty
from assistant.hear.table import comparable

if TYPE_CHECKING:
    from assistant.hear.line import Line
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.unasked import Told

TAKEN, OFFERED = 0.964, 0.1  # how probable a symptom is that is taken unasked; that is asked about at all
GUESSED = 0.02  # likewise where nothing else was understood
FEARED = 0.6  # how probable a dangerous one is that is taken: asking first costs more than stopping
ALARMING = 0.6  # how close one word alone must come to something dangerous
MOST = 6.0  # words counted at most

Trust = Literal["taken", "asked", "not"]


@dataclass(frozen=True, slots=True)
class Signs:
    """What speaks for and against a symptom being meant."""

    score: float  # how close the words come, 0 to 1
    lead: float  # how far ahead of the next symptom
    closest: float  # cosine with the nearest phrase, by words alone
    probability: float  # of the symptom among all, given the words
    shared: float  # words that carry meaning and that phrases of the symptom have
    foreign: float  # likewise words that none of them has
    length: float  # log(1 + words that carry meaning)
    beside: float  # log(1 + such words in the rest of the line)
    barrel: float  # 1 where a barrel is named
    number: float  # 1 where a number is told
    sure: float  # 1 where nothing else the words may say comes close


WEIGHTS = Signs(
    score=6.96,
    lead=3.19,
    closest=-1.38,
    probability=0.841,
    shared=0.788,
    foreign=-0.403,
    length=-0.274,
    beside=-0.586,
    barrel=0.951,
    number=-1.2,
    sure=2.13,
)
BASE = -6.01  # log odds where every sign is 0


def signs(found: Told, line: Line, book: Phrasebook) -> Signs:
    """Return what speaks for and against the symptom that a stretch of a line comes closest to."""
    said = comparable(line.words[found.span[0] : found.span[1]], book.barrels)
    row = book.symptoms.meanings.index(found.ranked[0][0])
    telling = [word for word in said if weighty(word)]
    shared = sum(book.symptoms.has(word, book.kin[row]) for word in telling)
    return Signs(
        found.score,
        found.lead,
        book.symptoms.closest(said, found.ranked[0][0]),
        book.symptoms.probability(said, row),
        min(float(shared), MOST),
        min(float(len(telling) - shared), MOST),
        log1p(len(telling)),
        log1p(max(sum(map(weighty, comparable(line.words, book.barrels))) - len(telling), 0)),
        float(bool(line.mentions_in(found.span))),
        float(line.figures_in(found.span)),
        float(found.sure),
    )


def probability(told: Signs) -> float:
    """Return how probable it is that the symptom is meant, 0 to 1."""
    return odds.probability(BASE, WEIGHTS, told)


def trusted(found: Told, line: Line, book: Phrasebook, *, alone: bool = False) -> Trust:
    """Return whether the symptom that a stretch comes closest to is taken unasked, asked about or not heard.

    `alone` where nothing else of the line was understood: to ask then costs less than to know nothing.
    Where the words contradict the symptom it is asked about, however probable.
    """
    best = found.ranked[0][0]
    seen = signs(found, line, book)
    probable = probability(seen)
    feared = probable >= FEARED and (seen.shared > 1 or seen.score >= ALARMING)
    if best.check in book.dangers and not found.denied and feared:
        return "taken"
    said = comparable(line.words[found.span[0] : found.span[1]], book.barrels)
    row = book.symptoms.meanings.index(best)
    contrary = not found.denied and book.symptoms.leans.agreement(said, *book.kin[row]) < 0
    if probable < (GUESSED if alone else OFFERED):
        return "not"
    return "taken" if probable >= TAKEN and not contrary else "asked"
