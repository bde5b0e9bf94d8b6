"""Slash words: their lines of help, and what is answered to them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.wording.pieces import lower, spelled, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Check

HELP_WHY = "why this question, and what each answer would change"
HELP_CAUSES = "the causes that are likely now"
HELP_FACTS = "all answers so far, and what each one weighs"
HELP_COSTS = "what acting now and asking on are expected to cost"
HELP_WHERE = "where a part is: /where cylinder"
HELP_WHAT = "what a part is or a word means: /what regulator"
HELP_UNSURE = "you do not know; the question is left out"
HELP_CANNOT = "you can't do that here; it is not asked again"
HELP_SKIP = "leave this question out"
HELP_WORK_OUT = "work a number out: /work-out gross=22 tare=12, or /work-out gas_left gross=22 tare=12"
HELP_WITHOUT = "a tool is not at hand: /without multimeter"
HELP_BACK = "take the last answer back"
HELP_CHANGE = "ask an earlier question again: /change cylinder"
HELP_AGAIN = "what was left because it could not be done may be tried again"
HELP_NOTE = "write something down for the record: /note key is at the bar"
HELP_ROLE = "say what you are: /role technician"
HELP_HANDOVER = "somebody else goes on: /handover technician Kim"
HELP_STOP = "end the session here"
HELP_RESUME = "go on with a session that was stopped"
HELP_HELP = "this list"


def help_line(word: str, text: str) -> Tell:
    return tell("help", f"/{word}: {text}", word)


def no_such_word(word: str) -> Tell:
    return tell("refused", f'There is no word "/{word}". Type /help for the list.')


def session_over() -> Tell:
    return tell("refused", "This session is over.")


def refused(stage: str) -> Tell:
    return tell("refused", f"That does not fit here: the session is at {stage}. Nothing has changed.")


def noted() -> Tell:
    return tell("note", "Noted.")


def empty_note() -> Tell:
    return tell("ignored", "Write the note behind the word: /note key is at the bar.")


def no_such_tool(tools: Sequence[str]) -> Tell:
    return tell("ignored", f"Which tool is missing? I know: {', '.join(spelled(tools)) or 'none'}.")


def tool_missing(tool: str) -> Tell:
    return tell("taken", f"Then nothing that needs: {tool.replace('_', ' ')}.")


def nothing_to_take_back() -> Tell:
    return tell("refused", "There is nothing to take back.")


def taken_back() -> Tell:
    return tell("taken", "The last answer is taken back.")


ASK_CHANGE = "Which answer shall I ask for again?"


def nothing_to_change() -> Tell:
    return tell("ignored", "There is no answer yet to change.")


def nothing_changed() -> Tell:
    return tell("taken", "Then all stays as it was answered.")


def not_yours_to_change(check: Check) -> Tell:
    text = (
        f"I can't ask you that here: {lower(check.title).rstrip('?')}. Hand over to somebody who can do it."
    )
    return tell("refused", text, check.id, check.ref)


def nothing_to_resume() -> Tell:
    return tell("refused", "Nothing was stopped here.")


def going_on() -> Tell:
    return tell("taken", "We go on where we stopped. If anything has changed since, say so.")
