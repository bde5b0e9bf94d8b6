"""Danger stops everything: the caution is shown, and nothing goes on until it is called over.

The rule: "it is safe" must come from somebody whom the caution names for it; whoever answers the questions
can only say who that is. It is kept with the hazard, for whoever comes next.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import procedure
from assistant.engine.state import Question, Stage, State, Turn, answered, once

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from graph import Case
    from graph.machine import Caution, Remedy


def halted(case: Case, state: State, caution: str) -> Turn:
    """Stop the conversation with a caution, once; the hazard is noted for whoever comes next."""
    if state.stage is Stage.HALTED and caution in state.halts:
        return state, ()
    state = replace(
        state,
        stage=Stage.HALTED,
        after=state.after if state.stage is Stage.HALTED else state.stage,
        open=None,
        halts=once(state.halts, caution),
        hazards=once(state.hazards, caution),
        cleared=tuple(pair for pair in state.cleared if pair[0] != caution),
    )
    return state, (wording.warn(case.caution(caution), stop=True),)


def orders(case: Case, state: State, remedy: Remedy) -> bool:
    """Return whether a remedy is an order to leave: its caution bars other work and is not called over."""
    over = {name for name, _ in state.cleared}
    return any(case.caution(name).bars and name not in over for name in remedy.cautions)


def held(case: Case, state: State, remedy: Remedy) -> Turn:
    """Hold the dangers that an order is about: nothing goes on from here before they are called over."""
    names = tuple(name for name in remedy.cautions if case.caution(name).bars)
    shown = tuple(wording.warn(case.caution(name), stop=True) for name in names if name not in state.hazards)
    halts, hazards = once(state.halts, *names), once(state.hazards, *names)
    return replace(state, halts=halts, hazards=hazards, after=Stage.NARROWING), shown


def ask_next(case: Case, state: State) -> Turn:
    """Ask whether it is safe now."""
    del case
    return replace(state, open=Question("safe", "safe")), ()


def take_safe(case: Case, state: State, choice: str) -> Turn:
    """Ask who says so once it is said to be safe; anything but a yes keeps us here."""
    if choice != "yes":
        return state, (wording.still_halted(_halting(case, state)),)
    return replace(state, open=Question("safe_by", state.halts[0])), ()


def take_safe_by(case: Case, state: State, choice: str) -> Turn:
    """Take who says that it is safe, picked from those whom the caution names."""
    caution = _asked_about(case, state)
    who = next((name for name in wording.entitled(caution) if wording.option_id(name) == choice), "")
    return _said_by(case, state, who) if who else _nobody_yet(case, state)


def safe_by_told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Take words for who says so: they must name somebody whom the caution names, and deny nothing."""
    del understood
    words = " ".join(text.split())
    if wording.asks_in_danger(words):
        return told(case, replace(state, open=Question("safe", "safe")), text, understood=False)
    if wording.denies(words):
        return _nobody_yet(case, state)
    if not vouched(case, state, words):
        return state, (wording.not_entitled(_asked_about(case, state)),)
    return _said_by(case, state, words)


def vouched(case: Case, state: State, words: str) -> bool:
    """Return whether some words name somebody who may call the danger over that is asked about."""
    return any(wording.names_one(name, words) for name in wording.entitled(_asked_about(case, state)))


def _asked_about(case: Case, state: State) -> Caution:
    return case.caution(state.open.id if state.open is not None else state.halts[0])


def _halting(case: Case, state: State) -> tuple[Caution, ...]:
    return tuple(case.caution(name) for name in state.halts)


def _nobody_yet(case: Case, state: State) -> Turn:
    return replace(state, open=Question("safe", "safe")), (wording.still_halted(_halting(case, state)),)


def _said_by(case: Case, state: State, who: str) -> Turn:
    """Take one danger as over, said by somebody; go on where we were when none is left."""
    name = _asked_about(case, state).id
    left = tuple(other for other in state.halts if other != name)
    state = replace(answered(state), halts=left, cleared=(*state.cleared, (name, who)))
    if left:
        shown = (wording.one_over(who, _halting(case, state)),)
        return replace(state, open=Question("safe_by", left[0])), shown
    return rewound(case, replace(state, stage=state.after)), (wording.safe_again(who),)


def told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Answer any other words while all is stopped: no to what must not be done now, and what holds."""
    del understood
    return state, (wording.while_halted(_halting(case, state), text),) if state.halts else ()


def reminded(case: Case, state: State) -> tuple[Effect, ...]:
    """Return what holds all the same while all is stopped, beside the answer to a question back."""
    return (wording.still_holds(_halting(case, state)),) if state.stage is Stage.HALTED else ()


def rewound(case: Case, state: State) -> State:
    """Return the state with every caution and gate of the work under way to come again.

    Somebody may have opened or switched on what was made safe, so a repair goes back to the first of them.
    """
    state = replace(state, guard_at=0, passed=(), warned=(), sworn=())
    if state.stage is not Stage.DOING:
        return state
    items = procedure.of_remedy(case, case.remedy(state.remedy))
    first = next((n for n, item in enumerate(items) if item.kind in {"caution", "title"}), len(items))
    return replace(state, at=min(state.at, first))
