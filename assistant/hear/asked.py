"""The answer to the question that was just asked: the outcome that the words come closest to.

Rule of the file: only outcomes of that check compete. Every stretch of the line is tried, from its
beginning on; figures are held against the figures in the outcomes' labels.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from assistant.hear.numbers import numbers_in
from assistant.hear.table import Meaning, comparable
from assistant.hear.unasked import undenied
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray

    from assistant.hear.joined import Span
    from assistant.hear.numbers import Number
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.words import Word
    from graph.machine import Check, Outcome

INSIDE, OUTSIDE = 0.3, -0.15  # what figures within, or outside of, an outcome's limits add
REACH = 0.12  # what the barrels named add to, or take from, an outcome about all or one
OPPOSITE = 0.2  # what contradiction takes from how close words come
FEW, MANY = 3, 0.25  # where more than so many are unusual, to deny one says less for the usual one
FEARED = 0.42  # how close one part of a line must come to a danger, so that no other part outweighs it
PLAIN_TROUBLE, AHEAD = 0.5, 0.3  # how close, and how far ahead, one part must tell what is not usual
TURN = 0.15  # how much closer words must come without their negation to deny an outcome


@dataclass(frozen=True, slots=True)
class Choice:
    """Outcomes of the asked check by how close they come, best first, with the words that were compared."""

    ranked: tuple[tuple[Meaning, float], ...]
    span: Span

    @property
    def score(self) -> float:
        """How close the best outcome comes."""
        return self.ranked[0][1]

    @property
    def margin(self) -> float:
        """How far the next outcome is behind."""
        return self.score - (self.ranked[1][1] if len(self.ranked) > 1 else 0.0)


def part(check: Check, words: Sequence[Word], segments: Sequence[Span], book: Phrasebook) -> Choice | None:
    """Return the outcomes by the one stretch that comes closest to any, None if there is but one stretch."""
    if len(segments) < 2:  # noqa: PLR2004 - one stretch is the whole
        return None
    choices = [Choice(_ranked(check, words[first:end], book), (first, end)) for first, end in segments]
    return max(choices, key=lambda choice: choice.score)


def feared(check: Check, words: Sequence[Word], segments: Sequence[Span], book: Phrasebook) -> Choice | None:
    """Return the outcomes by the stretch that comes closest to a dangerous one, None if none does."""
    dangers = {outcome.id for outcome in check.outcomes if outcome.danger}
    found = [Choice(_ranked(check, words[first:end], book), (first, end)) for first, end in segments]
    near = [
        choice
        for choice in found
        if choice.ranked[0][0].outcome in dangers
        and choice.score >= FEARED
        and _agrees(choice, words, book) >= 0
        and not _is_denied(choice, words, book)
    ]
    return max(near, key=lambda choice: choice.score, default=None)


def _is_denied(choice: Choice, words: Sequence[Word], book: Phrasebook) -> bool:
    """Tell whether a stretch comes as close to its best outcome without its negation: "no alarm rings"."""
    said = comparable(words[choice.span[0] : choice.span[1]], book.barrels)
    plain = undenied(said)
    rows = book.outcomes_of[choice.ranked[0][0].check]
    place = book.outcomes.meanings.index(choice.ranked[0][0]) - rows[0]
    return plain is not None and bool(
        book.outcomes.scores_within(plain, rows)[place] >= book.outcomes.scores_within(said, rows)[place]
    )


def troubled(
    check: Check, words: Sequence[Word], segments: Sequence[Span], book: Phrasebook
) -> Choice | None:
    """Return the outcomes by the stretch that clearly tells what is not usual, None if none does.

    "Cola pours, blue gives nothing" is about the blue; "ticks, then stops" is one thing.
    """
    if check.usual < 0 or len(segments) < 2:  # noqa: PLR2004 - one stretch is the whole
        return None
    usual = check.outcomes[check.usual].id
    if any(word.text == "then" for word in words):
        return None
    found = [Choice(_ranked(check, words[first:end], book), (first, end)) for first, end in segments]
    near = [
        choice
        for choice in found
        if choice.ranked[0][0].outcome != usual
        and choice.score >= PLAIN_TROUBLE
        and choice.margin >= AHEAD
        and _agrees(choice, words, book) >= 0
    ]
    return max(near, key=lambda choice: choice.score, default=None)


def _agrees(choice: Choice, words: Sequence[Word], book: Phrasebook) -> float:
    said = comparable(words[choice.span[0] : choice.span[1]], book.barrels)
    return book.outcomes.leans.agreement(said, book.outcomes.meanings.index(choice.ranked[0][0]))


def whole(check: Check, words: Sequence[Word], book: Phrasebook) -> Choice:
    """Return the outcomes by how close the whole line comes."""
    return Choice(_ranked(check, words, book), (0, len(words)))


def _ranked(check: Check, words: Sequence[Word], book: Phrasebook) -> tuple[tuple[Meaning, float], ...]:
    rows = book.outcomes_of[check.base]
    said_words = comparable(words, book.barrels)
    scores = book.outcomes.scores_within(said_words, rows)
    denied = _denied_usual(check, said_words, scores, book)
    said, scope = numbers_in(words), _scope(words, book)
    agreement = book.outcomes.leans.weigher(said_words)
    found = []
    for row, outcome, near in zip(rows, check.outcomes, scores.tolist(), strict=True):
        bonus = _figures(outcome.label, said) + _reach(outcome, scope)
        straight = near + OPPOSITE * min(agreement(row), 0.0)
        score = max(straight, denied if outcome is check.outcomes[check.usual] else 0.0)
        found.append((book.outcomes.meanings[row], score + bonus))
    return tuple(sorted(found, key=lambda item: -item[1]))


def _denied_usual(check: Check, said: Sequence[Word], scores: NDArray[np.float64], book: Phrasebook) -> float:
    """Return how close the words come to denying what is not usual ("no flicker"), 0 if they do not."""
    plain = undenied(said) if check.usual >= 0 else None
    if plain is None:
        return 0.0
    rows = book.outcomes_of[check.base]
    scored = book.outcomes.scores_within(plain, rows).tolist()
    best = max((place for place in range(len(rows)) if place != check.usual), key=scored.__getitem__)
    turned = scored[best] - (MANY if len(rows) > FEW + 1 else 0.0)
    turned = turned if book.outcomes.leans.agreement(said, rows[best]) <= 0 else 0.0
    return turned if turned >= float(scores.max()) + TURN else 0.0


def _scope(words: Sequence[Word], book: Phrasebook) -> str:
    """Return how many barrels a line names: "all", "one", "some", or "" for none."""
    mentions = book.barrels.mentions(words)
    named = {barrel for mention in mentions for barrel in mention.barrels}
    scopes = {mention.scope for mention in mentions}
    if named and len(named) < book.barrels.count:
        return "one" if len(named) == 1 else "some"
    return "all" if named or scopes & {"all", "both"} else "one" if "one" in scopes else ""


def _reach(outcome: Outcome, scope: str) -> float:
    """Return what the number of barrels named says for or against an outcome, by the parts of its id."""
    parts = set(outcome.id.split("_"))
    reach = next((name for name in ("all", "one", "some") if name in parts), "")
    if not reach or not scope:
        return 0.0
    return REACH if reach == scope else -REACH


def _figures(label: str, said: Sequence[Number]) -> float:
    """Return what the figures in a line say for or against an outcome, by its label's limits."""
    limits = limits_of(label)
    if limits is None or not said:
        return 0.0
    inside = [limits[0] <= number.value <= limits[1] for number in said]
    return INSIDE if any(inside) else OUTSIDE


