"""Everything that a machine's pack says about how people talk, made ready for comparing.

`Phrasebook.of(machine)` is built once per machine and never changes. Rule of the file: the phrases come
from the pack (symptoms, outcomes, quantities, lexicon); nothing about particular faults stands here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from assistant.hear import relations
from assistant.hear.chatter import Chatter
from assistant.hear.features import Concepts
from assistant.hear.parts import Parts
from assistant.hear.quantities import Quantities
from assistant.hear.spelling import Vocabulary
from assistant.hear.table import Meaning, Table, phrases
from assistant.hear.thesaurus import everyday
from assistant.hear.which import Barrels
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy as np
    from numpy.typing import NDArray

    from assistant.hear.match import Index
    from graph.machine import Check, Machine


class Compared(NamedTuple):
    """The costly part of a phrasebook, which is worth keeping in a cache."""

    vocabulary: Vocabulary
    symptoms: Table
    outcomes: Table
    timed: frozenset[str]  # symptoms that say when it began


@dataclass(frozen=True, slots=True)
class Phrasebook:
    """What to compare a line with, for one machine."""

    barrels: Barrels
    vocabulary: Vocabulary
    symptoms: Table
    outcomes: Table
    outcomes_of: dict[str, tuple[int, ...]]  # check base id -> rows of `outcomes`
    checks: dict[str, Check]  # by id, base id and ref
    kin: tuple[tuple[int, ...], ...]  # row of `symptoms` -> rows of the same trouble, itself among them
    siblings: dict[str, tuple[str, str]]  # base id -> the pair (every barrel, one barrel) that it is of
    quantities: Quantities
    parts: Parts
    timed: frozenset[str]  # symptoms that say when it began
    safety: tuple[str, ...]  # base ids of the checks that look for danger
    dangers: dict[str, tuple[int, ...]]  # symptom base id -> rows of `outcomes` that it amounts to
    feared: NDArray[np.intp]  # rows of `outcomes` that are dangers of the safety screen
    tellable: NDArray[np.intp]  # rows of `outcomes` that people may tell unasked
    topics: Index  # what each check is about, in the order in which `outcomes` has them
    topic_of: NDArray[np.intp]  # row of `outcomes` -> row of `topics`
    chatter: Chatter
    skilled: NDArray[np.bool_]  # row of `outcomes` -> whether its check is not for operators
    sided: frozenset[str]  # chapters with checks of single barrels, where a side is one of them

    @classmethod
    def of(cls, machine: Machine, kept: Compared | None = None) -> Phrasebook:
        """Return the phrasebook of a machine; `kept` is what `compared` gave for the same machine before."""
        barrels, concepts = Barrels.of(machine), concepts_of(machine)
        firsts = first_instances(machine)
        vocabulary, symptoms, outcomes, timed = kept or compared(machine)
        screen = relations.safety(machine, firsts)
        rows: dict[str, tuple[int, ...]] = {}
        for row, meaning in enumerate(outcomes.meanings):
            rows[meaning.check] = (*rows.get(meaning.check, ()), row)
        return cls(
            barrels,
            vocabulary,
            symptoms,
            outcomes,
            rows,
            _by_name(machine),
            _kin(symptoms, relations.siblings(firsts)),
            relations.siblings(firsts),
            Quantities.of(machine),
            Parts.of(machine, concepts),
            timed,
            screen,
            relations.dangers(firsts, screen, outcomes, barrels),
            relations.feared(firsts, outcomes, screen),
            relations.tellable(firsts, outcomes, screen),
            *relations.topics(firsts, outcomes, barrels),
            Chatter.of(concepts),
            relations.skilled(firsts, outcomes),
            relations.sided(machine),
        )

    def meaning_of(self, base: str) -> Meaning:
        """Return the meaning of a symptom."""
        return next(meaning for meaning in self.symptoms.meanings if meaning.check == base)

    def first_of(self, pair: tuple[str, str]) -> Meaning:
        """Return the one of two sister symptoms that the pack lists first: it is meant when nothing tells."""
        return next(meaning for meaning in self.symptoms.meanings if meaning.check in pair)

    def check(self, name: str) -> Check | None:
        """Return the check or symptom of that id, base id or ref."""
        return self.checks.get(name)


def compared(machine: Machine) -> Compared:
    """Return the vocabulary and the indexed phrases of a machine; takes a second or two."""
    barrels, concepts = Barrels.of(machine), concepts_of(machine)
    firsts = first_instances(machine)
    read = cache(words_of)  # each text is looked at two or three times
    symptoms = (
        (
            Meaning(c.base, c.ref, barrel=_per_barrel(c)),
            phrases((*c.say, c.title), barrels, read, figures=False),
        )
        for c in firsts
        if c.kind == "symptom"
    )
    outcomes = (
        (
            Meaning(c.base, c.ref, outcome.id, outcome.ref, _per_barrel(c)),
            phrases((*outcome.say, outcome.label), barrels, read, figures=True),
        )
        for c in firsts
        if c.kind != "symptom"
        for outcome in c.outcomes
    )
    told = Table.of(symptoms, concepts)
    return Compared(
        Vocabulary.of(read(text) for text in _all_texts(machine, firsts)),
        told.regressed(_families(told, relations.siblings(firsts))),
        Table.of(outcomes, concepts).told_apart(),
        frozenset(c.base for c in firsts if c.kind == "symptom" and relations.is_timed(c, read)),
    )


def _kin(told: Table, siblings: dict[str, tuple[str, str]]) -> tuple[tuple[int, ...], ...]:
    families = _families(told, siblings)
    return tuple(tuple(row for row, other in enumerate(families) if other == family) for family in families)


def _families(told: Table, siblings: dict[str, tuple[str, str]]) -> list[int]:
    """Return a number for each symptom, the same for sisters: words alone do not tell those apart."""
    heads = [siblings.get(meaning.check, (meaning.check,))[0] for meaning in told.meanings]
    numbers = {head: number for number, head in enumerate(dict.fromkeys(heads))}
    return [numbers[head] for head in heads]


def first_instances(machine: Machine) -> tuple[Check, ...]:
    """Return one check for each base id: instances differ only in where they are."""
    seen: dict[str, Check] = {}
    for check in machine.checks:
        seen.setdefault(check.base, check)
    return tuple(seen.values())


def concepts_of(machine: Machine) -> Concepts:
    """Return the ways of saying the same thing: the pack's and everyday ones."""
    named = ((concept, (concept, *ways)) for concept, ways in machine.lexicon.items())
    return Concepts.of((*named, *everyday().items()))


def _per_barrel(check: Check) -> bool:
    return check.barrel is not None and not check.channel


def _by_name(machine: Machine) -> dict[str, Check]:
    named: dict[str, Check] = {}
    for check in machine.checks:
        for name in (check.id, check.base, check.ref):
            if name:
                named.setdefault(name, check)
    return named


def _all_texts(machine: Machine, checks: Iterable[Check]) -> Iterable[str]:
    """Yield every text of the pack that tells how people talk."""
    for check in checks:
        yield from (*check.say, check.title, *check.ask.values())
        yield from (text for outcome in check.outcomes for text in (*outcome.say, outcome.label))
    yield from (text for quantity in machine.quantities for text in quantity.say)
    yield from (component.title for component in machine.components)
    yield from (text for concept, ways in machine.lexicon.items() for text in (concept, *ways))
    yield from machine.flavours
