"""A person who tells the truth about a machine with known faults, for whole sessions from start to end."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from assistant.engine import Stage, open_state, step
from assistant.engine.effects import Ask, Closed, Decide
from assistant.engine.events import Began, Chose, Measured


@dataclass
class Honest:
    """Answers each check with the outcome that the fault makes most probable; does what is offered."""

    case: object
    fault: str
    role: str = "technician"

    @cached_property
    def above(self):
        """The fault and the events that it makes true by itself, nearest first."""
        found = [self.fault]
        for name in found:
            found += [e.id for e in self.case.machine.events if name in e.of and e.k == 1 and e.id not in found]
        return found

    def outcome(self, check):
        rows = {row.key: row.probabilities for row in check.rows}
        row = next((rows[name] for name in self.above if name in rows), check.otherwise)
        return check.outcomes[max(range(len(row)), key=row.__getitem__)]

    def answer(self, ask, state):
        """Return the event that answers a question."""
        fixed = state.remedy == self.case.fault(self.fault).remedy
        if ask.about in {"check", "symptom"}:
            return Chose(self.outcome(self.case.check(ask.id)).id)
        if ask.about == "verification":
            return self.prove(ask, state, fixed=fixed)
        if ask.unit:
            return self.within(ask, state)
        return Chose(ask.options[0].id)

    def prove(self, ask, state, *, fixed):
        if ask.id == "gone":
            return Chose("yes" if fixed else "no")
        item = self.case.remedy(state.remedy).verify[state.at]
        if item.check:
            return Chose(item.outcomes[0] if fixed else self.outcome(self.case.check(item.check)).id)
        if item.read and fixed:
            return self.between(item.limits)
        return Chose("yes" if fixed and not item.read else "unsure" if item.read else "no")

    def within(self, ask, state):
        """Return a reading that a step or gate accepts."""
        owner, _, number = ask.id.partition("#")
        steps = self.case.gate(owner).steps if ask.about == "gate" else self.case.remedy(owner).steps
        return self.between(steps[int(number) - 1].limits)

    def between(self, limits):
        low, high = limits or (None, None)
        return Measured(low if low is not None else high if high is not None else 1.0)


@dataclass
class Ended:
    """How a session went: its decisions, its end, how many checks were asked, every question."""

    decided: tuple
    closed: Closed | None
    checks: int
    asked: tuple
    events: tuple
    stages: set


def session(case, fault, role="technician", *, longest=400, watch=None):
    """Hold a whole session about a machine with one fault; None as `closed` if it did not come to an end."""
    person, state, decided, asked, stages = Honest(case, fault, role), open_state(case), [], [], set()
    event, events, closed = Began(site="Westhaven", role=role, trained=True), [], None
    while closed is None and len(events) < longest:
        before = state
        state, shown = step(case, state, event)
        events.append(event)
        stages.add(state.stage)
        if watch is not None:
            watch(before, event, state, shown)
        decided += [effect for effect in shown if isinstance(effect, Decide)]
        closed = next((effect for effect in shown if isinstance(effect, Closed)), None)
        if closed is None:
            ask = shown[-1]
            assert isinstance(ask, Ask)
            asked.append(ask)
            event = _next(person, ask, state)
    checks = sum(ask.about in {"check", "symptom"} for ask in asked)
    return Ended(tuple(decided), closed, checks, tuple(asked), tuple(events), stages)


def _next(person, ask, state):
    if state.stage is Stage.HALTED:
        return Chose("yes")
    return person.answer(ask, state)
