"""Who sits at the other end of a demo: types what the scenario says, else the truth in the pack's words.

A fault is gone once its remedy is done. Where several outcomes are possible the most probable one is
seen, and said in the first of its phrases that is understood as such, else by its label.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from assistant.engine import Stage
from assistant.reply import reply
from demo_scenario import Typed
from graph.measure import UNKNOWN, row_of
from graph.units import convert


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
        keys = (ask.id, ask.ref, ask.about)
        return next(
            (typed for key in keys if (typed := self._scripted(key)) is not None), None
        ) or Typed(self._truth(ask, session.state))

    def _scripted(self, key):
        """Return the next line for a question; the last one for good where there is only one."""
        lines, at = self.scenario.answers.get(key, ()), self.used.get(key, 0)
        if not lines or at >= len(lines):
            return None
        self.used[key] = at + 1
        return lines[at]

    def unused(self):
        """Return the keys of lines that were never typed."""
        answers = self.scenario.answers.items()
        return [key for key, lines in answers if self.used.get(key, 0) < len(lines)]

    # -- the truth -------------------------------------------------------------------------------

    def there(self, state):
        """Return the positions of the faults that no work has dealt with yet."""
        done = {*state.cured, *([state.remedy] if state.stage is Stage.PROVING else [])}
        left = [name for name in self.scenario.cause if self.case.fault(name).remedy not in done]
        ids = [fault.id for fault in self.case.machine.faults]
        return tuple(sorted(ids.index(name) for name in left))

    def seen(self, check, state):
        """Return the position of the outcome that is most probable."""
        faults = self.there(state) if self.scenario.cause else UNKNOWN
        return int(np.argmax(row_of(self.case, self.case.position(check), faults)))

    def _truth(self, ask, state):
        if ask.about in {"check", "symptom"}:
            return self._observed(ask, self.seen(ask.id, state))
        if ask.about == "verification":
            return self._proof(ask, state)
        if ask.about == "confirm":
            return self._confirmed(state)
        if ask.about == "closing" and ask.id == "cause":
            found = (option for option in ask.options if option.id in self.scenario.cause)
            return next(found, ask.options[-1]).label
        if ask.about == "closing":
            return ask.options[0].label
        if ask.unit:
            owner, _, number = ask.id.partition("#")
            steps = (self.case.gate if ask.about == "gate" else self.case.remedy)(owner).steps
            return self._number(steps[int(number) - 1].limits, ask, steps[int(number) - 1].read)
        return ask.options[0].label.casefold()

    def _observed(self, ask, position):
        check = self.case.check(ask.id)
        outcome = check.outcomes[position]
        if ask.unit and outcome.band:
            return self._number(outcome.band, ask, check.reading)
        if check.kind == "symptom":
            return ("yes", "no")[position]
        return next(
            (say for say in outcome.say if self._understood(say, ask, outcome)), outcome.label
        )

    def _understood(self, say, ask, outcome):
        event = reply(say, ask, self.live)
        facts = getattr(event, "facts", ())
        option = getattr(event, "option", "")
        meant = option == outcome.id or [
            (fact.kind, fact.id, fact.value, fact.certain) for fact in facts
        ] == [("answer", ask.id, outcome.id, True)]
        if not meant:
            self.remarks.append(f"{ask.id} {outcome.id}: {say!r} is heard as {event}")
        return meant

    def _number(self, limits, ask, quantity):
        """Return a number well within limits, in the unit that is asked for."""
        low, high = limits or (None, None)
        if low is None or high is None:
            value = low * 1.1 + 1 if low is not None else high * 0.8 if high is not None else 1.0
        else:
            value = (low + high) / 2
        value = convert(value, self.case.quantity(quantity).unit, ask.unit)
        return f"{value:.3g}"

    def _confirmed(self, state):
        question = state.open
        for fact, option in zip(question.facts, question.options, strict=False):
            if not self.case.has_check(fact.id):
                continue
            check = self.case.check(fact.id)
            name = {"symptom": "present", "not_symptom": "absent"}.get(fact.kind, fact.value)
            if check.outcome_index(name) == self.seen(check.id, state):
                return option.label
        return question.options[-1].label if question.facts else question.options[0].label

    def _proof(self, ask, state):
        fixed = bool(self.scenario.cause) and not self.there(state)
        if ask.id == "gone":
            return "yes, it is gone" if fixed else "no, still there"
        item = self.case.remedy(state.remedy).verify[state.at]
        if item.check:
            check = self.case.check(item.check)
            position = check.outcome_index(item.outcomes[0]) if fixed else self.seen(check.id, state)
            return self._observed(ask, position)
        if item.read:
            return self._number(item.limits, ask, item.read)
        return "yes"
