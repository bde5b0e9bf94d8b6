"""Everything that a machine's pack says about how people talk, made ready for comparing.

`Phrasebook.of(machine)` is built once per machine and never changes. Rule of the file: the phrases come
from the pack (symptoms, outcomes, quantities, lexicon); nothing about particular faults stands here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear.began import beginnings
from assistant.hear.english import FILLERS
from assistant.hear.features import Concepts, letters, tokens, weighty
from assistant.hear.joined import Joined
from assistant.hear.match import Index
from assistant.hear.numbers import numbers_in
from assistant.hear.parts import Parts
from assistant.hear.readings import Quantities
from assistant.hear.spelling import Vocabulary
from assistant.hear.which import COLOUR_WORDS, FLAVOURS, SIDES, Barrels
from assistant.hear.words import Word, words_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from graph.machine import Check, Machine

TOKENS, LETTERS, WHOLE = 0.6, 0.4, 0.8  # shares of words, letters, and of all phrases of one meaning together
FOREIGN = 0.5
SAME_DANGER = 0.45  # how close the title of a symptom comes to an outcome that it amounts to
TOP = TOKENS + LETTERS + WHOLE


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
    """Meanings with their phrases, indexed."""

    meanings: tuple[Meaning, ...]
    owners: NDArray[np.int32]  # phrase -> meaning
    tokens: Index
    letters: Index
    whole: Index  # one row per meaning
    concepts: Concepts

    def scores(self, words: Sequence[Word]) -> NDArray[np.float64]:
        """Return how close the words come to each meaning, 0 to 1, shape (meanings,)."""
        said = tokens(words, self.concepts)
        near = TOKENS * self.tokens.cosines(said, FOREIGN) + LETTERS * self.letters.cosines(letters(words), FOREIGN)
        best = np.zeros(len(self.meanings))
        np.maximum.at(best, self.owners, near)
        total: NDArray[np.float64] = (best + WHOLE * self.whole.cosines(said, FOREIGN)) / TOP
        return total


@dataclass(frozen=True, slots=True)
class Phrasebook:
    """What to compare a line with, for one machine."""

    barrels: Barrels
    vocabulary: Vocabulary
    concepts: Concepts
    symptoms: Table
    outcomes: Table
    outcomes_of: dict[str, tuple[int, ...]]  # check base id -> rows of `outcomes`
    checks: dict[str, Check]  # by id, base id and ref
    siblings: dict[str, tuple[str, str]]  # base id -> the pair (every barrel, one barrel) that it is of
    quantities: Quantities
    parts: Parts
    timed: frozenset[str]  # symptoms that say when it began
    safety: tuple[str, ...]  # base ids of the checks that look for danger
    dangers: dict[str, tuple[int, ...]]  # symptom base id -> rows of `outcomes`: what it answers in the safety screen

    unusual: NDArray[np.intp]  # rows of `outcomes` that are worth saying unasked: not the usual answer

    def meaning_of(self, base: str) -> Meaning:
        """Return the meaning of a symptom."""
        return next(meaning for meaning in self.symptoms.meanings if meaning.check == base)

    def first_of(self, pair: tuple[str, str]) -> Meaning:
        """Return the one of two sister symptoms that the pack lists first: it is meant when nothing tells."""
        return next(meaning for meaning in self.symptoms.meanings if meaning.check in pair)

    def check(self, name: str) -> Check | None:
        """Return the check or symptom of that id, base id or ref."""
        return self.checks.get(name)

    @classmethod
    def of(cls, machine: Machine) -> Phrasebook:
        """Return the phrasebook of a machine."""
        barrels = Barrels.of(machine)
        concepts = _concepts(machine)
        firsts = _first_instances(machine)
        symptoms = [(_meaning(check), (*check.say, check.title)) for check in firsts if check.kind == "symptom"]
        outcomes = [
            (Meaning(check.base, check.ref, outcome.id, outcome.ref, check.barrel is not None), (*outcome.say, outcome.label))
            for check in firsts
            if check.kind != "symptom"
            for outcome in check.outcomes
        ]
        rows: dict[str, tuple[int, ...]] = {}
        for row, (meaning, _) in enumerate(outcomes):
            rows[meaning.check] = (*rows.get(meaning.check, ()), row)
        table = _table(outcomes, barrels, concepts, symptomatic=False)
        safety = _safety(machine, firsts)
        return cls(
            barrels,
            Vocabulary.of(_all_phrases(machine, firsts)),
            concepts,
            _table(symptoms, barrels, concepts, symptomatic=True),
            table,
            rows,
            _by_name(machine),
            _siblings(firsts),
            Quantities.of(machine),
            Parts.of(machine, concepts),
            frozenset(check.base for check in firsts if check.kind == "symptom" and _is_timed(check)),
            safety,
            _dangers(firsts, safety, table, barrels),
            _unusual(firsts, table, safety),
        )


def comparable(words: Sequence[Word], barrels: Barrels) -> tuple[Word, ...]:
    """Return the words with numbers and the names of barrels made alike.

    "The blue one" and "number two" become the same word, so that a phrase about one flavour meets a line
    about another.
    """
    masks: dict[int, tuple[int, str]] = {
        mention.start: (mention.end, f"@{mention.scope}") for mention in barrels.mentions(words)
    }
    for number in numbers_in(words):
        text = {0.0: "zero", 99.0: "#top"}.get(number.value, "#number")
        masks.setdefault(number.start, (number.end, text))
    found: list[Word] = []
    at = 0
    while at < len(words):
        end, text = masks.get(at, (at + 1, words[at].text))
        plain = at not in masks
        if plain and _names_a_barrel(words, at):
            text, plain = "@some", False
        found.append(words[at] if plain else replace(words[at], text=text, stem=text, end=words[end - 1].end))
        at = end
    return tuple(found)


def _names_a_barrel(words: Sequence[Word], at: int) -> bool:
    """Tell whether a word names a barrel of some machine: a flavour, or "the red", "red one"."""
    if words[at].stem in FLAVOURS:
        return True
    before = words[at - 1].text if at else ""
    after = words[at + 1].text if at + 1 < len(words) else ""
    return words[at].text in COLOUR_WORDS and (before in {"the", "on", "only"} or after in SIDES)


def rests_on_number(words: Sequence[Word]) -> bool:
    """Tell whether a phrase means nothing without its figures ("barrel says 55"): words can't be compared then."""
    return any(word.text == "#number" for word in words) and sum(weighty(word) for word in words) < 2  # noqa: PLR2004


