"""What an audit says of a pack, as data: which rule, where in the files, with which facts.

Rule of the file: no sentence stands here; `wording` makes one of a remark.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

Fact = str | int | float
Trail = tuple[str | int, ...]  # keys and positions, from the top of a file inwards


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that an author should look at; within a rule a larger `weight` is worse."""

    rule: str
    trail: Trail
    facts: tuple[tuple[str, Fact], ...]
    weight: float = 0.0

    def weighing(self, weight: float) -> Remark:
        """Return this remark with a weight."""
        return replace(self, weight=weight)


def remark(rule: str, *trail: str | int, **facts: Fact) -> Remark:
    """Return a remark of `rule` about the place `trail`, with the facts its sentence needs."""
    return Remark(rule, trail, tuple(facts.items()))
