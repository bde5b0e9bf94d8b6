"""What is said in a roundabout way, put plainly so that it can be compared with the symptoms.

Rule of the file: only how the words hang together is known here, nothing of any trouble: that one drink
comes where another should, or that a word judges the number beside it. What that means, the pack tells.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import COLOUR_WORDS, FLAVOURS
from assistant.hear.english import FILLERS, SMALL_WORDS, listed
from assistant.hear.features import weighty
from assistant.hear.mention import text_at
from assistant.hear.readings import BETWEEN, TELLING
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.joined import Span
    from assistant.hear.line import Line
    from assistant.hear.words import Word

# What one gets out of a tap: "pull the blue and get cola", "cherry pours brown".
GIVES = listed(
    """
    get gets got getting give gives gave giving pour pours poured pouring come comes came coming dispense
    dispenses dispensing dispensed run runs running spit spits spitting serve serves serving
    """
)
# What may stand between such a word and what comes.
OUT = listed("out me us you the a some something as up instead only just , like of")
ANOTHER = "the wrong flavour"
FAR = 8  # words between the two drinks that still tell of one thing
BEHIND = listed(
    "out instead from which that and but when . , ! ? ; - stuff flavour drink one syrup taste now every "
    "somehow since for again"
)  # what may follow the drink that comes
JUDGES = listed("over under low high too way above below")  # they tell even where they stand by a number
# Words that may judge a number; others beside it tell nothing of it: "just so you know water pressure is 64".
JUDGING = JUDGES | listed(
    """
    much flagged red wrong warning rising rises falling dropping drops climbing jumping creeping stuck dead
    off out sky roof through maxed pinned pegged wandering drifting up down all dropped fallen peaked bottomed
    """
)
JUDGED = 2  # words that carry meaning by which a number is judged: "way over", "flagged low"


@dataclass(frozen=True, slots=True)
class Crossed:
    """A drink that comes where another should: of which barrel it is told, and how to say it plainly."""

    span: Span
    barrels: tuple[int, ...]
    plainly: tuple[Word, ...]


def crossed(line: Line, called: dict[tuple[str, ...], int]) -> Crossed | None:
    """Return the drink that comes where another should, None if the line tells of none."""
    words = line.words
    for mention in line.mentions:
        if mention.scope != "some" or len(mention.barrels) != 1:
            continue
        for at in range(mention.end + 1, min(mention.end + FAR, len(words))):
            if not _comes(words, at, mention.end) or called.get((_single(words[at]),)) == mention.barrels[0]:
                continue
            end = at + 2 if text_at(words, at + 1) in FLAVOURS else at + 1
            following = text_at(words, end)
            if following and following not in BEHIND:
                continue
            if any(other.barrels for other in line.mentions_in((mention.end, at))):
                continue
            return Crossed((mention.start, end), mention.barrels, _plainly(words, (mention.start, at)))
    return None


def _comes(words: Sequence[Word], at: int, begin: int) -> bool:
    """Tell whether a word names a drink or colour, and what precedes it says that this comes out."""
    named = _single(words[at])
    if named not in FLAVOURS | COLOUR_WORDS:
        return False
    before = at - 1
    while before >= begin and words[before].text in OUT:
        before -= 1
    return before >= begin and words[before].text in GIVES


def _single(word: Word) -> str:
    return word.text if word.text in FLAVOURS | COLOUR_WORDS else word.text.removesuffix("s")


def _plainly(words: Sequence[Word], span: Span) -> tuple[Word, ...]:
    """Return the words with what comes called a wrong flavour."""
    kept = words[span[0] : span[1]]
    while kept and kept[-1].text in {"the", "a", "some", "something"}:
        kept = kept[:-1]
    return (*kept, *_placed(ANOTHER, words[span[1]]))


def judged(line: Line, read: Span, title: str, taken: set[int]) -> tuple[Span, tuple[Word, ...]] | None:
    """Return the words that judge a number and what they say of its quantity, None if nothing judges it.

    "Barrel 1 at 59, way over" says of the barrel's pressure that it is way over. `taken` are the places of
    all numbers and barrels.
    """
    first, end = read
    for begin, stop in line.segments():
        if begin < end and first < stop:
            first, end = min(first, begin), max(end, stop)
    end = next(
        (stop for begin, stop in line.segments() if begin == end and _is_short(line, begin, stop)), end
    )
    rest = [word for at, word in enumerate(line.words[first:end], start=first) if at not in taken]
    telling = [
        word
        for word in rest
        if not word.is_mark and word.text not in (SMALL_WORDS | FILLERS | BETWEEN) - JUDGES
    ]
    if not 0 < len(telling) <= JUDGED + 1 or not any(word.text in JUDGING | TELLING for word in rest):
        return None
    return (first, end), (*_placed(title, line.words[first]), *telling)


def _is_short(line: Line, first: int, end: int) -> bool:
    """Tell whether a stretch has no subject of its own to speak of."""
    told = sum(weighty(word) for word in line.words[first:end])
    numbers = any(first <= number.start < end for number in line.numbers)
    return told <= JUDGED and not numbers and not line.mentions_in((first, end))


def _placed(text: str, where: Word) -> tuple[Word, ...]:
    """Return the words of a text as if they stood where another word does."""
    return tuple(replace(word, start=where.start, end=where.end) for word in words_of(text))
