"""What a line tells without being asked: symptoms, said or denied.

Rule of the file: a run of neighbouring stretches is compared with every symptom, as said, and with its
negation taken out: if it comes closer to a symptom that way, that symptom is denied ("not flat, just runny").
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear import denial
from assistant.hear.denial import FINE
from assistant.hear.english import FILLERS
from assistant.hear.features import MASKS, weighty
from assistant.hear.joined import Joined
from assistant.hear.polarity import CONTRAST, NEGATIONS, answers, ends
from assistant.hear.table import Meaning, comparable
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from assistant.hear.joined import Span
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.words import Word

LEAD = 0.8  # what being ahead of the next counts beside being close
FEWEST = 0.2  # trust below this, and nothing was understood
CLEARLY, CHATTER = 0.9, 0.7  # a symptom less to be trusted is none where words come so close to chatter
LONE = 0.5  # likewise where one word alone carries the meaning
SPOKEN = 3  # small words that say something together: "it just will not come out"
LONE_TRUST = 0.57  # or to be trusted so far
NAMED_ONLY = 0.9  # likewise where there is nothing but a barrel's name: "not the cola"
SPOKEN_OF = 0.4  # how close words must come to a symptom to say that what it is of is fine
NEAREST = 3  # symptoms looked at for contradiction
CONTRARY = -0.35  # words that agree so little with a symptom say the opposite of it
OPPOSITE = 0.3  # what contradiction takes from how close words come
# What people do to try the machine is no trouble by itself: "I open the tap and ...".
OPERATING = re.compile(
    r"^(and |so |if |when |whenever )?((i|we|you|they|he|she) )?(open|pull|press|push|lift|try)\b"
)
# What is said not to be to blame tells nothing: "the compressor isn't the problem", "it isn't the water".
CLEARED = re.compile(
    r"\b(is|are|was) not (the|an?|my|our) (issue|problem|fault|cause|trouble|culprit)\b"
    r"|^(and |but |so |no |, )*(it|that) is not (the|a) \w+( \w+)?( [,.!])*$"
    r"|\bnothing (is |at all )?wrong with (it|this|that|the machine)\b"
    r"|\b(it|that) is not (that|it|those|them|this)( [,.!])*$"
)
NOT_ONE = frozenset(["one"])
UNTROUBLED = re.compile(
    r"(nothing|not anything|no (problems?|issues?|trouble|bother|faults?))( at all)?( wrong)? (with|on)\b"
)
NO, WELL = words_of("not fine")
DENIERS = NEGATIONS
DEPENDENT = frozenset(["when", "while", "whenever", "if", "until", "till"])
EARLY = 3  # a denial comes before the third word that carries meaning


@dataclass(frozen=True, slots=True)
class Told:
    """A symptom that a run of words comes closest to, with the next best; `denied` if it is denied."""

    ranked: tuple[tuple[Meaning, float], ...]
    span: Span
    denied: bool = False
    sure: bool = True  # whether it may be taken without asking
    otherwise: tuple[Meaning, float] | None = None  # what is told if it is no denial, or denied if it is one

    @property
    def score(self) -> float:
        """How close the best one comes."""
        return self.ranked[0][1]

    @property
    def lead(self) -> float:
        """How far ahead of the next the best one is; a machine may have one symptom only."""
        return self.score - (self.ranked[1][1] if len(self.ranked) > 1 else 0.0)

    @property
    def trust(self) -> float:
        """How much the best one is to be trusted: how close it comes, and how far ahead of the next it is."""
        return self.score + LEAD * self.lead


def read(words: Sequence[Word], span: Span, book: Phrasebook) -> Told | None:
    """Return the symptoms that one run of words comes closest to, None if to none at all."""
    if CLEARED.search(" ".join(word.text for word in words[span[0] : span[1]])):
        return None
    said = _untroubled(comparable(words[span[0] : span[1]], book.barrels))
    carrying = sum(weighty(word) for word in said)
    straight = book.symptoms.scores(said)
    found = Told(_best(straight, said, book), span)
    talk, clear = book.chatter.likeness(said), found.trust >= CLEARLY
    found = _denial(found, said, straight, book)
    if not (clear or found.denied) and talk >= max(CHATTER, found.score):
        return None
    if found.denied:
        return found if clear or talk < max(CHATTER, found.score) else None
    if OPERATING.match(" ".join(word.text for word in said)):
        found = replace(found, sure=False)
    rest = [word for word in said if not word.is_mark and word.text not in MASKS | NEGATIONS | FILLERS]
    named_only = not carrying and len(rest) < len(said) and len(rest) < SPOKEN
    enough = NAMED_ONLY if named_only else LONE if carrying < 2 else 0.0  # noqa: PLR2004 - one word alone
    clear = found.trust >= LONE_TRUST and not named_only
    return found if found.trust >= FEWEST and (found.score >= enough or clear) else None


def _untroubled(said: tuple[Word, ...]) -> tuple[Word, ...]:
    """Return the words, "nothing wrong with the fizz" put as "the fizz fine"."""
    joined = Joined.of(said)
    match = UNTROUBLED.search(joined.text)
    if match is None:
        return said
    first, end = joined.span(match)
    return (*said[:first], *said[end:], WELL)


def _denial(found: Told, said: Sequence[Word], straight: NDArray[np.float64], book: Phrasebook) -> Told:
    """Return what is denied, where the words look more like a denial; else what was found."""
    turned = _turned(said, straight, book)
    if turned is None:
        return found
    if _praises(said) and found.score >= SPOKEN_OF:
        return replace(found, denied=True, sure=False)
    ended = denial.without_end(said) is not None
    scores = book.symptoms.scores(turned)
    other, first = _best(scores, turned, book), int(scores.argmax())
    probable = denial.probability(
        denial.Readings(
            lead=float(scores.max() - straight.max()),
            close=other[0][1],
            agreement=_agreement(said, first, book),
            probability=book.symptoms.probability(turned, book.symptoms.meanings.index(other[0][0])),
            fine=denial.is_fine(said),
            early=float(denial.denies_early(said) or ended),
        )
    )
    over = ended and other[0][1] >= found.score + denial.OVER_LEAD
    if probable >= denial.DENIED or over:
        sure = probable >= denial.SURE
        return Told(other, found.span, denied=True, sure=sure, otherwise=found.ranked[0])
    if probable <= 1.0 - denial.SURE:
        return found
    return replace(found, sure=False, otherwise=other[0])


def _praises(said: Sequence[Word]) -> bool:
    """Tell whether words only say of something that it is fine: "screen ok", "the screen is working"."""
    if any(word.text in NEGATIONS for word in said) or not any(word.text in FINE for word in said):
        return False
    return sum(weighty(word) and word.text not in FINE for word in said) <= 1


def _turned(said: Sequence[Word], straight: NDArray[np.float64], book: Phrasebook) -> tuple[Word, ...] | None:
    """Return the words with the opposite meaning: their negation taken out, or "no" put before them.

    The latter where they say "fine", or assert what the symptom that they come closest to denies.
    """
    plain = undenied(said) or denial.without_end(said)
    if plain is not None:
        return plain
    if any(word.text in NEGATIONS for word in said):
        return None
    kept = tuple(word for word in said if word.text not in FINE)
    near = np.argsort(-straight, kind="stable")[:NEAREST].tolist()
    contrary = min(_agreement(said, row, book) for row in near) <= CONTRARY
    if len(kept) == len(said) and not contrary:
        return None
    telling = [at for at, word in enumerate(kept) if weighty(word)] or [0]
    ways = [(*kept[:at], NO, *kept[at:]) for at in dict.fromkeys((telling[0], telling[-1]))]
    return max(ways, key=lambda said: float(book.symptoms.scores(said).max()))


def undenied(said: Sequence[Word]) -> tuple[Word, ...] | None:
    """Return the words without their negation, None if there is none that may deny what follows."""
    return tuple(word for word in said if word.text not in DENIERS) if _denies(said) else None


def _denies(said: Sequence[Word]) -> bool:
    """Tell whether a negation early in the run may deny what follows.

    "Won't stop" denies nothing, nor does a negation in a later clause: "frozen up, can't move the lever".
    """
    before = 0
    for at, word in enumerate(said):
        if word.text in DENIERS and not answers(said, at):
            following = said[at + 1].text if at + 1 < len(said) else ""
            return not ends(said, at + 1) and not (word.text == "not" and following in NOT_ONE)
        before += weighty(word)
        opens = word.is_mark or word.text in CONTRAST or word.text in DEPENDENT or word.text == "and"
        if before >= EARLY or (before and opens):
            return False
    return False


def nearest(words: Sequence[Word], span: Span, book: Phrasebook, contrary: float = OPPOSITE) -> Told:
    """Return the symptoms that words come closest to, however far, as told in a stretch of the line.

    `contrary` is what contradiction takes from how close they come.
    """
    said = comparable(words, book.barrels)
    return Told(_best(book.symptoms.scores(said), said, book, contrary=contrary), span)


def _best(
    scores: NDArray[np.float64],
    said: Sequence[Word],
    book: Phrasebook,
    count: int = 4,
    contrary: float = OPPOSITE,
) -> tuple[tuple[Meaning, float], ...]:
    """Return the symptoms that come closest, best first; of two sisters only the closer one.

    A symptom that the words contradict is further off than they look.
    """
    near = np.argsort(-scores, kind="stable")[: 3 * count]
    agreement = book.symptoms.leans.weigher(said)
    held = {row: float(scores[row]) + contrary * min(agreement(*book.kin[row]), 0.0) for row in near.tolist()}
    found: dict[str, tuple[Meaning, float]] = {}
    for row in sorted(held, key=lambda row: -held[row]):
        meaning = book.symptoms.meanings[row]
        found.setdefault(book.siblings.get(meaning.check, (meaning.check,))[0], (meaning, held[row]))
    return tuple(found.values())[:count]


def _agreement(said: Sequence[Word], row: int, book: Phrasebook) -> float:
    """Return how far words agree with a symptom; sisters are the same trouble, so with both on average."""
    return book.symptoms.leans.agreement(said, *book.kin[row])
