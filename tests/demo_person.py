"""Who sits at the other end of a demo: types what the scenario says, else the truth in the pack's words.

A fault is gone once its remedy is done. Where several outcomes are possible the most probable one is
seen, and said in one of its phrases that is understood as such, else by its label.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from zlib import crc32

import numpy as np
from demo_scenario import Typed

from assistant.engine import Stage
from assistant.reply import reply
from graph.measure import UNKNOWN, row_of
from graph.units import convert

REPEATS = 3


@dataclass
class Person:
    """Answers for one scenario on one machine; `remarks` says which phrases were not understood."""

    live: object
    scenario: object
    used: dict = field(default_factory=dict)
    remarks: list = field(default_factory=list)

    @property
    def case(self):
        return self.live.case

    def line(self, session):
        """Return what is typed next, None when everything is said."""
        ask = session.ask
        if session.closed or ask is None:
            return self._scripted("closed")
        told = (self._scripted(key) for key in _keys(ask))
        return next(filter(None, told), None) or Typed(self._truth(ask, session.state))

    def _scripted(self, key):
        """Return the next line for a question, None after the last; one that stands alone may be repeated."""
        lines, at = self.scenario.answers.get(key, ()), self.used.get(key, 0)
        if at >= (REPEATS if len(lines) == 1 and key != "closed" else len(lines)):
            return None
        self.used[key] = at + 1
        return lines[min(at, len(lines) - 1)]

    def unused(self):
        """Return the questions with lines that were never typed."""
        answers = self.scenario.answers.items()
        return [key for key, lines in answers if self.used.get(key, 0) < len(lines)]

    # -- the truth -------------------------------------------------------------------------------

    def there(self, state):
        """Return the positions of the faults that no work has dealt with yet."""
        done = self.done(state)
        left = [name for name in self.scenario.faults if self.case.fault(name).remedy not in done]
        ids = [fault.id for fault in self.case.machine.faults]
        return tuple(sorted(ids.index(name) for name in left))

    def done(self, state):
        """Return the remedies carried out so far."""
        return (*state.cured, state.remedy) if state.stage is Stage.PROVING else state.cured

    def seen(self, name, state):
        """Return the position of the outcome that is seen: the one told of, else the most probable one."""
        check = self.case.check(name)
        told = self.scenario.seen.get(check.id, self.scenario.seen.get(check.base, ()))
        if told:
            return check.outcome_index(told[min(len(self.done(state)), len(told) - 1)])
        faults = self.there(state) if self.scenario.faults else UNKNOWN
        return int(np.argmax(row_of(self.case, self.case.position(check.id), faults)))

    def _truth(self, ask, state):
        if ask.about in {"check", "symptom"}:
            return self._observed(ask, state, self.seen(ask.id, state))
        if ask.about == "verification":
            return self._proof(ask, state)
        if ask.about == "confirm":
            return self._confirmed(ask, state)
        if ask.unit:
            return self._measured(ask)
        if ask.id == "parts":
            return next(option.label.casefold() for option in ask.options if option.id == "all")
        true = (option.label for option in ask.options if option.id in self.scenario.faults)
        return next(true, ask.options[0].label.casefold())

    def _measured(self, ask):
        """Return a number that lets a step of a gate or a remedy pass."""
        owner, _, number = ask.id.partition("#")
        steps = (self.case.gate if ask.about == "gate" else self.case.remedy)(owner).steps
        quantity, limits = steps[int(number) - 1].reads[0]
        return self._number(limits, ask, quantity)

    def _observed(self, ask, state, position):
        check = self.case.check(ask.id)
        outcome = check.outcomes[position]
        if ask.unit and outcome.band:
            return self._number(outcome.band, ask, check.reading)
        if check.kind == "symptom":
            return ("yes", "no")[position]
        start = crc32(f"{self.scenario.name} {check.id}".encode()) % max(len(outcome.say), 1)
        phrases = (*outcome.say[start:], *outcome.say[:start])
        said = (say for say in phrases if self._understood(say, ask, state, outcome))
        return next(said, outcome.label)

    def _understood(self, say, ask, state, outcome):
        """Return whether a phrase leads to this outcome, tried on the state as it is."""
        event = reply(say, ask, self.live)
        after, _ = self.live.step(state, event)
        told = [answer.outcome for answer in after.answers if answer.finding.check == ask.id]
        meant = told[-1:] == [outcome.id] and not after.doubts and after.barrels == state.barrels
        if not meant:
            heard = ", ".join(f"{f.kind} {f.id} {f.value}" for f in getattr(event, "facts", ()))
            self.remarks.append(f"{ask.id} {outcome.id}: {say!r} is heard as {heard or event}")
        return meant

    def _number(self, limits, ask, quantity):
        """Return a number within limits, in the unit that is asked for."""
        low, high = limits or (None, None)
        if low is not None and high is not None:
            value = (low + high) / 2
        else:
            value = low if low is not None else 0.8 * high if high is not None else 1.0
        return f"{convert(value, self.case.quantity(quantity).unit, ask.unit):.3g}"

    def _confirmed(self, ask, state):
        """Return the interpretation that is true, the last option where none is known to be."""
        facts = state.open.facts
        for fact, option in zip(facts, ask.options, strict=False):
            if fact.kind == "reading" or self._true(fact, state):  # a number was meant as it was typed
                return option.label
        return ask.options[-1 if facts else 0].label

    def _true(self, fact, state):
        """Return whether a fact about one check is what is seen there."""
        if not self.case.has_check(fact.id):
            return False
        name = {"symptom": "present", "not_symptom": "absent"}.get(fact.kind, fact.value)
        return self.case.check(fact.id).outcome_index(name) == self.seen(fact.id, state)

    def _proof(self, ask, state):
        fixed = bool(self.scenario.faults) and not self.there(state)
        if ask.id == "gone":
            return "yes, good again" if fixed else "no, still the same"
        if state.relieved:  # what the repair does not explain is looked at once more
            return self._observed(ask, state, self.seen(ask.id, state))
        item = self.case.remedy(state.remedy).verify[state.at]
        if item.check:
            check = self.case.check(item.check)
            position = check.outcome_index(item.outcomes[0]) if fixed else self.seen(check.id, state)
            return self._observed(ask, state, position)
        if item.read:
            return self._number(item.limits, ask, item.read)
        return "yes"


def _keys(ask):
    """Return what an answer in a scenario may be filed under; what confirms a check is not the check."""
    return (f"confirm {ask.id}",) if ask.about == "confirm" else (ask.id, ask.ref, ask.about)
