"""Everything `graph` raises on purpose.

* GraphError
  - PackInvalid          the pack is readable but says something wrong; carries every problem
  - PackMissing          no such pack, profile or element
  - TreeInvalid          the fault tree has a cycle, an empty gate or an impossible k
  - ImpossibleEvidence   no hypothesis can explain what was seen
  - UnitUnknown          a unit that nobody taught us
  - OutOfRange           a number outside the range where a formula holds
"""

from __future__ import annotations

from dataclasses import dataclass


class GraphError(Exception):
    """The base of every error that this package raises on purpose."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a pack: where it stands, what is wrong, what to do about it."""

    file: str
    line: int
    path: str
    what: str
    remedy: str = ""

    def __str__(self) -> str:
        tail = f" {self.remedy}" if self.remedy else ""
        return f"{self.file}:{self.line}  {self.path}: {self.what}{tail}"


class PackInvalid(GraphError):
    """The pack says something wrong; `problems` holds all of it, not only the first."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(str(problem) for problem in problems))


class PackMissing(GraphError):
    """There is no pack, profile or element of that name."""


class TreeInvalid(GraphError):
    """The fault tree has a cycle, an empty gate or an impossible k."""


class ImpossibleEvidence(GraphError):
    """No hypothesis gives what was seen a probability above zero."""


class UnitUnknown(GraphError):
    """The unit is not one we know, or does not measure this quantity."""


class OutOfRange(GraphError):
    """The number lies outside the range where the formula holds."""
