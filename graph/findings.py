"""What goes into a case and what comes out of it, by id: findings, belief, advice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from graph.choose import Reason


@dataclass(frozen=True, slots=True)
class Finding:
    """One piece of evidence.

    `weights` are over the outcomes of `check`: (0, 1, 0) for a plain answer, softer for a reading.
    `check` may be "work:<remedy>", with weights over (cured, not cured). `cured` names the remedies that
    had been done before this was seen.
    """

    check: str
    weights: tuple[float, ...]
    role: str
    cured: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed, by id, most probable first; probabilities are of being present or needed."""

    causes: tuple[tuple[str, float], ...]
    remedies: tuple[tuple[str, float], ...]
    components: tuple[tuple[str, float], ...]
    nothing: float
    unknown: float
    several: float
    bits: float  # entropy of what to do

    def cause(self, fault: str) -> float:
        """Return the probability that `fault` is present."""
        return dict(self.causes)[fault]


@dataclass(frozen=True, slots=True)
class Ranked:
    """One check with what it is expected to tell and to cost."""

    check: str
    bits_remedy: float
    bits_fault: float
    minutes: float
    score: float
    outcomes: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Advice:
    """Act or ask. `act` is false only for the reason "ask"."""

    act: bool
    remedy: str
    probability: float
    cost_act: float
    cost_ask: float
    reason: Reason


@dataclass(frozen=True, slots=True)
class Conflict:
    """How badly the answers fit together: above zero bits, worse than chance.

    `suspect` is the finding whose removal helps most, None while all is well.
    """

    bits: float
    suspect: int | None
