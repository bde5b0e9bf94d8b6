"""Words in a step that mean somebody can be hurt, and what a caution for them speaks of.

A caution covers a hazard when its own words speak of it, so that this list knows no pack. Patterns
are matched at the start of a word, case aside. The kinds of hazard are common practice in the trade,
no source; the words are ours.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property


@dataclass(frozen=True)
class Hazard:
    """A kind of hazard: words of a step that bring it, words of a caution that meet it, and why."""

    name: str
    step_words: tuple[str, ...]
    caution_words: tuple[str, ...]
    reason: str

    @cached_property
    def _step(self) -> re.Pattern[str]:
        return _pattern(self.step_words)

    @cached_property
    def _caution(self) -> re.Pattern[str]:
        return _pattern(self.caution_words)

    def found(self, text: str) -> str:
        """Return the word of a step that brings this hazard, empty if none does."""
        match = self._step.search(text)
        return match.group().casefold() if match else ""

    def met(self, text: str) -> bool:
        """Return whether a caution's words speak of this hazard."""
        return self._caution.search(text) is not None


def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(r"\b(?:" + "|".join(words) + ")", re.IGNORECASE)


HAZARDS = (
    Hazard(
        "stored pressure",
        (
            r"undo\b",
            r"loosen (?:the )?(?:nut|fitting|union|joint|clamp|screw)",
            "unscrew",
            "disconnect",
            r"open the (?:fitting|union|block|line)",
            r"relief valve",
        ),
        ("pressure", "bleed"),
        "what is still under pressure throws parts and liquid when a joint is opened",
    ),
    Hazard(
        "carbon dioxide in the room",
        (
            r"vent(?:ing)? (?:the )?gas",
            r"bleed (?:the )?gas",
            r"(?:open|shut)\b[^.]*\b(?:drive|the|then) gas\b",
            "cellar",
            r"gas (?:room|store)",
            "confined",
        ),
        ("co2", "carbon dioxide", "ventilat", "cellar"),
        "carbon dioxide sinks, has no smell in small amounts and suffocates",
    ),
    Hazard(
        "high-pressure cylinder",
        (
            r"(?:new|old|full|empty) (?:cylinder|bottle)",
            r"(?:change|move|carry|stand|chain|open) (?:the|a|both|each) (?:\w+ )?(?:cylinder|bottle)",
        ),
        ("cylinder",),
        "a cylinder that falls or is opened fast becomes a projectile",
    ),
    Hazard(
        "liquid carbon dioxide",
        ("frosted", "frost on the regulator", "liquid co2", "dip tube"),
        ("liquid", "frost", "cold burn"),
        "liquid carbon dioxide burns skin by cold and bursts what it is shut into",
    ),
    Hazard(
        "electricity",
        (
            "capacitor",
            "contactor",
            "mains (?:lead|voltage|terminal|wir)",
            "live",
            "terminal",
            "insulation test",
            "fuse",
            r"(?:electrical|service|back|side) panel",
        ),
        ("electric", "live", "shock", "prove dead", "proved dead"),
        "mains voltage and charged capacitors kill; an interlock does not isolate",
    ),
    Hazard(
        "moving parts",
        ("dasher", "beater", "blades?", "drive belt", "coupling", r"fan (?:blade|motor)", "gear ?box"),
        ("moving", "motion", "dasher", "beater", "start by itself", "starts by itself", "belt"),
        "a drive can start by itself after an overload, by a timer or from afar",
    ),
    Hazard(
        "refrigerant",
        ("refrigerant", "recover the charge", "braz", "schrader", "sealed system"),
        ("refrigerant",),
        "refrigerants freeze skin, may burn, and may be handled by licensed people only",
    ),
    Hazard(
        "hot surfaces",
        ("discharge (?:line|pipe)", "hot[- ]gas", "boiling", r"compressor (?:body|dome|top)"),
        ("hot",),
        "compressor and discharge pipe can be above 90 C",
    ),
    Hazard(
        "chemicals",
        (r"(?<!no )saniti[sz]", "chlorine", "detergent", "descal", "acid", "bleach"),
        ("chemical", "chlorine", "gloves", "sanitis"),
        "cleaning chemicals burn eyes and skin, and some make poison gas together",
    ),
    Hazard(
        "lifting",
        (r"(?:lift|carry) (?:\w+ ){0,3}(?:motor|gearbox|cylinder|bottle|bag|compressor|machine|tank|pump)",),
        ("lift", "heavy", "trolley", "two people"),
        "cylinders, bags and motors weigh up to 50 kg",
    ),
    Hazard(
        "height",
        ("ladder", "steps? ?ladder", "above the ceiling"),
        ("height", "ladder"),
        "people fall",
    ),
)
