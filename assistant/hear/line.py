"""A line taken apart: its words, the barrels and numbers in it, and the stretches it may be cut into."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import NUMBERED
from assistant.hear.joined import Joined, Span
from assistant.hear.mention import begins_anew, joined
from assistant.hear.numbers import Number, numbers_in
from assistant.hear.split import segments
from assistant.hear.words import Word, ungreeted, unpadded, words_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.hear.mention import Mention
    from assistant.hear.phrasebook import Phrasebook


@dataclass(frozen=True, slots=True)
class Line:
    """A line as typed, and what it is made of; spans count words."""

    text: str
    words: tuple[Word, ...]
    joined: Joined
    plain: Joined  # the same without mending, for words that everybody uses
    mentions: tuple[Mention, ...]
    numbers: tuple[Number, ...]

    @classmethod
    def of(cls, text: str, book: Phrasebook) -> Line:
        """Return a line with slips of spelling mended."""
        return cls.made_of(unpadded(ungreeted(book.vocabulary.mended(words_of(text)))), text, book)

    @classmethod
    def made_of(cls, words: tuple[Word, ...], text: str, book: Phrasebook) -> Line:
        """Return a line of some words of a text."""
        mentions = book.barrels.mentions(words)
        return cls(
            text,
            words,
            Joined.of(words),
            Joined.of(words, mended=False),
            mentions,
            numbers_in(_without_ones(words, mentions)),
        )

    def segments(self, without: Iterable[Span] = ()) -> tuple[Span, ...]:
        """Return the stretches that the line may be cut into, less what is already understood."""
        taken = {at for first, end in without for at in range(first, end)}
        whole = [(n.start, n.end) for n in self.numbers] + self._joined_barrels()
        found: list[Span] = []
        for first, end in segments(self.words, whole):
            begin = first
            for at in range(first, end + 1):
                if at == end or at in taken:
                    if at > begin:
                        found.append((begin, at))
                    begin = at + 1
        return tuple(
            span for span in found if any(not word.is_mark for word in self.words[span[0] : span[1]])
        )

    def _joined_barrels(self) -> list[Span]:
        """Return stretches such as "cola and cherry"."""
        pairs = zip(self.mentions, self.mentions[1:], strict=False)
        return [
            (one.start, other.end)
            for one, other in pairs
            if not begins_anew(one, other, self.words)
            if other.start - one.end <= 1 or joined([word.text for word in self.words[one.end : other.start]])
        ]

    def figures_in(self, span: Span) -> bool:
        """Tell whether a number is told within a stretch that counts no barrels: "all three" tells none."""
        named = {at for mention in self.mentions for at in range(mention.start, mention.end)}
        return any(span[0] <= n.start < span[1] and n.start not in named for n in self.numbers)

    def mentions_in(self, span: Span) -> tuple[Mention, ...]:
        """Return the barrels named within a stretch."""
        return tuple(mention for mention in self.mentions if span[0] <= mention.start < span[1])

    def typed(self, span: Span) -> str:
        """Return what was typed there."""
        if span[1] <= span[0]:
            return ""
        return self.text[self.words[span[0]].start : self.words[span[1] - 1].end]


def _without_ones(words: tuple[Word, ...], mentions: Iterable[Mention]) -> tuple[Word, ...]:
    """Return the words, the "one" of "the right hand one four point four" being no figure."""
    ones = {
        mention.end - 1
        for mention in mentions
        if mention.end - mention.start > 1 and words[mention.start].text not in NUMBERED
    }
    ones |= {  # "the brown one's nought"
        mention.end
        for mention in mentions
        if mention.end < len(words) and words[mention.end].end - words[mention.end].start > len("one")
    }
    return tuple(
        replace(word, text="it", stem="it") if at in ones and word.text == "one" else word
        for at, word in enumerate(words)
    )
