"""What a gate shut or switched off is put back, as soon as nothing at hand needs it any more.

The rule: nothing goes on with the gas still shut for an earlier check: the next reading would be wrong, and
the machine would be left so.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.state import Stage, State, Turn

if TYPE_CHECKING:
    from collections.abc import Iterable

    from graph import Case


def put_back(case: Case, state: State, needed: Iterable[str] = (), *, leaving: bool = False) -> Turn:
    """Say how to put back what the gates passed made safe, save those still needed; they hold no longer."""
    kept = frozenset(needed)
    left = tuple(case.gate(name) for name in state.passed if name not in kept)
    passed = tuple(name for name in state.passed if name in kept)
    told = tuple(wording.put_back(gate, leaving=leaving) for gate in left if gate.undo)
    return replace(state, passed=passed), told


def after_checks(case: Case, state: State) -> Turn:
    """Put back what the checks needed, once it is decided; not what the repair on offer shuts again."""
    question = state.open
    if question is not None and question.kind == "remedy":
        return put_back(case, state, (step.gate for step in case.remedy(question.id).steps))
    return put_back(case, state) if state.stage is Stage.CLOSING else (state, ())