def _table(
    entries: Iterable[tuple[Meaning, Iterable[str]]], barrels: Barrels, concepts: Concepts, *, symptomatic: bool
) -> Table:
    meanings: list[Meaning] = []
    owners: list[int] = []
    said: list[tuple[Word, ...]] = []
    for meaning, phrases in entries:
        for phrase in dict.fromkeys(phrases):
            words = comparable(words_of(phrase), barrels)
            if symptomatic and rests_on_number(words):
                continue
            said.append(words)
            owners.append(len(meanings))
        meanings.append(meaning)
    vectors = [tokens(words, concepts) for words in said]
    sums: list[dict[str, float]] = [{} for _ in meanings]
    for owner, vector in zip(owners, vectors, strict=True):
        for name, count in vector.items():
            sums[owner][name] = sums[owner].get(name, 0.0) + count
    dampened = [{name: float(np.log1p(count)) for name, count in total.items()} for total in sums]
    return Table(
        tuple(meanings),
        np.array(owners, dtype=np.int32),
        Index.of(vectors, owners),
        Index.of([letters(words) for words in said], owners),
        Index.of(dampened, range(len(meanings))),
        concepts,
    )


def _first_instances(machine: Machine) -> tuple[Check, ...]:
    """Return one check for each base id: instances differ only in where they are."""
    seen: dict[str, Check] = {}
    for check in machine.checks:
        seen.setdefault(check.base, check)
    return tuple(seen.values())


def _is_timed(check: Check) -> bool:
    """Tell whether most ways of saying a symptom name an event after which it began."""
    named = [any(found.event for found in beginnings(Joined.of(words_of(text)))) for text in check.say]
    return sum(named) * 2 > len(named)


def _safety(machine: Machine, checks: Iterable[Check]) -> tuple[str, ...]:
    """Return the checks that look for danger, in the order in which they are asked."""
    screen = {name: place for place, name in enumerate(machine.safety)}
    chapters = {check.chapter for check in checks if check.id in screen}
    asked = [c for c in checks if c.kind != "symptom" and (c.id in screen or c.chapter in chapters)]
    found = [c for c in asked if any(o.danger for o in c.outcomes)]
    return tuple(c.base for c in sorted(found, key=lambda check: screen.get(check.id, len(screen))))


