"""Answers that nobody asked for: "just had a look, the stopcock is shut".

A stretch of a line is compared with the outcomes of every check, and with what each check is about: told
unasked, an answer names its subject. How probable it is that the closest one is meant is a logistic
regression (Hastie, Tibshirani and Friedman 2009, section 4.4.1) of what was right on practice lines;
`tests/fit_volunteered.py` fits the weights again.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log1p
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear import odds, trust, unasked
from assistant.hear.features import tokens, weighty
from assistant.hear.table import comparable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.joined import Span
    from assistant.hear.line import Line
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.table import Meaning

TAKEN, OFFERED = 0.95, 0.43  # how probable an answer is that is taken without asking; that is asked about
GUESSED = 0.15  # likewise where nothing else of a line was understood
TOPIC = 0.5  # what naming the subject of a check counts beside coming close to an outcome
SKILL = 0.06  # what speaks against a check that takes somebody trained: fewer people can tell of it
FOREIGN = 0.5  # what a word that is no check's subject counts beside others
RIVAL = 0.8  # how close, of the best, another outcome comes that is offered beside it
RIVALS = 3
SURELY = 0.98  # a stretch so probably a symptom is no answer, which need not be looked for
EXACT = 0.95  # so close come words that are a phrase of the outcome
LONGEST = 2  # neighbouring stretches that may tell one answer together
FEWEST = 2  # words that carry meaning in an answer; one will do beside a barrel's name
MOST = 6.0  # words counted at most


@dataclass(frozen=True, slots=True)
class Signs:
    """What speaks for and against an answer being meant that nobody asked for."""

    score: float  # how close the words come to the outcome, 0 to 1
    topic: float  # how close they come to what its check is about, 0 to 1
    lead: float  # how far both together are ahead of any other check
    within: float  # likewise of the other outcomes of the same check
    ahead: float  # how much closer the outcome is than any symptom
    symptom: float  # how probable it is that a symptom is meant
    shared: float  # words that carry meaning and that phrases of the outcome have
    foreign: float  # likewise words that none of them has
    beside: float  # log(1 + words that carry meaning in the rest of the line)
    barrel: float  # 1 where a barrel is named
    number: float  # 1 where a number is told
    skilled: float  # 1 where only people at the open machine are asked
    agreement: float  # how far the words agree with the outcome, below 0 where they contradict it
    exact: float  # 1 where the words are a phrase of the outcome


WEIGHTS = Signs(
    score=-2.51,
    topic=4.57,
    lead=1.65,
    within=1.86,
    ahead=7.07,
    symptom=-2.25,
    shared=1.38,
    foreign=-0.169,
    beside=-0.346,
    barrel=0.0403,
    number=-1.24,
    skilled=-0.465,
    agreement=1.72,
    exact=-2.16,
)
BASE = -7.53


@dataclass(frozen=True, slots=True)
class Answer:
    """The outcomes that a stretch of a line comes closest to, best first, with how close."""

    ranked: tuple[tuple[Meaning, float], ...]
    span: Span
    signs: Signs

    @property
    def probability(self) -> float:
        """How probable it is that the best one is meant, 0 to 1."""
        return odds.probability(BASE, WEIGHTS, self.signs)


def told(line: Line, segments: Sequence[Span], book: Phrasebook, asked: str = "") -> tuple[Answer, ...]:
    """Return the answers that stretches of a line may give, none overlapping, the most probable ones.

    `asked` is the check that was asked, which is answered elsewhere.
    """
    found = sorted(candidates(line, segments, book, asked), key=lambda answer: -answer.probability)
    kept: list[Answer] = []
    for answer in found:
        if all(answer.span[1] <= other.span[0] or other.span[1] <= answer.span[0] for other in kept):
            kept.append(answer)
    return tuple(sorted(kept, key=lambda answer: answer.span))


def candidates(line: Line, segments: Sequence[Span], book: Phrasebook, asked: str = "") -> list[Answer]:
    """Return the answer that each stretch, and each pair of neighbours, comes closest to."""
    spans = [
        (segments[first][0], segments[end - 1][1])
        for first in range(len(segments))
        for end in range(first + 1, min(first + LONGEST, len(segments)) + 1)
        if segments[end - 1][0] - segments[first][1] <= 1 or end == first + 1
    ]
    return [answer for span in spans if (answer := _read(line, span, book, asked)) is not None]


def _read(line: Line, span: Span, book: Phrasebook, asked: str) -> Answer | None:
    words = line.words[span[0] : span[1]]
    said = comparable(words, book.barrels)
    barrel = any(mention.scope == "some" for mention in line.mentions_in(span))
    telling = [word for word in said if weighty(word)]
    if len(telling) < FEWEST - barrel or words[0].text in unasked.DEPENDENT:
        return None
    symptom = unasked.read(line.words, span, book)
    trouble = 0.0 if symptom is None else trust.probability(trust.signs(symptom, line, book))
    if trouble >= SURELY:
        return None
    rows = book.tellable
    places = book.topic_of[rows]
    scores = book.outcomes.scores(said)[rows]
    about = book.topics.cosines(tokens(said, book.outcomes.concepts), FOREIGN)[places]
    total = scores + TOPIC * about - SKILL * book.skilled[rows]
    for other in book.outcomes_of.get(asked, ())[:1]:
        total[places == book.topic_of[other]] = 0.0
    order = np.argsort(-total, kind="stable")[:RIVALS]
    best, row = int(order[0]), int(rows[order[0]])
    own = places == places[best]
    beside = np.flatnonzero(own & (np.arange(len(rows)) != best))
    shared = sum(book.outcomes.has(word, [row]) for word in telling)
    near = [
        (book.outcomes.meanings[int(rows[at])], float(scores[at]))
        for at in order
        if total[at] >= RIVAL * total[best]
    ]
    return Answer(
        tuple(near),
        span,
        Signs(
            float(scores[best]),
            float(about[best]),
            float(total[best] - total[~own].max(initial=0.0)),
            float(total[best] - total[beside].max(initial=0.0)),
            float(scores[best]) - float(book.symptoms.scores(said).max()),
            trouble,
            min(float(shared), MOST),
            min(float(len(telling) - shared), MOST),
            log1p(max(sum(map(weighty, comparable(line.words, book.barrels))) - len(telling), 0)),
            float(barrel),
            float(line.figures_in(span)),
            float("operator" not in book.checks[near[0][0].check].roles),
            book.outcomes.leans.agreement(said, row),
            float(scores[best] >= EXACT),
        ),
    )
