"""What was understood of a line: `Fact`, the only thing that `hear` hands to the engine."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal[
    "symptom",
    "not_symptom",
    "answer",
    "reading",
    "which",
    "began",
    "fine",
    "unsure",
    "cannot",
    "ask",
    "yes",
    "no",
    "correct",
    "danger",
    "place",
]

REPLY_KINDS: tuple[Kind, ...] = ("yes", "no", "unsure", "cannot")  # facts that answer whatever is open


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that a person said.

    `id` names the symptom, check, quantity or component meant (an instance of the expanded machine
    where that is known, else a base id), `ref` the same by the author's reference. `value` is an
    outcome id, a number as text, a barrel, a time or a topic, by kind; `unit` is set for readings.
    `score` runs from 0 to 1; a fact that is not `certain` must be confirmed before it counts.
    `words` is the part of the line that it was taken from. A `place` is a machine of the address book:
    `id` its site and its own key, `site/machine`, `value` the site's name, `ref` what the machine is called.
    """

    kind: Kind
    id: str = ""
    ref: str = ""
    value: str = ""
    unit: str = ""
    high: str = ""  # upper end of a range, for readings
    which: tuple[int, ...] = ()  # barrels meant; empty: none named
    score: float = 1.0
    certain: bool = True
    words: str = ""
