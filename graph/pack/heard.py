"""The file `heard.yaml`: what people typed, by what they meant."""

from __future__ import annotations

from pydantic import Field

from graph.pack.terms import Id, Model, Refs


class Heard(Model):
    """Ways of saying things that were heard, beside those that stand with each symptom and outcome.

    A chapter says how a thing is usually put; this grows with every call, and nobody needs to read it whole.
    """

    symptoms: dict[Id, Refs] = Field(default_factory=dict)
    answers: dict[Id, dict[Id, Refs]] = Field(default_factory=dict)  # check -> outcome -> lines

    def answer(self, check: str, outcome: str) -> Refs:
        """Return what was heard for one outcome of a check."""
        return self.answers.get(check, {}).get(outcome, ())
