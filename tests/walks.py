"""Random walks through the conversation: people who answer, volunteer, correct, hand over and talk nonsense."""

from __future__ import annotations

import random
from dataclasses import dataclass

from assistant.engine import WORDS, open_state, step
from assistant.engine.effects import Ask
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.facts import Fact

ROLES = (
    "operator",
    "helpdesk",
    "technician",
    "refrigeration",
    "electrician",
    "plumber",
    "gas_supplier",
    "supervisor",
)
UNITS = ("", "psi", "bar", "C", "V", "kg", "furlong", "%")
KINDS = (
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
)
LINES = (
    "done",
    "ok",
    "the blue one drips",
    "2",
    "technician",
    "not sure",
    "",
    "\x1b[2J",
    "yes, yes",
    "70 psi",
)


@dataclass
class Walker:
    """A person at random. `obliging` is the chance of answering the open question by one of its options."""

    case: object
    seed: int
    obliging: float = 0.8

    def __post_init__(self):
        self.random = random.Random(self.seed)  # noqa: S311 - a reproducible walk, no secret
        self.ask = None

    def first(self):
        role = self.random.choice((*ROLES, ""))
        return Began(
            site=self.random.choice(("", "Westhaven")), role=role, trained=self.random.random() < 0.5
        )

    def event(self):
        pick = self.random.random()
        if self.ask is not None and pick < self.obliging:
            return self.answer()
        return self.random.choice((self.line, self.line, self.measured, self.word, self.chose, self.first))()

    def answer(self):
        ask = self.ask
        if ask.unit and self.random.random() < 0.5:
            return Measured(self.number(), ask.unit)
        options = ask.options or (None,)
        agreeable = ask.about in {"gate", "step", "caution", "remedy", "verification", "confirm"}
        option = options[0] if agreeable and self.random.random() < 0.7 else self.random.choice(options)
        return Chose(option.id) if option is not None else Said("yes", (Fact("yes"),))

    def number(self):
        return self.random.choice(
            (
                0.0,
                0.2,
                0.45,
                4.5,
                40.0,
                66.0,
                70.0,
                95.0,
                700.0,
                -1e9,
                float("nan"),
                float("inf"),
                self.random.uniform(-10, 110),
            )
        )

    def measured(self):
        quantities = [quantity.id for quantity in self.case.machine.quantities]
        name = self.random.choice((*quantities, "", "nonsense"))
        return Measured(self.number(), self.random.choice(UNITS), name, "some words")

    def word(self):
        names = [component.title for component in self.case.machine.components]
        refs = [check.ref for check in self.case.machine.checks]
        argument = self.random.choice(
            ("", "multimeter", *ROLES, self.random.choice(names), self.random.choice(refs))
        )
        return Asked(
            self.random.choice(
                (*(word for word in WORDS if word != "stop" or self.random.random() < 0.1), "nonsense")
            ),
            argument,
        )

    def chose(self):
        return Chose(
            self.random.choice(("yes", "no", "unsure", "cannot", "skip", "1", "7", "other", "nonsense"))
        )

    def line(self):
        facts = tuple(self.fact() for _ in range(self.random.choice((0, 1, 1, 2, 3))))
        return Said(self.random.choice(LINES), facts, self.random.choice(("", "and so on", "rest")))

    def fact(self):
        kind = self.random.choice(KINDS)
        machine = self.case.machine
        check = self.random.choice(machine.checks)
        danger = self.random.random() < 0.05
        if kind == "danger" and not danger:
            kind = "symptom"
        name = {
            "reading": self.random.choice(machine.quantities).id,
            "ask": self.random.choice(machine.components).id,
        }.get(kind, check.id)
        if self.random.random() < 0.3:
            name = name.partition("@")[0]
        outcome = self.random.choice(check.outcomes).id
        value = {
            "reading": str(self.number()),
            "ask": self.random.choice(("why", "where", "what")),
            "which": self.random.choice(("1", "2", "1,2", "x")),
        }.get(kind, outcome)
        return Fact(
            kind,
            self.random.choice((name, name, name, "", "nonsense")),
            value=self.random.choice((value, value, value, "")),
            unit=self.random.choice(UNITS) if kind == "reading" else "",
            high=self.random.choice(("", "", "80")) if kind == "reading" else "",
            which=self.random.choice(((), (), (1,), (2,), (1, 2), (9,))),
            certain=self.random.random() < 0.7,
            words=self.random.choice(("some words", "other words", "")),
        )


def walk(case, seed, steps, *, obliging=0.8, watch=None):
    """Walk `steps` steps and return the events; `watch(before, event, after, shown)` sees every step."""
    walker, state, events = Walker(case, seed, obliging), open_state(case), []
    for number in range(steps):
        event = walker.first() if number == 0 else walker.event()
        after, shown = step(case, state, event)
        if watch is not None:
            watch(state, event, after, shown)
        walker.ask = shown[-1] if shown and isinstance(shown[-1], Ask) else None
        state = after
        events.append(event)
        if walker.ask is None and walker.random.random() < 0.5:  # closed: begin again
            walker.ask, state = None, open_state(case)
            state, shown = step(case, state, walker.first())
            walker.ask = shown[-1]
    return tuple(events)
