"""The safety screen: it opens every session and cannot be skipped, except for what was told already.

A safety question without a clear answer is asked once more; after that its caution is shown, the hazard
is noted for whoever comes next, and the session goes on.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence, guard
from assistant.engine.state import Stage, State, Turn, answered, once
from graph.candidates import may_do

if TYPE_CHECKING:
    from graph import Case


def ask_next(case: Case, state: State) -> Turn:
    """Ask the first safety check that is not done yet; then go on to listening."""
    if state.guarding:
        return guard.ask_next(case, state)
    for name in case.machine.safety:
        wanted = case.has_check(name) and name not in state.screened and not evidence.told(case, state, name)
        if wanted and may_do(state.role, case.check(name).roles):
            return guard.ask_next(case, guard.start(state, name))
    return replace(state, stage=Stage.LISTENING), ()


def not_cleared(case: Case, state: State, check: str) -> Turn:
    """Take "not sure" or "can't" to a safety check."""
    if check not in state.uncleared:
        state = replace(answered(state), uncleared=once(state.uncleared, check))
        return state, (wording.look_again(),)
    dangers = dict.fromkeys(o.danger for o in case.check(check).outcomes if o.danger)
    state = replace(
        answered(state),
        hazards=once(state.hazards, *dangers),
        screened=once(state.screened, check),
        settled=once(state.settled, check),
        guarding="",
    )
    warned = tuple(wording.warn(case.caution(name)) for name in dangers)
    return state, (*warned, wording.hazard_noted())
