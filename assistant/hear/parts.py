"""Which component a question back is about: "what's a regulator?", "where is that filter?"."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear.english import FILLERS, SMALL_WORDS
from assistant.hear.features import tokens
from assistant.hear.match import Index
from assistant.hear.words import Word, words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.features import Concepts
    from graph.machine import Component, Machine

ENOUGH = 0.3
TIE = 0.06
SAME_PART = 0.35  # a part of what was just asked about is more likely meant
NAMED_FIRST, LISTED = 0.1, 0.05  # what a title that opens with the word, and a reference of its own, add
EXPLAINED = 0.15  # share of the explanation beside the title
QUESTION_WORDS = frozenset(
    """where what why which whereabouts find do does would mean called thing bit part find look looking for come asking
    need know home exactly sort kind one ones these those i you how""".split()
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
        said = [w for w in words if not w.is_mark and w.text not in QUESTION_WORDS | FILLERS | SMALL_WORDS]
        if not said:
            return None
        scores = self.index.cosines(tokens(said, self.concepts), 0.5)
        for row, component in enumerate(self.components):
            if scores[row] > ENOUGH / 2:
                scores[row] += SAME_PART * (component.id == near) + SAME_PART / 2 * (component.chapter == chapter)
                first = words_of(component.title)[0].stem
                scores[row] += NAMED_FIRST * any(word.stem == first for word in said) + LISTED * bool(component.ref)
        best = int(np.argmax(scores >= scores.max() - TIE))  # the first of those that are as good as equal
        return self.components[best] if scores[best] >= ENOUGH else None
