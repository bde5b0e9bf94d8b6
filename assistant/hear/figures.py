"""The numbers of a reply: those that were asked for, and which quantity each is of."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.hear import asked as answering
from assistant.hear.ear import Ear
from assistant.hear.features import weighty
from assistant.hear.mention import text_at
from assistant.hear.numbers import numbers_in
from assistant.hear.placing import groups
from assistant.hear.quantities import Measured
from assistant.hear.readings import LINKS, asked_readings, free_numbers, quantity_words
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.numbers import Number
    from assistant.hear.words import Word
    from graph.machine import Check

MOVES = frozenset(
    [
        "drops",
        "drop",
        "dropped",
        "fell",
        "lost",
        "sank",
        "rose",
        "climbed",
        "gained",
        "sagged",
        "crept",
        "falls",
        "loses",
        "rises",
        "gains",
        "climbs",
        "sinks",
    ]
)  # by so much
OFF = frozenset(
    [
        "out",
        "off",
        "adrift",
        "apart",
        "different",
        "difference",
        "error",
        "lower",
        "higher",
        "less",
        "more",
        "over",
        "under",
        "short",
        "shy",
    ]
)  # behind such a number
HIGH_OR_LOW = frozenset(["high", "low"])  # likewise, where the number is a small one: "four psi high"
SMALL = 10.0
# What likens a number to another: it is no reading then, where none is asked for.
IN_TURN = frozenset(["then", "now", "before", "after", "was", "were"])  # between numbers of one thing
LIKENED = frozenset(
    ["same", "exactly", "matches", "match", "agrees", "agree", "identical", "well", "way", "then"]
)
SHARES = frozenset(["quarter", "quarters", "half", "third", "full", "left", "¼", "½", "¾"])
UNIT_NAMES = {
    "psi": "psi",
    "bar": "bar",
    "kpa": "kPa",
    "kilopascals": "kPa",
    "volts": "V",
    "kilos": "kg",
    "kg": "kg",
    "celsius": "C",
}
NAMES_UNIT = frozenset(
    [",", "?", "in", "says", "say", "reads", "is", "marked"]
)  # before a unit that stands apart
UNIT_WRITTEN = frozenset(["it", "written", "printed", "marked", "then"])  # likewise, behind it


def is_difference(words: Sequence[Word], number: Number) -> bool:
    """Tell whether a number says how far something is off or has moved: "up by four", "2 psi out"."""
    behind = text_at(words, number.end)
    judged = behind in HIGH_OR_LOW and number.value < SMALL
    return text_at(words, number.start - 1) in {"by", *MOVES} or behind in OFF or judged


@dataclass(frozen=True, slots=True)
class Figures(Ear):
    """Takes the numbers of a reply to the check that was asked."""

    def take(self, check: Check) -> bool:
        """Take the numbers asked for; where no quantity is asked for, only if the line is nothing else."""
        line, quantities = self.line, self.book.quantities
        free = free_numbers(line.words, line.numbers, self.placing())
        base = self._weighed(check, check.reading.partition("@")[0], free)
        told = [self._of_asked(named, base) for named in self.named_readings()]
        told = [named for named in told if check.reading or not is_difference(line.words, named.number)]
        others = [named for named in told if named.base != base]
        if base in quantities.differences:  # "it says 11.2, the card wants 13" tells how far it is off
            others = [named for named in others if quantities.units[named.base] != quantities.units[base]]
        own = [named for named in told if named.base == base and base not in quantities.per_barrel]
        own = [] if self._goes_on_to_now(own, free) else own
        if not base and free and free[0].unit == "V":  # "2.9 V on the signal wire", where that is asked about
            asked = quantities.asked_in((check.title, check.ask.get("operator", "")), free[0])
            own = [named for named in told if asked and named.base == asked]
            others = [named for named in others if named not in own]
        taken = {at for named in others for at in range(*named.span)}
        numbers = [number for number in free if number.start not in taken]
        apart = [number for number in numbers if self._stands_alone(number, check)] if not base else []
        numbers = apart if len(apart) == 1 else numbers
        base = base or self._volts(check, numbers)
        only = not base and bool(numbers) and not is_difference(line.words, numbers[0])
        only = only and (bool(apart) or self._only_numbers()) and not self._likens(check, numbers)
        if not base and len(numbers) > 1:
            asked = quantities.asked_in((check.title, check.ask.get("operator", "")), numbers[0])
            base = asked if self._one_a_barrel(asked, numbers) else base
        if only and (outcome := answering.labelled(check, numbers)):
            self.heard.add(self.make.outcome(check, outcome, 1.0, self.whole), self.whole)
            return True
        if only and (
            numbers[0].unit or any((n.high or n.value) > quantities.barrels or n.value % 1 for n in numbers)
        ):
            base = quantities.asked_in((check.title, check.ask.get("operator", "")), numbers[0])
        found = asked_readings(line.words, numbers, self.placing(), base, quantities) if base else []
        found = own[:1] or self._with_unit(found)
        if not found and numbers and numbers[0].unit and not is_difference(line.words, numbers[0]):
            other = quantities.asked_in((check.title, check.ask.get("operator", "")), numbers[0])
            found = asked_readings(line.words, numbers, self.placing(), other, quantities) if other else []
        for measured in found:
            span = self.whole if len(found) == 1 and not others else measured.span
            self.heard.add(
                self.make.banded_danger(check, measured) or self.make.reading(measured, span), span
            )
        skilled = "operator" not in check.roles and not check.reading
        others = [] if skilled else others
        alone = bool(others) and self._only_numbers(quantity_words(line.words, quantities))
        for measured in others if found or alone else ():
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        return bool(found) or alone

    def pair(self, check: Check) -> list[Measured]:
        """Return two numbers as the two quantities that the first outcome names, in that order.

        "They're both up, 69 and 60" to "supply 65-72, regulated 57-63 psi".
        """
        free = free_numbers(self.line.words, self.line.numbers, self.placing())
        label = words_of(check.outcomes[0].label)
        names = (self.book.quantities.named_at(label, at)[0] for at in range(len(label)))
        bases = [base for base in dict.fromkeys(names) if base]
        if check.reading or len(bases) != 2 or len(free) != 2:  # noqa: PLR2004 -- a pair
            return []
        told = [
            Measured(base, number, (), (number.start, number.end))
            for base, number in zip(bases, free, strict=True)
            if self.book.quantities.takes(base, number) and self.book.quantities.can_be(base, number)
        ]
        return told if len(told) == len(free) else []

    def _of_asked(self, named: Measured, base: str) -> Measured:
        """Return a reading; one that only the quantity asked for can have is of that: "4.9 V at the plug"."""
        limits, number = self.book.quantities.typical, named.number
        other, own = limits.get(named.base), limits.get(base)
        if named.base == base or other is None or own is None or not self.book.quantities.takes(base, number):
            return named
        outside = not other[0] <= number.value <= other[1]
        return replace(named, base=base, which=()) if outside and own[0] <= number.value <= own[1] else named

    def _likens(self, check: Check, numbers: Sequence[Number]) -> bool:
        """Tell whether a reply compares numbers, or one with what is known: "28, same as before"."""
        rest = {word.text for word in self.line.words}
        base = self.book.quantities.asked_in((check.title, check.ask.get("operator", "")), numbers[0])
        each = self._one_a_barrel(base, numbers)
        several = len(numbers) > 1 and len({number.unit for number in numbers}) == 1
        return not each and (several or bool(LIKENED & rest))

    def _one_a_barrel(self, base: str, numbers: Sequence[Number]) -> bool:
        """Tell whether there is one number for each barrel, or for each that is named."""
        labels = range(1, self.book.barrels.count + 1)
        if all(number.value in labels and number.high is None for number in numbers):
            return False  # "1 and 2 say run, 3 says stopped" numbers the barrels
        named = len(groups(self.placing(), numbers))
        return (
            base in self.book.quantities.per_barrel
            and not IN_TURN & {word.text for word in self.line.words}
            and len(numbers) in {self.book.barrels.count, 2 * self.book.barrels.count, named}
        )

    def _goes_on_to_now(self, own: Sequence[Measured], free: Sequence[Number]) -> bool:
        """Tell whether a later number is what it says now: "gas was 72 last week, now it's 50"."""
        end = max((named.span[1] for named in own), default=len(self.line.words))
        return any(
            "now" in {word.text for word in self.line.words[max(number.start - 3, end) : number.start]}
            for number in free
            if number.start >= end
        )

    def _weighed(self, check: Check, base: str, numbers: list[Number]) -> str:
        """Return the quantity asked for; of a share, told without "percent", the one that the question names.

        "What does the bottle weigh?" asks for kilograms, from which the share that is left is worked out.
        """
        quantities = self.book.quantities
        if quantities.units.get(base, "") != "%" or not numbers or numbers[0].unit == "%":
            return base
        shares = any(word.text in SHARES for word in self.line.words)
        number = next((number for number in numbers if number.unit in {"kg", "lb"}), numbers[0])
        other = quantities.asked_in((check.title, check.ask.get("operator", "")), number)
        return other if quantities.units.get(other, "") == "kg" and not shares else base

    def _volts(self, check: Check, numbers: list[Number]) -> str:
        """Return the voltage that a question is about, where one of the numbers can be it."""
        quantities = self.book.quantities
        name = quantities.asked_in((check.title,), numbers[0]) if numbers else ""
        low, high = quantities.typical.get(name, (0.0, 0.0))
        fits = quantities.units.get(name, "") == "v" and any(low < n.value <= high for n in numbers)
        return name if fits else ""

    def _with_unit(self, found: list[Measured]) -> list[Measured]:
        """Return readings in the one unit that is named apart from them: "4.8, the print says bar"."""
        words = self.line.words
        named = {UNIT_NAMES[word.text] for at, word in enumerate(words) if self._names_unit(at)}
        spelled = [word.text for word in words[-3:]] == ["p", "s", "i"]
        named |= {"psi"} if spelled else set()
        if not found or len(named) != 1 or any(each.number.unit for each in found):
            return found
        inside = [replace(each, number=replace(each.number, unit=min(named))) for each in found]
        fits = all(self.book.quantities.takes(each.base, each.number) for each in inside)
        return inside if fits else found

    def _names_unit(self, at: int) -> bool:
        """Tell whether a word names a unit, not denied: "on the psi ring", "bar: 4.4"."""
        words = self.line.words
        text, before, after = words[at].text, text_at(words, at - 1), text_at(words, at + 1)
        if text not in UNIT_NAMES or {"not", "never"} & {w.text for w in words[max(at - 3, 0) : at]}:
            return False
        if text != "bar":  # which may be a room
            return True
        return before in NAMES_UNIT or after in UNIT_WRITTEN or (not before and after == ":")

    def _stands_alone(self, number: Number, check: Check) -> bool:
        """Tell whether a number stands between marks where the question names one: "not near that, 28"."""
        title = words_of(check.title)
        if not any(text_at(title, asked.start - 1) in {"above", "below"} for asked in numbers_in(title)):
            return False
        before, after = text_at(self.line.words, number.start - 1), text_at(self.line.words, number.end)
        return not (before.isalpha() or (after.isalpha() and after not in {"and", "psi", "bar"}))

    def _only_numbers(self, named: set[int] | None = None) -> bool:
        places = {at for n in self.line.numbers for at in range(n.start, n.end)} | (named or set())
        places |= {at for m in self.placing() for at in range(m.start, m.end)}
        places |= {at for span in self.heard.spans("correct") for at in range(*span)}
        rest = [word for at, word in enumerate(self.line.words) if at not in places and not word.is_mark]
        return all(word.text in LINKS or not weighty(word) for word in rest)
