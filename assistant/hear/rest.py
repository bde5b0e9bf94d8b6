"""What nothing was made of, so that nothing is dropped in silence."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.english import FILLERS, SMALL_WORDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.facts import Fact
    from assistant.hear.joined import Span
    from assistant.hear.line import Line

LOOSE = FILLERS | SMALL_WORDS | {"because", "though"}
SHORT = 3  # so many small words say nothing


def covered(line: Line, facts: Sequence[tuple[Fact, Span]]) -> tuple[tuple[Fact, ...], str]:
    """Return the facts and the rest of a line; together their words are all its words.

    Small words that say nothing by themselves go to the fact beside them.
    """
    if not facts:
        return (), line.text
    facts = sorted(facts, key=lambda item: item[1])  # in the order in which they were said
    taken = [-1] * len(line.words)  # word -> position of the fact that it went to
    for position, (_, span) in enumerate(facts):
        for at in range(*span):
            taken[at] = position
    gaps = _gaps(taken)
    loose = {gap: _neighbour(taken, gap) for gap in gaps if _says_nothing(line, gap)}
    wider = [span for _, span in facts]
    for (first, end), position in loose.items():
        begin, stop = wider[position]
        wider[position] = (min(begin, first), max(stop, end))
    found = tuple(
        replace(fact, words=line.typed(span)) if span != old else fact
        for (fact, old), span in zip(facts, wider, strict=True)
    )
    rest = " ".join(line.typed(gap) for gap in gaps if gap not in loose)
    return found, rest


def _gaps(taken: Sequence[int]) -> list[Span]:
    gaps: list[Span] = []
    first = 0
    for at in range(len(taken) + 1):
        if at == len(taken) or taken[at] >= 0:
            if at > first:
                gaps.append((first, at))
            first = at + 1
    return gaps


def _says_nothing(line: Line, gap: Span) -> bool:
    named = {at for mention in line.mentions for at in range(mention.start, mention.end)}
    said = [
        (at, word) for at, word in enumerate(line.words[gap[0] : gap[1]], start=gap[0]) if not word.is_mark
    ]
    if all(word.text in FILLERS or at in named for at, word in said):
        return True
    if said and said[0][1].text == "not" and all(word.is_number for _, word in said[1:]):
        return True  # "58 not 85"
    return len(said) <= SHORT and all(word.text in LOOSE or at in named for at, word in said)


def _neighbour(taken: Sequence[int], gap: Span) -> int:
    return taken[gap[0] - 1] if gap[0] else taken[gap[1]]