def _unusual(checks: Iterable[Check], table: Table, safety: Sequence[str]) -> NDArray[np.intp]:
    """Return the outcomes that a person may tell unasked: of the safety screen, and of what is seen on the machine."""
    by_base = {check.base: check for check in checks}
    rows = []
    for row, meaning in enumerate(table.meanings):
        check = by_base[meaning.check]
        told = meaning.check in safety or (check.usual >= 0 and check.phase == "narrowing" and check.place != "desk")
        danger = check.outcomes[check.outcome_index(meaning.outcome)].danger
        usual = check.usual >= 0 and check.outcomes[check.usual].id == meaning.outcome
        if told and not usual and "operator" in check.roles and (danger or meaning.check not in safety):
            rows.append(row)
    return np.array(rows, dtype=np.intp)


def _dangers(
    checks: Iterable[Check], safety: Sequence[str], table: Table, barrels: Barrels
) -> dict[str, tuple[int, ...]]:
    """Return for symptoms the outcomes of the safety screen that they amount to.

    A symptom with a caution answers the first check of the screen that has an outcome with the same caution; one
    without answers an outcome that is called nearly the same.
    """
    by_base = {check.base: check for check in checks}
    rows = {(m.check, m.outcome): row for row, m in enumerate(table.meanings)}
    unusual = [
        (by_base[name], outcome)
        for name in safety
        for place, outcome in enumerate(by_base[name].outcomes)
        if place != by_base[name].usual
    ]
    found: dict[str, tuple[int, ...]] = {}
    for symptom in by_base.values():
        if symptom.kind != "symptom":
            continue
        caution = symptom.outcomes[0].danger
        same = [(check, outcome) for check, outcome in unusual if caution and outcome.danger == caution]
        if same:
            found[symptom.base] = tuple(rows[c.base, o.id] for c, o in same if c is same[0][0])
        elif not caution:
            scores = table.scores(comparable(words_of(symptom.title), barrels))
            near = [rows[c.base, o.id] for c, o in unusual if scores[rows[c.base, o.id]] >= SAME_DANGER]
            found.update({symptom.base: (max(near, key=lambda row: scores[row]),)} if near else {})
    return found


def _by_name(machine: Machine) -> dict[str, Check]:
    named: dict[str, Check] = {}
    for check in machine.checks:
        for name in (check.id, check.base, check.ref):
            if name:
                named.setdefault(name, check)
    return named


def _siblings(checks: Iterable[Check]) -> dict[str, tuple[str, str]]:
    """Return the pairs of symptoms of the same trouble on every barrel and on one: `x_all` and `x_one`."""
    names = {check.base for check in checks if check.kind == "symptom"}
    pairs = [(name, f"{name[:-4]}_one") for name in sorted(names) if name.endswith("_all") and f"{name[:-4]}_one" in names]
    return {name: pair for pair in pairs for name in pair}


def _meaning(check: Check) -> Meaning:
    return Meaning(check.base, check.ref, barrel=check.barrel is not None and not check.channel)


def _concepts(machine: Machine) -> Concepts:
    meant: dict[tuple[str, ...], tuple[str, ...]] = {}
    for concept, ways in machine.lexicon.items():
        for way in (concept, *ways):
            stems = tuple(word.stem for word in words_of(way) if not word.is_mark and word.text not in FILLERS)
            if stems and concept not in meant.get(stems, ()):
                meant[stems] = (*meant.get(stems, ()), concept)
    return Concepts(meant)


def _all_phrases(machine: Machine, checks: Iterable[Check]) -> Iterable[tuple[Word, ...]]:
    for check in checks:
        for text in (*check.say, check.title, *check.ask.values()):
            yield words_of(text)
        for outcome in check.outcomes:
            for text in (*outcome.say, outcome.label):
                yield words_of(text)
    for quantity in machine.quantities:
        for text in quantity.say:
            yield words_of(text)
    for component in machine.components:
        yield words_of(component.title)
    for concept, ways in machine.lexicon.items():
        for text in (concept, *ways):
            yield words_of(text)
    for flavour in machine.flavours:
        yield words_of(flavour)
