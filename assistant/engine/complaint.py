"""The complaint as it stands: what was said at first, unless all that it told has been taken back since."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence

if TYPE_CHECKING:
    from assistant.engine.state import State
    from graph import Case


def taken_back(case: Case, state: State) -> tuple[str, ...]:
    """Return the symptoms, by title, that the complaint told and that are denied by now."""
    last = evidence.last_outcomes(state)
    covered = frozenset(state.settled) - last.keys()  # told, and said by another answer too
    story = (name for name in state.story if case.has_check(name) and name not in covered)
    told = (name for name in story if last.get(name) != "present")
    return tuple(wording.lower(case.check(name).title) for name in told)


def withdrawn(case: Case, state: State) -> bool:
    """Return whether everything that the complaint told is denied by now."""
    told = [name for name in state.story if case.has_check(name)]
    return bool(told) and len(taken_back(case, state)) == len(told)


def standing(case: Case, state: State) -> str:
    """Return the complaint in the words in which it was told; once taken back, what is complained of now."""
    if not withdrawn(case, state):
        return state.complaint
    last = evidence.last_outcomes(state)
    present = (name for name, outcome in last.items() if outcome == "present" and case.has_check(name))
    symptoms = (case.check(name) for name in present)
    return "; ".join(wording.lower(check.title) for check in symptoms if check.kind == "symptom")
