"""How the quantities of a machine are called, and which numbers they can take."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from assistant.hear.joined import Span
    from assistant.hear.numbers import Number
    from assistant.hear.words import Word
    from graph.machine import Machine

MEASURES = (
    frozenset(["psi", "bar", "kpa", "mpa"]),
    frozenset(["c", "f"]),
    frozenset(["v", "mv"]),
    frozenset(["kg", "lb"]),
    frozenset(["brix"]),
    frozenset(["%"]),
    frozenset(["min"]),
)
PRESSURE = MEASURES[0]


@dataclass(frozen=True, slots=True)
class Measured:
    """A number for a quantity, of some barrels, with the words it was taken from."""

    base: str
    number: Number
    which: tuple[int, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Quantities:
    """How the quantities of one machine are called."""

    called: dict[tuple[str, ...], str]  # stems -> base id
    shared: dict[tuple[str, ...], tuple[str, ...]]  # stems that name several -> their base ids
    units: dict[str, str]
    typical: dict[str, tuple[float, float]]  # plausible values, by base id
    differences: dict[str, str]  # those that lie between numbers -> how
    per_barrel: frozenset[str]
    displayed: frozenset[str]  # those that a check reads off the display
    barrels: int

    @classmethod
    def of(cls, machine: Machine) -> Quantities:
        """Return the names of the quantities of a machine; the first owner of a name keeps it."""
        owners: dict[tuple[str, ...], tuple[str, ...]] = {}
        for quantity in machine.quantities:
            for text in (*quantity.say, quantity.base.replace("_", " ")):
                stems = tuple(word.stem for word in words_of(text) if word.text != "the")
                known = owners.get(stems, ())
                owners[stems] = known if quantity.base in known else (*known, quantity.base)
        return cls(
            {stems: bases[0] for stems, bases in owners.items()},
            {stems: bases for stems, bases in owners.items() if len(bases) > 1},
            {quantity.base: quantity.unit.lower() for quantity in machine.quantities},
            {quantity.base: quantity.typical for quantity in machine.quantities if quantity.typical},
            {quantity.base: quantity.difference for quantity in machine.quantities if quantity.difference},
            frozenset(quantity.base for quantity in machine.quantities if quantity.barrel),
            frozenset(check.reading.partition("@")[0] for check in machine.checks if check.displayed),
            machine.barrels,
        )

    def favouring(self, base: str) -> Quantities:
        """Return the names with those that may mean one quantity meaning it: the one that is asked for."""
        own = {stems: base for stems, bases in self.shared.items() if base in bases}
        return replace(self, called={**self.called, **own}) if own else self

    def named_at(self, words: Sequence[Word], at: int) -> tuple[str, int]:
        """Return the quantity named from a word on and where its name ends; ("", at) if none is."""
        for length in (5, 4, 3, 2, 1):
            said = [word for word in words[at : at + length] if word.text != "the"]
            stems = tuple(word.stem for word in said)
            if stems and stems not in self.called and said[-1].text.endswith("s"):  # "regulateds 57": it is
                stems = (*stems[:-1], said[-1].text.removesuffix("s"))
            whole = len(words) >= at + length and "the" not in {words[at].text, words[at + length - 1].text}
            if whole and stems in self.called:
                return self.called[stems], at + length
        return "", at

    def asked_in(self, texts: Iterable[str], number: Number) -> str:
        """Return the quantity that a question names and that a number can be of, "" if there is none.

        Where it names none, the unit may still leave only one quantity that is not per barrel.
        """
        for text in texts:
            words = words_of(text)
            for at in range(len(words)):
                base, _ = self.named_at(words, at)
                if base and self.takes(base, number) and self.can_be(base, number):
                    return base
        fits = [base for base in self.units if number.unit and self.takes(base, number)]
        fits = [base for base in fits if self.can_be(base, number)]
        return fits[0] if len(fits) == 1 else ""

    def can_be(self, base: str, number: Number) -> bool:
        """Tell whether a quantity can have a value; what is told in another unit is not judged."""
        low, high = self.typical.get(base, (number.value, number.value))
        return number.unit.lower() not in {"", self.units.get(base, "")} or low <= number.value <= high

    def plain(self, base: str, number: Number) -> bool:
        """Tell whether a number without a unit is taken for a quantity: only for pressures."""
        return bool(number.unit) or self.units.get(base, "") not in {"min", "%"}

    def takes(self, base: str, number: Number) -> bool:
        """Tell whether a number can be a value of a quantity, by its unit."""
        measure = next((group for group in MEASURES if self.units.get(base, "") in group), frozenset())
        if not number.unit:
            return not number.counts
        return number.unit.lower() in measure or (number.unit == "lb" and measure == PRESSURE)


def in_pounds(number: Number, unit: str) -> Number:
    """Return a pressure given in pounds as psi."""
    return replace(number, unit="psi") if number.unit == "lb" and unit in PRESSURE else number
