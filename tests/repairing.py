"""A repair on the parlour machine, at the places where tests take it up."""

from __future__ import annotations

from casts import Told, parlour_case

from assistant.facts import Fact

SHUT = (
    Fact("symptom", "gas.flat", words="flat"),
    Fact("answer", "gas.valve_open", value="turns"),
    Fact("reading", "gas_supply", value="5", unit="psi"),
    Fact("answer", "gas.weight", value="heavy"),
    Fact("not_symptom", "barrel.runny"),
)


def offered(role="operator"):
    told = Told(parlour_case()).began(role).chose("none", "dry").said("flat", *SHUT)
    assert told.ask.id == "gas.open_valve"
    return told


def doing(role="operator"):
    """Return a repair with its caution understood, at the first step of its gate."""
    return offered(role).chose("yes", "yes")


def at_display(role="operator"):
    """Return the repair at the step that reads the display."""
    return doing(role).read(0.1, "%").chose("yes", "yes")


def proving():
    return at_display().read(70, "psi")
