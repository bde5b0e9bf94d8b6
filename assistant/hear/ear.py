"""A line being listened to: what is known of it, what was made of it so far, and what is often looked up."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from assistant.hear import replies
from assistant.hear.features import weighty
from assistant.hear.others import with_others
from assistant.hear.polarity import answers
from assistant.hear.readings import LINKS, TELLING, free_numbers, named_readings, quantity_words

if TYPE_CHECKING:
    from assistant.facts import Fact
    from assistant.hear.joined import Span
    from assistant.hear.line import Line
    from assistant.hear.making import Maker
    from assistant.hear.mention import Mention
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.quantities import Measured
    from assistant.hear.replies import Found
    from graph.machine import Check

SURE_ANSWER = 0.85  # words must come this close to be trusted against what else they may be
ASIDE = 1  # words that carry meaning, beside "not sure", that make it more than that
SO = frozenset(["did", "does", "done", "happened", "true"])  # what may stand by a yes or no that is all
JUDGES = frozenset(["too", "over", "under", "constantly", "always", "dropping", "stuck", "low", "high"])


@dataclass(slots=True)
class Heard:
    """What has been understood so far, each with the words it was taken from."""

    facts: list[tuple[Fact, Span]] = field(default_factory=list)
    aside: list[Span] = field(default_factory=list)  # what asks for something and tells nothing
    told_in: Span | None = None  # the part of an answer that tells what is not usual, if one part does

    def add(self, fact: Fact, span: Span) -> None:
        """Keep a fact, unless the same was understood already; a rival gives way to what is said plainly."""
        name = (fact.kind, fact.id, fact.value, fact.which)
        at = next(
            (at for at, (f, _) in enumerate(self.facts) if name == (f.kind, f.id, f.value, f.which)), -1
        )
        if at >= 0:
            known, there = self.facts[at]
            leads = next(place for place, (_, other) in enumerate(self.facts) if other == there) == at
            if known.certain or (leads and not fact.certain):
                return
            del self.facts[at]
        self.facts.append((fact, span))

    def spans(self, *kinds: str) -> list[Span]:
        """Return the stretches that something was made of, of some kinds or of all."""
        return [span for fact, span in self.facts if not kinds or fact.kind in kinds]

    def has(self, *kinds: str) -> bool:
        """Tell whether something of these kinds was understood."""
        return any(fact.kind in kinds for fact, _ in self.facts)


@dataclass(frozen=True, slots=True)
class Ear:
    """One line being listened to, and the check that was asked, if any."""

    line: Line
    check: Check | None
    book: Phrasebook
    heard: Heard
    make: Maker

    @property
    def whole(self) -> Span:
        """The whole line."""
        return 0, len(self.line.words)

    def talk(self) -> Found | None:
        """Return the "not sure" or "can't" in the line, if any."""
        finds = (replies.unsure, replies.cannot)
        return next(
            (found for find in finds if (found := find(self.line.plain) or find(self.line.joined))), None
        )

    def said_so(self) -> str:
        """Return the yes or no that a line says with little besides, else "": "yes they have"."""
        opening = replies.leading(self.line.plain)
        if opening is None or self.line.mentions or self.talk() is not None:
            return ""
        denies = any(
            word.text == "no" and not answers(self.line.words, at) for at, word in enumerate(self.line.words)
        )
        little = not any(weighty(word) for word in self.line.words if word.text not in SO)
        return opening.kind if little and not denies else ""

    def named_readings(self) -> list[Measured]:
        """Return the readings that are named, unless readings were taken already."""
        if self.heard.has("reading"):
            return []
        numbers = free_numbers(self.line.words, self.line.numbers, self.line.mentions)
        asked = self.check.reading.partition("@")[0] if self.check else ""
        quantities = self.book.quantities.favouring(asked) if asked else self.book.quantities
        return named_readings(self.line.words, numbers, self.placing(), quantities)

    def placing(self) -> tuple[Mention, ...]:
        """Return the barrels named, "the others" among them."""
        asked = self.check.barrel if self.check else None
        return with_others(self.line.words, self.line.mentions, self.book.barrels.count, asked)

    def at_an_end(self, span: Span) -> bool:
        """Tell whether a stretch has a number at either end of the display."""
        return any(
            number.value in {0.0, 99.0} for number in self.line.numbers if span[0] <= number.start < span[1]
        )

    def says_only(self, span: Span, read_off: set[int], *, end: bool = True) -> bool:
        """Tell whether a stretch says nothing but a reading; with `end` one at no end of the display."""
        words = [(at, word) for at, word in enumerate(self.line.words[span[0] : span[1]], start=span[0])]
        read_off = read_off | {at for m in self.line.mentions for at in range(m.start, m.end)}
        named = quantity_words(self.line.words, self.book.quantities)  # "low dial" judges nothing
        return (
            not (end and self.at_an_end(span))
            and not any(at not in read_off and weighty(word) and word.text not in LINKS for at, word in words)
            and not any(
                word.text in TELLING
                or (word.text in JUDGES and at not in named and not self.leads_to_number(at))
                for at, word in words
            )
        )

    def leads_to_number(self, at: int) -> bool:
        """Tell whether a word belongs to the number that follows: "just under 70", "dropped to 45"."""
        starts = {number.start for number in self.line.numbers}
        return bool(starts & set(range(at + 1, at + 3)))
