"""Meanings with the phrases that say them, indexed for comparing.

Rule of the file: a stretch of words is compared with numbers and the names of barrels made alike, so that a
phrase about one flavour meets a line about another.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear import apart
from assistant.hear.barrel_words import COLOUR_WORDS, FLAVOURS, SIDES
from assistant.hear.features import Concepts, letters, tokens, weighty
from assistant.hear.lean import Leans
from assistant.hear.match import Index
from assistant.hear.mention import on_a_dial
from assistant.hear.numbers import numbers_in
from assistant.hear.regress import Regression, fit

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from numpy.typing import NDArray

    from assistant.hear.numbers import Number
    from assistant.hear.which import Barrels
    from assistant.hear.words import Word

TOKENS, LETTERS, WHOLE = (
    0.6,
    0.4,
    0.8,
)  # shares of words, of letters, and of all phrases of one meaning together
TOP = TOKENS + LETTERS + WHOLE
ALIKE, EXACT = 0.995, 0.3  # so close to a phrase is the phrase itself, which counts so much more
SHARE = 0.2  # what the probability counts beside likeness
WITHIN = 0.6  # what the weighing of a check's own phrases counts beside likeness
FOREIGN = 0.5  # what a word that no phrase has counts beside others
LATELY = 128  # stretches whose scores are kept
FEWEST_WORDS = 2  # words that a phrase about figures must have besides


Said = tuple[tuple[str, bool], ...]  # words, and whether each was typed so


@dataclass(frozen=True, slots=True)
class Meaning:
    """Something that can be meant: a symptom, or an outcome of a check."""

    check: str  # base id
    ref: str
    outcome: str = ""
    outcome_ref: str = ""
    barrel: bool = False  # whether there is one per barrel


@dataclass(frozen=True, slots=True)
class Table:
    """Meanings with their phrases; `owners` tells whose each phrase is."""

    meanings: tuple[Meaning, ...]
    owners: NDArray[np.int32]
    tokens: Index
    letters: Index
    whole: Index  # one row per meaning
    concepts: Concepts
    leans: Leans
    regression: Regression | None = None
    classes: tuple[int, ...] = ()  # meaning -> class of the regression
    apart: apart.Apart | None = None
    lately: dict[Said, NDArray[np.float64]] = field(default_factory=dict, compare=False, repr=False)

    @classmethod
    def of(cls, entries: Iterable[tuple[Meaning, Iterable[tuple[Word, ...]]]], concepts: Concepts) -> Table:
        """Return the table of meanings with their comparable phrases."""
        meanings: list[Meaning] = []
        owners: list[int] = []
        said: list[tuple[Word, ...]] = []
        for meaning, phrases in entries:
            found = list(phrases)
            owners.extend([len(meanings)] * len(found))
            said.extend(found)
            meanings.append(meaning)
        vectors = [tokens(words, concepts) for words in said]
        sums: list[dict[str, float]] = [{} for _ in meanings]
        for owner, vector in zip(owners, vectors, strict=True):
            for name, count in vector.items():
                sums[owner][name] = sums[owner].get(name, 0.0) + count
        dampened = [{name: float(np.log1p(count)) for name, count in total.items()} for total in sums]
        return cls(
            tuple(meanings),
            np.array(owners, dtype=np.int32),
            Index.of(vectors, owners),
            Index.of([letters(words) for words in said], owners),
            Index.of(dampened, range(len(meanings))),
            concepts,
            Leans.learnt(owners, said),
        )

    def scores(self, words: Sequence[Word]) -> NDArray[np.float64]:
        """Return how close comparable words come to each meaning, 0 to 1, shape (meanings,)."""
        name = tuple((word.text, word.sure) for word in words)
        if name not in self.lately:  # the stretches of one line are looked at several times
            if len(self.lately) >= LATELY:
                self.lately.clear()
            self.lately[name] = self._scores(words)
        return self.lately[name]

    def _scores(self, words: Sequence[Word]) -> NDArray[np.float64]:
        said = tokens(words, self.concepts)
        total = self._total(said, self._near(said, words, (0, len(self.owners))), (0, len(self.meanings)))
        if self.regression is None:
            return total
        shares = self.regression.probabilities(said, self.tokens)[list(self.classes)]
        return _mixed(total, shares, SHARE)

    def scores_within(self, words: Sequence[Word], rows: Sequence[int]) -> NDArray[np.float64]:
        """Return how close words come to each outcome of one check, where only those compete, 0 to 1.

        `rows` are those of the check, one after the other; shape (rows,).
        """
        said = tokens(words, self.concepts)
        meanings = (rows[0], rows[-1] + 1)
        first, end = np.searchsorted(self.owners, meanings).tolist()
        near = self._near(said, words, (first, end))
        total = self._total(said, near, meanings)
        if self.apart is None:
            return total
        return _mixed(total, self.apart.shares(near, first)[: len(rows)], WITHIN)

    def _near(
        self, said: dict[str, float], words: Sequence[Word], phrases: tuple[int, int]
    ) -> NDArray[np.float64]:
        """Return how close words come to each of some phrases, shape (phrases,)."""
        within = phrases if phrases != (0, len(self.owners)) else None
        near = TOKENS * self.tokens.cosines(said, FOREIGN, within)
        return near + LETTERS * self.letters.cosines(letters(words), FOREIGN, within)

    def _total(
        self, said: dict[str, float], near: NDArray[np.float64], meanings: tuple[int, int]
    ) -> NDArray[np.float64]:
        """Return how close words come to the two nearest phrases of each meaning and to all of them together.

        One phrase alone may be near by chance. `near` has the phrases of just those meanings.
        """
        starts = np.searchsorted(self.owners, np.arange(*meanings))
        owners = self.owners[starts[0] : starts[0] + len(near)] - meanings[0]
        starts = starts - starts[0]
        first = np.maximum.reduceat(near, starts)
        second = np.maximum.reduceat(np.where(near < first[owners], near, 0.0), starts)
        best = np.where(first >= ALIKE, first + EXACT, (first + second) / 2)
        within = meanings if meanings != (0, len(self.meanings)) else None
        total: NDArray[np.float64] = (best + WHOLE * self.whole.cosines(said, FOREIGN, within)) / TOP
        return total

    def closest(self, words: Sequence[Word], meaning: Meaning) -> float:
        """Return how close comparable words come to the nearest phrase of one meaning, by words alone."""
        near = self.tokens.cosines(tokens(words, self.concepts), 1.0)
        return float(near[self.owners == self.meanings.index(meaning)].max(initial=0.0))

    def has(self, word: Word, rows: Sequence[int]) -> bool:
        """Tell whether a phrase of some meanings has a word, in any form."""
        first, last, _ = self.tokens.spans.get(word.stem, (0, 0, 0.0))
        return bool(np.isin(self.owners[self.tokens.rows[first:last]], rows).any())

    def probability(self, words: Sequence[Word], row: int) -> float:
        """Return how probable a meaning is among all, given comparable words; 0 without a regression."""
        if self.regression is None:
            return 0.0
        shares = self.regression.probabilities(tokens(words, self.concepts), self.tokens)
        return float(shares[self.classes[row]])

    def regressed(self, classes: Sequence[int]) -> Table:
        """Return the table with a regression of its phrases; `classes` has one class for each meaning."""
        fitted = fit(self.tokens, [classes[owner] for owner in self.owners])
        return replace(self, regression=fitted, classes=tuple(classes))

    def told_apart(self) -> Table:
        """Return the table with its phrases weighed within each check; outcomes of one stand together."""
        checks = {name: number for number, name in enumerate(dict.fromkeys(m.check for m in self.meanings))}
        spaces = ((self.tokens, TOKENS), (self.letters, LETTERS))
        return replace(self, apart=apart.fit(spaces, self.owners, [checks[m.check] for m in self.meanings]))


def _mixed(total: NDArray[np.float64], shares: NDArray[np.float64], weight: float) -> NDArray[np.float64]:
    mixed: NDArray[np.float64] = (total + weight * shares) / (1.0 + weight)
    return mixed


def phrases(
    texts: Iterable[str], barrels: Barrels, read: Callable[[str], tuple[Word, ...]], *, figures: bool
) -> list[tuple[Word, ...]]:
    """Return texts, `read` as words, as comparable phrases; without `figures`, less those all figures."""
    found = [comparable(read(text), barrels) for text in dict.fromkeys(texts)]
    return [words for words in found if figures or not _rests_on_figures(words)]


def _rests_on_figures(words: Sequence[Word]) -> bool:
    """Tell whether a phrase says nothing without its figures: "barrel says 55"."""
    return any(word.text == "#number" for word in words) and sum(map(weighty, words)) < FEWEST_WORDS


def comparable(words: Sequence[Word], barrels: Barrels) -> tuple[Word, ...]:
    """Return the words with numbers and the names of barrels made alike."""
    masks = {mention.start: (mention.end, f"@{mention.scope}") for mention in barrels.mentions(words)}
    before: Number | None = None
    for number in numbers_in(words):
        text = {0.0: "zero", 99.0: "#top"}.get(number.value, "#number")
        text = _against(before, number) if text == "#number" else text
        masks.setdefault(number.start, (number.end, text))
        before = before if number.counts else number
    found: list[Word] = []
    at = 0
    while at < len(words):
        if at not in masks and _names_a_barrel(words, at):
            masks[at] = (at + 1, "@some")
        if at not in masks:
            found.append(words[at])
            at += 1
            continue
        end, text = masks[at]
        if words[at].text == "none":
            found.append(words[at])  # "none of them" names all and denies
        found.append(replace(words[at], text=text, stem=text, end=words[end - 1].end))
        at = end
    return tuple(found)


def _against(before: Number | None, number: Number) -> str:
    """Return what a number is like beside the one before it: "28 then, 26 now" tells a fall."""
    if before is None or number.counts or before.high is not None or number.high is not None:
        return "#number"
    return "#same" if number.value == before.value else "#less" if number.value < before.value else "#more"


def _names_a_barrel(words: Sequence[Word], at: int) -> bool:
    """Tell whether a word names a barrel of some machine: a flavour, or "the red", "red one"."""
    if words[at].stem in FLAVOURS:
        return True
    if on_a_dial(words, at):
        return False
    before = words[at - 1].text if at else ""
    after = words[at + 1].text if at + 1 < len(words) else ""
    return words[at].text in COLOUR_WORDS and (before in {"the", "on", "only"} or after in SIDES)
