"""Mend what was typed in haste: slips of a letter, and words run together.

Rule of the file: only words that nobody knows are touched, and only towards words that the phrases of the
pack use; a mended word counts a little less than one that was right.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rapidfuzz import process
from rapidfuzz.distance import OSA

from assistant.hear.barrel_words import COLOUR_WORDS, FLAVOURS
from assistant.hear.common import COMMON
from assistant.hear.english import FILLERS, SMALL_WORDS
from assistant.hear.numbers import DIGITS, TEENS, TENS
from assistant.hear.words import Word, instead, stem, written_out

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

SHORTEST = 4  # shorter words are too like each other to mend
LONG_ENOUGH = 6  # in a shorter word one wrong letter makes another word too easily: "truck", "swear"
LONG = 8  # from here on two slips are forgiven
SHORTEST_PART = 2
FLAVOUR_STEMS = {stem(flavour): flavour for flavour in sorted(FLAVOURS)}


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words that are known: those of the phrases, with how often, and those of plain English."""

    counts: dict[str, int]
    stems: frozenset[str]
    common: tuple[str, ...]  # what a slip may be mended to, longest use first

    @classmethod
    def of(cls, phrases: Iterable[Sequence[Word]]) -> Vocabulary:
        """Return the vocabulary of many phrases."""
        counts: dict[str, int] = {}
        for phrase in phrases:
            for word in phrase:
                if word.text.isalpha():
                    counts[word.text] = counts.get(word.text, 0) + 1
        for text in (*sorted(SMALL_WORDS | FILLERS | FLAVOURS), *DIGITS, *TEENS, *TENS):
            counts[text] = counts.get(text, 0) + 1
        return cls.counted(counts)

    @classmethod
    def counted(cls, counts: dict[str, int]) -> Vocabulary:
        """Return the vocabulary of words that occur so often."""
        common = tuple(
            sorted((text for text in counts if len(text) >= SHORTEST), key=lambda t: (-counts[t], t))
        )
        return cls(counts, frozenset(stem(text) for text in counts), common)

    def knows(self, word: Word) -> bool:
        """Tell whether a word, or another form of it, is known."""
        known = word.text in self.counts or word.stem in self.stems or word.text in COMMON
        return known or not word.text.isalpha()

    def mended(self, words: Sequence[Word]) -> tuple[Word, ...]:
        """Return the words with slips mended and run-together words parted."""
        return tuple(right for word in words for right in self._mend(word))

    def _mend(self, word: Word) -> tuple[Word, ...]:
        flavour = FLAVOUR_STEMS.get(word.stem, "")
        if flavour and word.text not in self.counts and not word.text.endswith("s"):
            return instead(word, (flavour,))  # "raspbery" has the stem of a name, yet names nothing
        if self.knows(word) or len(word.text) < SHORTEST:
            return (word,)
        near = self._nearest(word.text)
        parts = () if near and OSA.distance(near, word.text) == 1 else self._parted(word.text)
        if not near and not parts:
            parts = self._flavoured(word.text)
        if parts:
            return instead(word, parts)
        return instead(word, (near,)) if near else (word,)

    def _nearest(self, text: str) -> str:
        """Return the known word within one slip, or two if it is long; a wrong first letter is rare."""
        limit = 2 if len(text) >= LONG else 1
        found = process.extract(text, self.common, scorer=OSA.distance, score_cutoff=limit, limit=8)
        ranked = sorted(found, key=lambda item: (item[1] + (item[0][0] != text[0]), item[2]))
        good = [
            known
            for known, slips, _ in ranked
            if slips + (known[0] != text[0]) <= limit
            and (len(text) >= LONG_ENOUGH or _same_letters(text, known))
        ]
        return good[0] if good else ""

    def _parted(self, text: str) -> tuple[str, ...]:
        """Return two or three known words that were written as one, the most used split."""
        best: tuple[float, tuple[str, ...]] = (0.0, ())
        for at in range(SHORTEST_PART, len(text) - SHORTEST_PART + 1):
            left, right = text[:at], text[at:]
            if self._use(left) == 0:
                continue
            rest = (right,) if self._use(right) else self._pair(right) if at > SHORTEST_PART else ()
            if rest:
                worth = min(self._use(part) for part in (left, *rest)) / len(rest)
                best = max(best, (worth, (left, *rest)))
        return tuple(word for part in best[1] for word in written_out(part))

    def _flavoured(self, text: str) -> tuple[str, ...]:
        """Return a colour and a flavour that were written as one, the flavour with a slip: "bluraspbery"."""
        for at in range(SHORTEST_PART + 1, len(text) - SHORTEST):
            colour = next((c for c in sorted(COLOUR_WORDS) if OSA.distance(c, text[:at]) <= 1), "")
            flavour = FLAVOUR_STEMS.get(stem(text[at:]), "") if colour else ""
            if flavour:
                return colour, flavour
        return ()

    def _pair(self, text: str) -> tuple[str, ...]:
        for at in range(SHORTEST_PART, len(text) - SHORTEST_PART + 1):
            if self._use(text[:at]) and self._use(text[at:]):
                return text[:at], text[at:]
        return ()

    def _use(self, part: str) -> float:
        """Return how good a part is: longer and more used is better, 0 if it is no word."""
        if len(part) == SHORTEST_PART and part not in SMALL_WORDS:
            return 0.0  # "ti" may stand for "it" alone, not within a word
        full = written_out(part)
        if not all(word in self.counts for word in full):
            return 0.0
        return len(part) + min(self.counts.get(word, 0) for word in full) / 1000


def _same_letters(text: str, known: str) -> bool:
    """Tell whether two words differ by letters that changed places, or by one too many or too few."""
    return len(text) != len(known) or sorted(text) == sorted(known)
