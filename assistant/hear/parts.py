"""Which component a question back is about: "what's a regulator?", "where is that filter?"."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear.english import FILLERS, SMALL_WORDS, listed
from assistant.hear.features import tokens
from assistant.hear.match import Index
from assistant.hear.numbers import UNIT_OF
from assistant.hear.words import Word, words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.features import Concepts
    from graph.machine import Component, Machine

ENOUGH = 0.34
TIE = 0.02
SAME_PART = 0.35  # a part of what was just asked about is more likely meant
NAMED, NAMED_FIRST, LISTED = 0.2, 0.1, 0.05  # what the very name, its first word, a reference add
MAIN = 0.1  # what speaks for "the main ..." where several have the name that was said
EXPLAINED = 0.15  # share of the explanation beside the title
QUESTION_WORDS = listed(
    """
    where what why which whereabouts find do does would mean called thing bit part find look looking for
    come asking need know home exactly sort kind one ones these those i you how live lives keep kept
    located sit sits hidden hiding sat situated supposed meant place get never heard being even idea
    clue sure when its at
    """
)


@dataclass(frozen=True, slots=True)
class Parts:
    """The components of one machine, one for each base id, by their names."""

    components: tuple[Component, ...]
    index: Index
    concepts: Concepts

    @classmethod
    def of(cls, machine: Machine, concepts: Concepts) -> Parts:
        """Return the components of a machine, ready to be looked up."""
        firsts: dict[str, Component] = {}
        for component in machine.components:
            firsts.setdefault(component.base, component)
        found = tuple(firsts.values())
        vectors = []
        for component in found:
            vector = dict(tokens(words_of(component.title.partition(", ")[0]), concepts))
            for name, count in tokens(words_of(component.explain), concepts).items():
                vector[name] = vector.get(name, 0.0) + EXPLAINED * min(count, 1.0)
            vectors.append(vector)
        return cls(found, Index.of(vectors, range(len(found))), concepts)

    def meant(self, words: Sequence[Word], near: str, chapter: str) -> Component | None:
        """Return the component that a question is about; `near` and `chapter` are of the check just asked."""
        told = [w for w in words if not w.is_mark and (w.text,) not in UNIT_OF]  # a unit names no part
        said = [w for w in told if w.text not in QUESTION_WORDS | FILLERS | SMALL_WORDS]
        if not said:
            return None
        scores = self.index.cosines(tokens(said, self.concepts), 0.5)
        stems = tuple(word.stem for word in said)
        for row in np.flatnonzero(scores > ENOUGH / 2):
            scores[row] += _bonus(self.components[row], stems, near, chapter)
        best = int(np.argmax(scores >= scores.max() - TIE))  # the first of those that are as good as equal
        found = self.components[best]
        return found if scores[best] >= ENOUGH and self._named(found, said) else None

    def _named(self, component: Component, said: Sequence[Word]) -> bool:
        """Tell whether words name a component; what only its explanation mentions is not meant."""
        title = words_of(component.title.partition(", ")[0])
        head = title[: next((at for at, word in enumerate(title) if word.text in {"and", "or"}), len(title))]
        same = {word.stem for word in title} & {word.stem for word in said if word.text not in SMALL_WORDS}
        return bool(same or tokens(head, self.concepts).keys() & tokens(said, self.concepts).keys())


def _bonus(component: Component, stems: tuple[str, ...], near: str, chapter: str) -> float:
    """Return what speaks for a component besides likeness: its name, its reference, what was just asked."""
    names = [tuple(word.stem for word in words_of(name)) for name in component.title.split(" and ")]
    bonus = NAMED * (stems in names) + NAMED_FIRST * (names[0][0] in stems) + LISTED * bool(component.ref)
    main = names[0][0] == "main" and set(stems) <= set(names[0])
    return (
        bonus
        + MAIN * main
        + SAME_PART * (component.id == near)
        + SAME_PART / 2 * (component.chapter == chapter)
    )
