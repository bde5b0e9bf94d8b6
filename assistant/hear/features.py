"""What a stretch of words is compared by: its stems, what they deny, pairs, concepts and letters.

Two spaces, each a dict of feature -> count: `tokens` for words, and `letters` for groups of two to four
letters within words, which still meet when a word is mistyped or takes another form.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from assistant.hear.english import FILLERS, SMALL_WORDS
from assistant.hear.polarity import NEGATIONS, negated
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from assistant.hear.words import Word

SMALL = 0.2  # weight of a small word beside one that carries meaning
DENIED = 0.4  # a denied word still speaks of the same thing
PAIR = 0.5
CONCEPT = 1.2
MENDED = 0.8
MASKED = 0.3
MASKS = frozenset(
    ["@some", "@all", "@both", "@one", "#number"]
)  # what `comparable` puts in place of names and numbers
GRAMS = (2, 3, 4)
LONGEST_CONCEPT = 4


@dataclass(frozen=True, slots=True)
class Concepts:
    """Ways of saying the same thing: stems, fillers left out, -> the concepts that they may mean."""

    meant_by: Mapping[tuple[str, ...], tuple[str, ...]]

    @classmethod
    def of(cls, groups: Iterable[tuple[str, Iterable[str]]]) -> Concepts:
        """Return the concepts of groups, each a name and its ways."""
        meant: dict[tuple[str, ...], tuple[str, ...]] = {}
        for concept, ways in groups:
            for way in ways:
                stems = tuple(word.stem for word in words_of(way) if _tells(word))
                if stems and concept not in meant.get(stems, ()):
                    meant[stems] = (*meant.get(stems, ()), concept)
        return cls(meant)

    def at(self, stems: Sequence[str], begin: int) -> tuple[str, ...]:
        """Return the concepts that the stems from `begin` on name, whatever their length."""
        return tuple(
            concept
            for length in range(1, min(LONGEST_CONCEPT, len(stems) - begin) + 1)
            for concept in self.meant_by.get(tuple(stems[begin : begin + length]), ())
        )


def tokens(words: Sequence[Word], concepts: Concepts) -> dict[str, float]:
    """Return the word features of a stretch of words."""
    found: dict[str, float] = defaultdict(float)
    flags = negated(words)
    telling = [at for at, word in enumerate(words) if _tells(word)]
    stems = [words[at].stem for at in telling]
    for order, at in enumerate(telling):
        for concept in concepts.at(stems, order):
            found[f"{'!' if flags[at] else ''}~{concept}"] = CONCEPT
    before = ""
    for word, flag in zip(words, flags, strict=True):
        if word.is_mark:
            continue
        weight = _weight(word)
        name = word.stem
        if flag:
            found[f"!{name}"] += weight
            weight *= DENIED
        found[name] += weight
        if weighty(word) or word.text in NEGATIONS:
            if before:
                found[f"{before} {name}"] += PAIR
            before = name
    return found


def _tells(word: Word) -> bool:
    return not word.is_mark and word.text not in FILLERS


def weighty(word: Word) -> bool:
    """Tell whether a word carries meaning: no mark, no small word, no name of a barrel, no plain number."""
    return not word.is_mark and word.text not in SMALL_WORDS and word.text not in MASKS


def _weight(word: Word) -> float:
    if word.text in MASKS:
        return MASKED
    return (SMALL if word.text in SMALL_WORDS else 1.0) * (1.0 if word.sure else MENDED)


def letters(words: Sequence[Word]) -> dict[str, float]:
    """Return the letter features of a stretch of words."""
    found: dict[str, float] = defaultdict(float)
    for word in words:
        if word.is_mark or word.text in MASKS:
            continue
        weight = _weight(word)
        for gram in grams(word.text):
            found[gram] += weight
    return found


@lru_cache(maxsize=20_000)
def grams(word: str) -> tuple[str, ...]:
    """Return the groups of two to four letters of a word, its ends marked by a space."""
    padded = f" {word} "
    return tuple(padded[at : at + size] for size in GRAMS for at in range(len(padded) - size + 1))
