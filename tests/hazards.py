"""The hazard rule, watched from outside: who may see what, and what must have been shown before it.

Written against what is shown only, with a table of its own of who may do what.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from assistant.engine import Stage
from assistant.engine.effects import Ask, Warn
from assistant.engine.events import Asked, Chose, Measured, Said

MAY = {
    "operator": {"operator"},
    "helpdesk": {"helpdesk", "operator"},
    "technician": {"technician", "operator"},
    "refrigeration": {"refrigeration", "technician", "operator"},
    "electrician": {"electrician", "operator"},
    "plumber": {"plumber", "operator"},
    "gas_supplier": {"gas_supplier", "operator"},
    "supervisor": {"supervisor", "operator"},
}


@dataclass
class HazardWatch:
    """Raises AssertionError at the first step that shows what it must not."""

    case: object
    warned: set = field(default_factory=set)
    gate_steps: list = field(default_factory=list)  # shown since they last ceased to hold
    asked: int = 0
    last: tuple = ()  # the last answer: states before and after it, and what had been shown before it

    def __call__(self, before, event, after, shown):
        if isinstance(event, Asked) and event.word == "back" and after is not before:
            self._taken_back(before, after)
        elif after.previous is before:
            self.last = (before, after, set(self.warned), list(self.gate_steps))
            self._forget(before, after)
        else:
            self._forget(before, after)
        self._moved_on(before, event, after)
        for effect in shown:
            if isinstance(effect, Warn):
                self.warned.add(effect.id)
            if isinstance(effect, Ask):
                self._ask(effect, after)
        if after.stage is Stage.HALTED:
            self.gate_steps = []

    def _taken_back(self, before, after):
        """Keep what was shown when a slip is taken back at once, or within the work; else start afresh."""
        within = before.stage is after.stage is Stage.DOING and before.remedy == after.remedy
        if within or (before.guarding and before.guarding == after.guarding):
            return
        self.warned, held = set(), self.last
        self.gate_steps = []
        if (
            held
            and replace(before, notes=()) == replace(held[1], notes=())
            and replace(after, notes=()) == replace(held[0], notes=())
        ):
            _, _, self.warned, self.gate_steps = held
        self.last = ()

    def _forget(self, before, after):
        """Cautions and gates hold no longer for another person, after danger, or in another repair."""
        if before.role != after.role or before.stage is Stage.HALTED or before.stage is Stage.CLOSED:
            self.warned, self.gate_steps = set(), []
        if before.stage is not Stage.DOING and after.stage is Stage.DOING:
            self.warned, self.gate_steps = set(), []

    def _ask(self, ask, state):
        if ask.about in {"check", "symptom"} or (ask.about == "verification" and self.case.has_check(ask.id)):
            self._check(self.case.check(ask.id), state)
        elif ask.about == "gate":
            self.gate_steps.append(ask.id)
            owner, number = self._owner(ask.id)
            step = self.case.gate(owner).steps[number]
            inherited = (
                self.case.check(state.guarding).roles if state.guarding else self.case.remedy(state.remedy).by
            )
            self._allowed(state, step.roles or (inherited if not _nested(self.case, owner) else ()), ask.id)
            self._warned((*self.case.gate(owner).cautions, *step.cautions), ask.id)
        elif ask.about == "step":
            owner, number = self._owner(ask.id)
            remedy = self.case.remedy(owner)
            step = remedy.steps[number]
            self._allowed(state, step.roles or remedy.by, ask.id)
            self._allowed(state, remedy.by, ask.id)
            if remedy.trained and state.role in {"operator", "helpdesk"}:
                assert state.trained == "yes", ask.id
            self._warned((*remedy.cautions, *step.cautions), ask.id)
            if step.gate:
                self._passed(step.gate, ask.id)
        else:
            return
        self.asked += 1

    def _check(self, check, state):
        self._allowed(state, check.roles, check.id)
        if check.phase != "safety":
            self._warned(check.cautions, check.id)
        for gate in check.gates:
            self._passed(gate, check.id)
        if not check.gates:
            self.gate_steps = []

    def _allowed(self, state, roles, name):
        assert not roles or MAY[state.role] & set(roles), f"{name} was shown to {state.role}, is for {roles}"

    def _warned(self, cautions, name):
        missing = set(cautions) - self.warned
        assert not missing, f"{name} was shown before its cautions {missing}"

    def _passed(self, gate, name):
        wanted = [f"{gate}#{n}" for n in range(1, len(self.case.gate(gate).steps) + 1)]
        missing = [step for step in wanted if step not in self.gate_steps]
        assert not missing, f"{name} was shown before the steps {missing} of its gate"
        for step in self.case.gate(gate).steps:
            if step.gate:
                self._passed(step.gate, name)

    def _owner(self, name):
        owner, _, number = name.partition("#")
        return owner, int(number) - 1

    def _moved_on(self, before, event, after):
        """Nobody gets past a gate, caution or step without a yes or a reading."""
        kinds = ("guard", "step")
        if before.open is None or after.open is None or before.open.kind not in kinds:
            return
        if (
            after.open.kind != before.open.kind
            or before.remedy != after.remedy
            or before.guarding != after.guarding
        ):
            return
        onward = (after.at, after.guard_at) > (before.at, before.guard_at)
        if onward:
            assert isinstance(event, Measured) or affirms(event), f"{before.open.id} was passed by {event}"


def _nested(case, gate):
    return any(step.gate == gate for other in case.machine.gates for step in other.steps)


def affirms(event):
    if isinstance(event, Chose):
        return event.option in {"yes", "1"}
    kinds = {fact.kind for fact in event.facts} if isinstance(event, Said) else set()
    return bool(kinds & {"yes", "reading"}) or (isinstance(event, Said) and event.text in {"done", "ok"})
