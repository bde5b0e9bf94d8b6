"""Numbers worked out into an answer: what the open check's calculation wants, and what it comes to.

The rule: the lines of reasoning are shown, then the answer is taken like any other; numbers that cannot be
are refused in one sentence and change nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording, work_outs
from assistant.engine import replies, taking
from assistant.errors import WrongUse
from assistant.facts import Fact
from graph.errors import GraphError
from graph.physics import WORKOUTS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.engine.state import State, Turn
    from graph import Case
    from graph.machine import Check
    from graph.physics import Result, WorkOut


def of_check(check: Check) -> WorkOut | None:
    """Return the calculation that a check's numbers go into."""
    return WORKOUTS.get(check.work_out)


def of_open(case: Case, state: State) -> Check | None:
    """Return the open check, if its answer can be worked out."""
    question = state.open
    if question is None or question.kind not in {"check", "proof"} or not case.has_check(question.id):
        return None
    check = case.check(question.id)
    return check if of_check(check) is not None else None


def told(case: Case, state: State, text: str) -> Turn | None:
    """Take a line that gives all the numbers which the open check wants; None for any other line."""
    check = of_open(case, state)
    work = None if check is None else of_check(check)
    values = None if work is None else work_outs.told(work, text)
    if check is None or work is None or values is None:
        return None
    return _worked(case, state, check, work, values)


def asked(case: Case, state: State, argument: str) -> Turn:
    """Take `/work-out gross=22 tare=12` for the open check, or `/work-out NAME ...` for its own sake."""
    words = argument.split()
    named = bool(words) and "=" not in words[0]
    check = of_open(case, state)
    try:
        work = work_outs.find_work_out(words[0]) if named else None if check is None else of_check(check)
        if work is None:
            return state, (wording.nothing_to_work_out(tuple(WORKOUTS)),)
        values = work_outs.given(work, words[1:] if named else words)
        if lacking := work_outs.missing(work, values):
            return state, (wording.ignored(work_outs.missing_sentence(work, lacking)),)
    except WrongUse as error:
        return state, (wording.ignored(str(error)),)
    mine = check is not None and of_check(check) == work
    return _worked(case, state, check if mine else None, work, values)


def _worked(
    case: Case, state: State, check: Check | None, work: WorkOut, values: Mapping[str, float]
) -> Turn:
    try:
        result = work.solve(**values)
    except GraphError as error:
        return state, (wording.ignored(str(error)),)
    lines = tuple(wording.worked_out(line) for line in work_outs.result_lines(work, values, result))
    if check is None:
        return state, lines
    after, shown = _answered(case, state, check, result)
    return after, (*lines, *shown)


def _answered(case: Case, state: State, check: Check, result: Result) -> Turn:
    """Take a result as the answer: as the check's reading, or else as the outcome whose band it lies in."""
    if check.reading:
        unit = case.quantity(check.reading).unit
        fact = Fact("reading", check.reading, value=repr(result.value), unit=unit)
        after, shown = taking.take_facts(case, state, (fact,))
        return replies.asked_anew(state, after), shown
    choice = outcome(check, result.value)
    return replies.reply(case, state, choice) if choice else (state, (wording.which_of_these(),))


def outcome(check: Check, value: float) -> str:
    """Return the outcome in whose band a value lies, the lower one on an edge; empty for none."""
    for each in check.outcomes:
        low, high = each.band or (float("inf"), float("-inf"))
        if (low is None or low < value) and (high is None or value <= high):
            return each.id
    return ""
