"""Honest doubles and drivers for the tests of the conversation."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from assistant.engine import OPENING, step
from assistant.engine.effects import Ask
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from graph import Case
from graph.compile import compile_tables
from graph.expand import expand
from graph.load import digest, load_texts, read_folder, shipped

PARLOUR = Path(__file__).parent / "packs" / "parlour"


@cache
def parlour_case() -> Case:
    """Return the parlour pack as a case: two barrels, gates, cautions, trained and licensed work."""
    return _case(read_folder(PARLOUR), "two_barrel")


@cache
def shipped_case(profile: str = "three_barrel") -> Case:
    """Return the shipped pack as a case."""
    return _case(read_folder(shipped()), profile)


def _case(texts, profile):
    machine = expand(load_texts(texts), profile, digest(texts))
    return Case(machine, compile_tables(machine))


@dataclass(frozen=True)
class Told:
    """A conversation driven by short strings; every method returns the conversation one step on.

    `shown` is what the last step showed, `all_shown` everything so far.
    """

    case: Case
    state: object = OPENING
    shown: tuple = ()
    all_shown: tuple = ()
    events: tuple = ()

    def event(self, event):
        state, shown = step(self.case, self.state, event)
        return Told(self.case, state, shown, (*self.all_shown, *shown), (*self.events, event))

    def began(self, role="operator", site="Pier Lantern Cinemas, Westhaven", **more):
        return self.event(Began(role=role, site=site, **more))

    def chose(self, *options):
        told = self
        for option in options:
            told = told.event(Chose(option))
        return told

    def said(self, text, *facts, rest=""):
        return self.event(Said(text, tuple(facts), rest))

    def called_over(self):
        """Say that it is safe, and of each danger that the first of those entitled says so."""
        told = self.chose("yes")
        while told.ask.id == "safe_by":
            told = told.chose(told.ask.options[0].id)
        return told

    def read(self, value, unit="", quantity=""):
        return self.event(Measured(value, unit, quantity))

    def word(self, word, argument=""):
        return self.event(Asked(word, argument))

    @property
    def ask(self):
        """The open question, None after the end."""
        return self.shown[-1] if self.shown and isinstance(self.shown[-1], Ask) else None

    def kinds(self):
        return [type(effect).__name__ for effect in self.shown]

    def topics(self):
        return [getattr(effect, "topic", "") for effect in self.shown]

    def said_back(self):
        """Every text of the last step as one."""
        return "\n".join(getattr(effect, "text", "") for effect in self.shown)
