"""Facts as the engine takes them: ids of this machine, barrels, certainty, rivals."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.facts import Fact
from assistant.hear import subjects
from assistant.hear.asked import limits_of
from assistant.hear.features import weighty
from assistant.hear.mention import named
from assistant.hear.numbers import plain
from assistant.hear.others import with_others
from assistant.hear.table import comparable
from assistant.hear.trust import trusted
from assistant.hear.unasked import read
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.began import Beginning
    from assistant.hear.fine import Fine
    from assistant.hear.joined import Span
    from assistant.hear.line import Line
    from assistant.hear.mention import Mention
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.quantities import Measured
    from assistant.hear.table import Meaning
    from assistant.hear.unasked import Told
    from assistant.hear.volunteered import Answer
    from assistant.hear.words import Word
    from graph.machine import Check, Machine

SCARE, ALERT = (
    0.6,
    0.45,
)  # how close words come to a danger of the safety screen to be heard; to be asked about
FEW, FEAR = 3, 2  # parts of a line, and words that carry meaning, in which a danger may be told
LIKELY, HARDLY = 0.4, 0.3  # a rival comes at least that share as close as the best; as one that is far itself
RIVALS = 3
NEAR = 0.75  # how close a symptom is that needs no far rivals beside it
TIMED = 0.6  # how close "since the delivery" must come to a symptom of its own
DOUBTS = frozenset(["maybe", "perhaps", "possibly", "might", "could be"])


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes the facts of one line."""

    machine: Machine
    book: Phrasebook
    line: Line

    def outcome(self, check: Check, outcome: str, score: float, span: Span, *, certain: bool = True) -> Fact:
        """Return the fact that a check has an outcome; a dangerous one of the safety screen is a danger."""
        found = check.outcomes[check.outcome_index(outcome)]
        kind = "danger" if found.danger and self._is_safety(check) else "answer"
        return Fact(
            "danger" if kind == "danger" else "answer",
            id=check.id,
            ref=check.ref,
            value=outcome,
            score=round(min(score, 1.0), 3),
            certain=certain and not self._doubted(span),
            words=self.line.typed(span),
        )

    def reading(self, measured: Measured, span: Span) -> Fact:
        """Return the fact that a quantity has a value."""
        name = measured.base
        if len(measured.which) == 1 and name in self.book.quantities.per_barrel:
            name = f"{name}@{measured.which[0]}"
        number = measured.number
        return Fact(
            "reading",
            id=name,
            ref=measured.base,
            value=plain(number.value),
            unit=number.unit,
            high="" if number.high is None else plain(number.high),
            which=measured.which,
            certain=not (self._doubted(span) or number.doubtful),
            words=self.line.typed(span),
        )

    def title(self, reading: Fact) -> str:
        """Return what the quantity of a reading is called in full, "" if it stands on no display."""
        if reading.ref not in self.book.quantities.displayed:
            return ""
        found = next((q.title for q in self.machine.quantities if q.base == reading.ref), "")
        return found.rstrip("0123456789 ")  # the same for every barrel

    def banded_danger(self, check: Check, measured: Measured) -> Fact | None:
        """Return the danger that a reading means, if it falls into a dangerous band."""
        for outcome in check.outcomes:
            low, high = outcome.band or (None, None)
            value = measured.number.value
            within = (low is None or value >= low) and (high is None or value < high)
            if outcome.danger and outcome.band and within:
                return self.outcome(check, outcome.id, 1.0, (0, len(self.line.words)))
        return None

    def fine(self, found: Fine) -> Fact:
        """Return the fact that something is said to be all right."""
        value = found.topic or ",".join(map(str, found.barrels))
        return Fact("fine", value=value, which=found.barrels, words=self.line.typed(found.span))

    def which(self, mentions: Sequence[Mention]) -> Fact | None:
        """Return the fact which barrels are meant, None if none are named."""
        barrels = named(mentions, self.line.words)
        if barrels:
            return Fact("which", value=",".join(map(str, barrels)), which=barrels, words=self._said(mentions))
        scopes = [mention.scope for mention in mentions]
        if "all" in scopes:
            return Fact("which", value="all", which=self._every(), words=self._said(mentions))
        return Fact("which", value="both", words=self._said(mentions)) if "both" in scopes else None

    def barrels(self, barrels: tuple[int, ...], span: Span) -> Fact:
        """Return the fact that some barrels are meant, all of them where none is named."""
        named_ones = barrels or self._every()
        value = ",".join(map(str, barrels)) if 0 < len(barrels) < self.machine.barrels else "all"
        return Fact("which", value=value, which=named_ones, words=self.line.typed(span))

    def timed(self, beginning: Beginning) -> list[Fact]:
        """Return the symptom, if any, that an event is by itself: "since the delivery"."""
        said = comparable(words_of(f"since the {beginning.value}"), self.book.barrels)
        scores = self.book.symptoms.scores(said)
        rows = [
            row for row, meaning in enumerate(self.book.symptoms.meanings) if meaning.check in self.book.timed
        ]
        best = max(rows, key=lambda row: scores[row], default=-1)
        known = all(self.book.symptoms.has(word, [best]) for word in said if weighty(word))
        if best < 0 or scores[best] < TIMED or not known:
            return []
        meaning = self.book.symptoms.meanings[best]
        return [self._symptom(meaning, float(scores[best]), beginning.span, (), certain=True)]

    def symptoms(
        self, found: Told, before: tuple[int, ...], read_of: tuple[int, ...] = (), *, alone: bool = False
    ) -> tuple[list[Fact], tuple[int, ...]]:
        """Return the symptom told, or its rivals, with what is dangerous about it, and the barrels it is of.

        `before` are the barrels of what was told just before; they go on when no new subject comes. `read_of`
        are those of a reading in the same words. `alone` where nothing else of the line was understood.
        """
        mentions = self._mentions(found.span)
        barrels = named(mentions, self.line.words)
        barrels = tuple(sorted({*barrels, *self._as_well(found.span)})) if barrels else ()
        strange = self._strange(found.span)
        apart = subjects.has_new(self.line.words, found.span) and not subjects.refers_back(
            self.line.words, found.span
        )
        goes_on = not strange and not barrels and not mentions and not apart
        trailing = self._trailing(found.span) if goes_on else ()
        if goes_on:
            barrels = before or self._opening(found.span) or trailing
        best = found.ranked[0][0]
        if read_of and not mentions:
            barrels, goes_on = read_of, False
        elif not best.barrel and best.check not in self.book.siblings and len(barrels) < self.machine.barrels:
            barrels = barrels if trailing or self._within_telling(found, mentions) else ()
        rivals: list[tuple[Meaning, float]] = []
        share = LIKELY if found.score >= NEAR else HARDLY
        for meaning, score in found.ranked:
            chosen = self._sibling(meaning, barrels, mentions, denied=found.denied, strange=strange)
            if not rivals or score >= share * found.score:
                rivals.append((chosen, score))
        trust = trusted(found, self.line, self.book, alone=alone)
        if trust == "not":
            return [], barrels
        certain = trust == "taken" and not strange
        facts = []
        for meaning, score in rivals[: 1 if certain else RIVALS]:
            which = barrels or (self._every() if self._all_of(meaning, mentions) else ())
            every = (goes_on and not trailing) or len(barrels) == self.machine.barrels
            which = () if every and not meaning.barrel else which
            facts.append(
                self._symptom(meaning, score, found.span, which, certain=certain, denied=found.denied)
            )
        if found.otherwise is not None and not certain and found.otherwise[1] >= LIKELY * found.score:
            meaning, score = found.otherwise
            denies = not found.denied
            chosen = self._sibling(meaning, barrels, mentions, denied=denies, strange=strange)
            which = barrels or (self._every() if self._all_of(chosen, mentions) else ())
            said = self._symptom(chosen, score, found.span, which, certain=False, denied=denies)
            facts = [*facts[: RIVALS - 1], said]
        if certain and not found.denied:
            facts.extend(self._dangers(rivals[0][0], found.span))
        return facts, barrels

    def _within_telling(self, found: Told, mentions: Sequence[Mention]) -> bool:
        """Tell whether barrels are named in the part of a run that by itself tells what the run tells.

        "Same problem is back, blue not freezing" tells of no barrel that the problem is back.
        """
        first, end = found.span
        parts = [part for part in self.line.segments() if first <= part[0] and part[1] <= end]
        if len(parts) < 2 or not mentions:  # noqa: PLR2004 - one part is the whole
            return bool(mentions)
        here = next((p for p in parts if any(p[0] <= m.start < p[1] for m in mentions)), None)
        alone = read(self.line.words, here, self.book) if here else None
        return alone is not None and alone.ranked[0][0].check == found.ranked[0][0].check

    def _mentions(self, span: Span) -> Sequence[Mention]:
        """Return the barrels named in a stretch, "the other two" among them."""
        found = with_others(self.line.words, self.line.mentions, self.machine.barrels, None)
        return [mention for mention in found if span[0] <= mention.start < span[1]]

    def _as_well(self, span: Span) -> tuple[int, ...]:
        """Return the barrels that are added behind a stretch: "blue is runny and cherry as well"."""
        words = self.line.words
        following = self._clause(span[1] + (span[1] < len(words) and words[span[1]].is_mark), len(words))
        said = {word.text for word in following}
        if (
            not following
            or not said & {"too", "well", "also", "same"}
            or any(map(weighty, self._unnamed(following)))
        ):
            return ()
        first = following[0].start
        return named([m for m in self.line.mentions if words[m.start].start >= first], words)

    def _unnamed(self, words: Sequence[Word]) -> list[Word]:
        """Return the words that name no barrel."""
        named_at = {self.line.words[at].start for m in self.line.mentions for at in range(m.start, m.end)}
        return [word for word in words if word.start not in named_at]

    def _opening(self, span: Span) -> tuple[int, ...]:
        """Return the barrels named earlier in the same sentence."""
        words = self.line.words
        first = max((at + 1 for at in range(span[0]) if words[at].text in {".", "!", "?", ";"}), default=0)
        return named(self.line.mentions_in((first, span[0])), words)

    def _trailing(self, span: Span) -> tuple[int, ...]:
        """Return the barrels named at the end of the sentence, nothing said of them: "weak, the blue"."""
        words = self.line.words
        end = next((at for at in range(span[1], len(words)) if words[at].text in {".", "!", ";"}), len(words))
        last = next(iter(self.line.mentions_in((span[1], end))), None)
        if last is None or any(weighty(word) for word in self._clause(last.end, end)):
            return ()
        before = words[: last.start - (words[last.start - 1].text == "the")]
        apart = last.start == span[1] or (before and (before[-1].is_mark or before[-1].text in {"on", "in"}))
        return named([last], words) if apart else ()

    def _clause(self, first: int, end: int) -> Sequence[Word]:
        """Return the words from a place up to the next mark."""
        words = self.line.words[first:end]
        return words[: next((at for at, word in enumerate(words) if word.is_mark), len(words))]

    def volunteered(self, answer: Answer, *, certain: bool) -> list[Fact]:
        """Return the answer that nobody asked for, or its rivals, of the barrels that it names."""
        barrels = named(self.line.mentions_in(answer.span), self.line.words)
        facts = []
        for meaning, score in answer.ranked[: 1 if certain else RIVALS]:
            check = self.book.checks[meaning.check]
            plain = certain and not self._strange(answer.span)
            fact = self.outcome(check, meaning.outcome, score, answer.span, certain=plain)
            facts.append(fact if check.id == check.base else replace(fact, id=check.base, which=barrels))
        return facts

    def endangered(self, segments: Sequence[Span]) -> list[tuple[Span, Fact]]:
        """Return the dangers that stretches, or the whole line, tell to nobody's question."""
        rows = self.book.feared
        whole = [(segments[0][0], segments[-1][1])] if 1 < len(segments) <= FEW else []
        found = []
        for span in (*segments, *whole):
            told = self._feared(span) if rows.size and self._weight(span) >= FEAR else None
            if told is not None and told[1] >= ALERT and self._within(told[0], span):
                check = self.book.checks[told[0].check]
                certain = told[1] >= SCARE
                if not certain and any(span[0] <= number.start < span[1] for number in self.line.numbers):
                    continue  # "5 V at the plug of the water sensor"
                found.append((span, self.outcome(check, told[0].outcome, told[1], span, certain=certain)))
        first: dict[str, tuple[Span, Fact]] = {}
        for span, fact in sorted(found, key=lambda pair: not pair[1].certain):
            first.setdefault(fact.id, (span, fact))
        return list(first.values())

    def _within(self, meaning: Meaning, span: Span) -> bool:
        """Tell whether the figures said, if any, lie within the limits that an outcome states."""
        check = self.book.checks[meaning.check]
        limits = limits_of(check.outcomes[check.outcome_index(meaning.outcome)].label)
        said = [number.value for number in self.line.numbers if span[0] <= number.start < span[1]]
        return limits is None or any(limits[0] <= value <= limits[1] for value in said)

    def _feared(self, span: Span) -> tuple[Meaning, float] | None:
        """Return the danger that a stretch comes closest to, and how close; None if it is denied."""
        rows = self.book.feared
        said = comparable(self.line.words[span[0] : span[1]], self.book.barrels)
        scores = self.book.outcomes.scores(said)
        best = int(rows[scores[rows].argmax()])
        meaning = self.book.outcomes.meanings[best]
        if self.book.outcomes.leans.agreement(said, best) < 0:
            return None
        return meaning, float(scores[best])

    def _weight(self, span: Span) -> int:
        return sum(map(weighty, comparable(self.line.words[span[0] : span[1]], self.book.barrels)))

    def _symptom(
        self,
        meaning: Meaning,
        score: float,
        span: Span,
        which: tuple[int, ...],
        *,
        certain: bool,
        denied: bool = False,
    ) -> Fact:
        name = f"{meaning.check}@{which[0]}" if meaning.barrel and len(which) == 1 else meaning.check
        return Fact(
            "not_symptom" if denied else "symptom",
            id=name,
            ref=meaning.ref,
            which=() if denied else which,
            score=round(min(score, 1.0), 3),
            certain=certain and not self._doubted(span),
            words=self.line.typed(span),
        )

    def _sibling(
        self,
        meaning: Meaning,
        barrels: tuple[int, ...],
        mentions: Sequence[Mention],
        *,
        denied: bool,
        strange: bool,
    ) -> Meaning:
        """Return the one of two sister symptoms, on every barrel or on one, that the words are about."""
        pair = self.book.siblings.get(meaning.check)
        if pair is None:
            return meaning
        scopes = {mention.scope for mention in mentions}
        every, one = (self.book.meaning_of(name) for name in pair)
        if (barrels and len(barrels) < self.machine.barrels) or (strange and not denied):
            return one
        if denied:
            return self.book.first_of(pair)
        if len(barrels) == self.machine.barrels or (scopes & {"all", "both"} and not barrels):
            return every
        return one if "one" in scopes else self.book.first_of(pair)

    def _all_of(self, meaning: Meaning, mentions: Sequence[Mention]) -> bool:
        return meaning.barrel and any(mention.scope == "all" for mention in mentions)

    def _dangers(self, meaning: Meaning, span: Span) -> list[Fact]:
        """Return the answer of the safety screen that a symptom amounts to."""
        linked = self.book.dangers.get(meaning.check, ())
        if not linked:
            return []
        scores = self.book.outcomes.scores(comparable(self.line.words[span[0] : span[1]], self.book.barrels))
        best = max(linked, key=lambda row: scores[row])
        answer = self.book.outcomes.meanings[best]
        return [self.outcome(self.book.checks[answer.check], answer.outcome, 1.0, span)]

    def _strange(self, span: Span) -> bool:
        """Tell whether a stretch names a barrel by a flavour that the machine does not have."""
        return bool(self.book.barrels.strangers(self.line.words[span[0] : span[1]]))

    def _is_safety(self, check: Check) -> bool:
        return check.base in self.book.safety

    def _every(self) -> tuple[int, ...]:
        return tuple(range(1, self.machine.barrels + 1))

    def _doubted(self, span: Span) -> bool:
        text = f" {' '.join(word.text for word in self.line.words[span[0] : span[1]])} "
        return any(f" {doubt} " in text for doubt in DOUBTS)

    def _said(self, mentions: Sequence[Mention]) -> str:
        return self.line.typed((mentions[0].start, mentions[-1].end))
