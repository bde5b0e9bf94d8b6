"""A person who tells the truth about a machine with known faults, for whole sessions from start to end."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine import Stage, open_state, step
from assistant.engine.effects import Ask, Closed, Decide
from assistant.engine.events import Began, Chose, Measured


@dataclass
class Honest:
    """Answers each check with what its faults make most probable; does whatever is offered.

    A fault is gone once its remedy is done; the complaint is gone once all faults are.
    """

    case: object
    faults: tuple

    def left(self, state):
        """Return the faults that no work so far has dealt with."""
        done = {*state.cured, *([state.remedy] if state.stage is Stage.PROVING else [])}
        return [name for name in self.faults if self.case.fault(name).remedy not in done]

    def above(self, fault):
        """Return the fault and the events that it makes true by itself, nearest first."""
        found = [fault]
        for name in found:
            found += [
                e.id for e in self.case.machine.events if name in e.of and e.k == 1 and e.id not in found
            ]
        return found

    def outcome(self, check, state):
        """Return the first unusual outcome that a fault here makes most probable, else the usual one."""
        rows = {row.key: row.probabilities for row in check.rows}
        usual = max(range(len(check.otherwise)), key=check.otherwise.__getitem__)
        for fault in self.left(state):
            row = next((rows[name] for name in self.above(fault) if name in rows), check.otherwise)
            likeliest = max(range(len(row)), key=row.__getitem__)
            if likeliest != usual:
                return check.outcomes[likeliest].id
        return check.outcomes[usual].id

    def answer(self, ask, state):
        """Return the event that answers a question."""
        if ask.about in {"check", "symptom"}:
            return Chose(self.outcome(self.case.check(ask.id), state))
        if ask.about == "verification":
            return self.prove(ask, state)
        if ask.unit:
            owner, _, number = ask.id.partition("#")
            steps = self.case.gate(owner).steps if ask.about == "gate" else self.case.remedy(owner).steps
            quantity, limits = steps[int(number) - 1].reads[0]
            return _between(limits, quantity)
        return Chose(ask.options[0].id)

    def prove(self, ask, state):
        """Answer a verification: in order unless a fault that is left says otherwise."""
        fixed = not self.left(state)
        if ask.id == "gone":
            return Chose("yes" if fixed else "no")
        if state.relieved:  # what the repair does not explain is looked at once more
            return Chose(self.outcome(self.case.check(ask.id), state))
        item = self.case.remedy(state.remedy).verify[state.at]
        if item.check:
            return Chose(item.outcomes[0] if fixed else self.outcome(self.case.check(item.check), state))
        if item.read:
            return _between(item.limits) if fixed else Chose("unsure")
        return Chose("yes" if fixed else "no")


def _between(limits, quantity=""):
    """Return a reading within limits, of the quantity that is asked for unless one is named."""
    low, high = limits or (None, None)
    return Measured(low if low is not None else high if high is not None else 1.0, quantity=quantity)


@dataclass
class Ended:
    """How a session went: its decisions, its end, how many checks were asked, every question."""

    decided: tuple
    closed: Closed | None
    checks: int
    asked: tuple
    events: tuple
    done: tuple  # remedies carried out


def session(case, faults, role="technician", *, longest=500, watch=None):
    """Hold a whole session about a machine with these faults (one id, or several)."""
    person = Honest(case, (faults,) if isinstance(faults, str) else tuple(faults))
    state, decided, asked, events, closed = open_state(case), [], [], [], None
    event = Began(site="Westhaven", role=role, trained=True)
    while closed is None and len(events) < longest:
        before = state
        state, shown = step(case, state, event)
        events.append(event)
        if watch is not None:
            watch(before, event, state, shown)
        decided += [effect for effect in shown if isinstance(effect, Decide)]
        closed = next((effect for effect in shown if isinstance(effect, Closed)), None)
        if closed is None:
            asked.append(shown[-1])
            assert isinstance(asked[-1], Ask)
            halted = state.stage is Stage.HALTED
            event = Chose(asked[-1].options[0].id) if halted else person.answer(asked[-1], state)
    checks = sum(ask.about in {"check", "symptom"} for ask in asked)
    done = (*state.cured, state.remedy) if state.outcome.startswith("cured") else state.cured
    return Ended(tuple(decided), closed, checks, tuple(asked), tuple(events), done)
