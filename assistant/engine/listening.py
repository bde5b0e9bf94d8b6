"""Listening: the complaint in the person's own words."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.state import Question, Stage, State, Turn, answered

if TYPE_CHECKING:
    from graph import Case

TRIES = 2  # lines that may go by without being understood before the questions start


def ask_next(case: Case, state: State) -> Turn:
    """Ask for the complaint, unless it has been told already; then go on to narrowing."""
    if state.heard or state.complaint:
        story = state.story if state.heard and state.story else _told_by_now(case, state)
        return replace(state, stage=Stage.NARROWING, heard=True, story=story), ()
    return replace(state, open=Question("complaint", "complaint")), ()


def _told_by_now(case: Case, state: State) -> tuple[str, ...]:
    names = (answer.finding.check for answer in state.answers if answer.outcome == "present")
    return tuple(name for name in names if case.has_check(name) and case.check(name).kind == "symptom")


def told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Keep the words as they are; go on when they were understood, or after two lines that were not."""
    del case
    words = " / ".join(dict.fromkeys(part for part in (state.complaint, " ".join(text.split())) if part))
    misses = 0 if understood else state.misses + 1
    heard = understood or misses >= TRIES
    state = replace(state, complaint=words, heard=heard, misses=misses)
    if understood:
        return answered(state), ()
    return (answered(state), (wording.go_on_asking(),)) if heard else (state, (wording.say_it_again(),))


def skipped(case: Case, state: State, choice: str) -> Turn:
    """Go on to the questions without a complaint."""
    del case, choice
    return replace(answered(state), heard=True), (wording.go_on_asking(),)
