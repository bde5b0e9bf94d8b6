"""Slash words: what may be typed after a slash, each with its line of help, in one table."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import (
    changing,
    closing,
    danger,
    explaining,
    handing,
    looking,
    replies,
    summing,
    working,
)
from assistant.engine.effects import TAKEN_UP
from assistant.engine.state import Stage, State, Turn, once

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.events import Asked
    from graph import Case


@dataclass(frozen=True, slots=True)
class Word:
    """One slash word. `halted`, `over`: whether it is taken in danger, after the end."""

    help: str
    take: Callable[[Case, State, str], Turn]
    answers: bool = False  # whether `back` takes it back
    halted: bool = False
    over: bool = False


def asked(case: Case, state: State, event: Asked) -> Turn:
    """Take a slash word, if there is such a word and it is taken in this stage."""
    word = WORDS.get(event.word.casefold())
    if word is None:
        return state, (wording.no_such_word(event.word),)
    if state.stage is Stage.HALTED and not word.halted:
        return state, (wording.not_in_danger(),)
    if state.stage is Stage.CLOSED and not word.over:
        return state, (wording.session_over(),)
    return word.take(case, state, event.argument)


def takes_back(event: Asked) -> bool:
    """Return whether a slash word is an answer, which `back` takes back."""
    word = WORDS.get(event.word.casefold())
    return word is not None and word.answers


def _help(case: Case, state: State, argument: str) -> Turn:
    del case, argument
    return state, tuple(wording.help_line(name, word.help) for name, word in WORDS.items())


def _note(case: Case, state: State, argument: str) -> Turn:
    del case
    text = argument.strip()
    if not text:
        return state, (wording.empty_note(),)
    note = text[: closing.LONGEST_NOTE]
    cut = (wording.note_cut(closing.LONGEST_NOTE),) if len(note) < len(text) else ()
    return replace(state, notes=(*state.notes, note)), (*cut, wording.noted())


def _without(case: Case, state: State, argument: str) -> Turn:
    """Leave out the checks that need a tool which is not at hand."""
    wanted = argument.strip().casefold()
    tools = dict.fromkeys(tool for check in case.machine.checks for tool in check.tools)
    found = tuple(tool for tool in tools if tool.replace("_", " ").casefold() == wanted.replace("_", " "))
    if not found:
        return state, (wording.no_such_tool(tuple(tools)),)
    again = state.stage is Stage.NARROWING
    state = replace(state, lacking=once(state.lacking, *found))
    state = replace(state, open=None, guarding="") if again else state
    return state, (wording.tool_missing(found[0]),)


def _again(case: Case, state: State, argument: str) -> Turn:
    """Open again to this person what could not be begun, and go back to it at once."""
    del case, argument
    if not (state.declined or state.refused):
        return state, (wording.nothing_left(),)
    settled = tuple(name for name in state.settled if name not in state.aside)
    state = replace(state, settled=settled, due=once(state.aside, *state.due), aside=())
    state = replace(state, declined=(), unbegun=(), refused=())
    waiting = state.stage is Stage.NARROWING
    return (replace(state, open=None, guarding="") if waiting else state), (wording.open_again(),)


def _said(choice: str) -> Callable[[Case, State, str], Turn]:
    def take(case: Case, state: State, argument: str) -> Turn:
        del argument
        return replies.reply(case, state, choice)

    return take


def _skip(case: Case, state: State, argument: str) -> Turn:
    del argument
    if state.stage is Stage.SAFETY:
        return state, (wording.safety_stays(),)
    return replies.reply(case, state, "skip")


def _stop(case: Case, state: State, argument: str) -> Turn:
    del argument
    return closing.stopped(case, state)


def _resume(case: Case, state: State, argument: str) -> Turn:
    """Go on with a stopped session; gates under way are passed again."""
    del argument
    if state.stage is not Stage.CLOSED or state.outcome not in TAKEN_UP:
        return state, (wording.nothing_to_resume(),)
    stage = Stage.HALTED if state.halts else state.paused
    state = danger.rewound(case, replace(state, stage=stage, outcome="", open=None))
    return state, (wording.going_on(), explaining.so_far(case, state))


def _hand_over(case: Case, state: State, argument: str) -> Turn:
    if state.stage is Stage.CLOSED and state.outcome == "cured":
        return state, (wording.session_over(),)
    return handing.hand_over(case, state, argument)


WORDS: dict[str, Word] = {
    "why": Word(wording.HELP_WHY, explaining.why),
    "causes": Word(wording.HELP_CAUSES, explaining.causes),
    "facts": Word(wording.HELP_FACTS, explaining.facts),
    "costs": Word(wording.HELP_COSTS, summing.costs),
    "where": Word(wording.HELP_WHERE, looking.where),
    "what": Word(wording.HELP_WHAT, looking.what),
    "unsure": Word(wording.HELP_UNSURE, _said("unsure"), answers=True),
    "cannot": Word(wording.HELP_CANNOT, _said("cannot"), answers=True),
    "skip": Word(wording.HELP_SKIP, _skip, answers=True),
    "work-out": Word(wording.HELP_WORK_OUT, working.asked, answers=True),
    "without": Word(wording.HELP_WITHOUT, _without, answers=True),
    "back": Word(wording.HELP_BACK, changing.back),
    "change": Word(wording.HELP_CHANGE, changing.change),
    "again": Word(wording.HELP_AGAIN, _again, answers=True),
    "note": Word(wording.HELP_NOTE, _note, halted=True),
    "role": Word(wording.HELP_ROLE, handing.change_role),
    "handover": Word(wording.HELP_HANDOVER, _hand_over, halted=True, over=True),
    "stop": Word(wording.HELP_STOP, _stop, halted=True),
    "resume": Word(wording.HELP_RESUME, _resume, over=True),
    "help": Word(wording.HELP_HELP, _help, halted=True, over=True),
}