@lru_cache(maxsize=4_000)
def limits_of(label: str) -> tuple[float, float] | None:
    """Return the limits that a label states: "10-60 psi" -> (10, 60), "above 72" -> (72, inf)."""
    words = words_of(label.partition("(")[0])
    numbers = numbers_in(words)
    if not numbers:
        return None
    number = numbers[0]
    if number.high is not None:
        return number.value, number.high
    lead = " ".join(word.text for word in words[max(0, number.start - 3) : number.start])
    tail = " ".join(word.text for word in words[number.end : number.end + 3])
    most, infinite = number.value, float("inf")
    if (
        any(word in lead for word in ("above", "over", "more than", "at least"))
        or "or more" in tail
        or "+" in tail
    ):
        return most, infinite
    if (
        any(word in lead for word in ("below", "under", "less than", "within", "up to"))
        or "at most" in tail
        or "or less" in tail
    ):
        return 0.0, most
    return (most, most) if not number.counts else None


def labelled(check: Check, said: Sequence[Number]) -> str:
    """Return the only outcome whose label begins with limits that a lone number is in, "" for none."""
    found = [
        outcome.id
        for outcome in check.outcomes
        if outcome.label[:1].isdigit()
        and (limits := limits_of(outcome.label)) is not None
        and len(said) == 1
        and limits[0] <= said[0].value <= limits[1]
    ]
    return found[0] if len(found) == 1 else ""
