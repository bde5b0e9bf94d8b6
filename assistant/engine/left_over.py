"""What a repair does not explain: readings out of their windows and symptoms, still on record.

The rule: nothing is closed as put right over something that was seen and never looked at again. It is asked
once more; what stays is looked for, or named in the last words.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.candidates import may_ask_again, speaks_for
from assistant.engine.procedure import within

if TYPE_CHECKING:
    from assistant.engine.state import Answer, State
    from graph import Case
    from graph.machine import Check


def left_over(case: Case, state: State) -> tuple[str, ...]:
    """Return the checks whose last answer is out of order and not explained by the repair at hand.

    What was seen after the repair stands, whatever would have explained it before.
    """
    last = {answer.finding.check: answer for answer in state.answers}
    return tuple(
        name
        for name, answer in last.items()
        if case.has_check(name)
        and _out(case, state, case.check(name), answer)
        and (_since(state, answer) or not (_explained(case, state, name) or _complaint(case, state, name)))
    )


def to_look_at(case: Case, state: State) -> str:
    """Return the next of them that was not looked at since the repair, and can be; empty for none.

    Nothing is opened or isolated again for it.
    """
    return next(
        (
            name
            for name in left_over(case, state)
            if name not in state.proved
            and not case.check(name).gates
            and may_ask_again(case, state, case.check(name))
        ),
        "",
    )


def described(case: Case, state: State) -> tuple[str, ...]:
    """Return in words what is left, as it was answered last."""
    last = {answer.finding.check: answer for answer in state.answers if answer.finding.check in state.left}
    return tuple(wording.said(case.check(n), a.outcome, a.value, a.unit) for n, a in last.items())


def _out(case: Case, state: State, check: Check, answer: Answer) -> bool:
    """Return whether an answer is a symptom, or a number out of its usual band; how it began is neither.

    What the proof of the repair reads has been judged there.
    """
    if check.kind == "symptom":
        return answer.outcome == "present" and not check.history
    proved = {item.read for item in case.remedy(state.remedy).verify}
    if answer.value is None or check.usual < 0 or check.reading in proved:
        return False
    return not within(case, check.reading, check.outcomes[check.usual].band, answer.value, answer.unit)


def _since(state: State, answer: Answer) -> bool:
    return state.remedy in answer.finding.cured


def _complaint(case: Case, state: State, name: str) -> bool:
    """Return whether a symptom is all that was complained of: that it is good again has just been said."""
    told = [each for each in state.story if case.has_check(each) and not case.check(each).history]
    return told == [name]


def _explained(case: Case, state: State, name: str) -> bool:
    return speaks_for(case, state, name, case.remedy(state.remedy))
