"""Whether meanings assert or deny a word: "no fizz" denies fizz, "frozen solid" asserts freezing.

Rule of the file: learnt from the phrases of each meaning alone. A line that asserts what a meaning denies, or
the other way round, says the opposite of that meaning, however alike the words are.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from assistant.hear.features import weighty
from assistant.hear.polarity import NEGATIONS, answers, negated

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from assistant.hear.words import Word

PRIOR = 1.0  # a word in one phrase alone says little of what a meaning asserts
PLAINLY = 0.65  # what leans less is also denied by those who assert it, so that to deny it tells nothing
PLAIN = 0.1  # what a word counts that is asserted, and usually is


@dataclass(frozen=True, slots=True)
class Leans:
    """`of[stem][meaning]` from -1, the meaning always denies the word, to 1, it always asserts it."""

    of: Mapping[str, Mapping[int, float]]

    @classmethod
    def learnt(cls, owners: Iterable[int], said: Iterable[Sequence[Word]]) -> Leans:
        """Return what the phrases of meanings assert and deny."""
        counts: dict[str, dict[int, list[int]]] = defaultdict(dict)
        for owner, words in zip(owners, said, strict=True):
            for stem, sign in signs(words).items():
                tally = counts[stem].setdefault(owner, [0, 0])
                tally[0] += sign
                tally[1] += 1
        return cls(
            {
                stem: {owner: lean / (phrases + PRIOR) for owner, (lean, phrases) in by.items()}
                for stem, by in counts.items()
            }
        )

    def agreement(self, words: Sequence[Word], *meanings: int) -> float:
        """Return how far words agree with meanings on average, -1 to 1; 0 where they share no telling word.

        A word that few meanings have tells more; one that is asserted as everybody does tells little.
        """
        return self.weigher(words)(*meanings)

    def weigher(self, words: Sequence[Word]) -> Callable[..., float]:
        """Return `agreement` for some words, made ready once for many meanings."""
        denies = any(word.text in NEGATIONS and not answers(words, at) for at, word in enumerate(words))
        said = [(sign, self.of[stem]) for stem, sign in signs(words).items() if stem in self.of]

        def agreement(*meanings: int) -> float:
            return sum(_agreed(said, meaning, denies=denies) for meaning in meanings) / len(meanings)

        return agreement


def _agreed(said: Sequence[tuple[int, Mapping[int, float]]], meaning: int, *, denies: bool) -> float:
    total = weight = 0.0
    for sign, by in said:
        lean = by.get(meaning)
        if lean is None or (sign < 0 and 0 < lean < PLAINLY):
            continue
        tells = 1.0 if sign < 0 else PLAIN + (0.0 if denies else max(-lean, 0.0))
        tells /= sqrt(len(by))
        total += tells * sign * lean
        weight += tells
    return total / weight if weight else 0.0


def signs(words: Sequence[Word]) -> dict[str, int]:
    """Return the words that carry meaning, by stem: 1 as asserted, -1 as denied."""
    flags = negated(words)
    return {word.stem: -1 if flag else 1 for word, flag in zip(words, flags, strict=True) if weighty(word)}
