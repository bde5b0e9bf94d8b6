"""A line at intake: a story told where the site was asked for is the story, not a site's name."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import hearing, lasting, taking
from assistant.engine.state import Question, State, Turn
from assistant.facts import REPLY_KINDS

if TYPE_CHECKING:
    from assistant.engine.events import Said
    from graph import Case


def said(case: Case, state: State, event: Said) -> Turn:
    """Take a line at intake; what tells of the machine is the complaint, and the site is asked again."""
    if not _is_story(state, event):
        return lasting.said(case, state, event)
    listening = replace(state, open=Question("complaint", "complaint"))
    after, shown = hearing.said(case, listening, event)
    return after, (wording.story_first(), *shown)


def _is_story(state: State, event: Said) -> bool:
    """Return whether a line told instead of a site says what is wrong; danger is taken as ever."""
    apart = ("danger", *REPLY_KINDS)  # a danger is taken as ever, and "can't say" is no story
    if state.open is None or state.open.kind != "site" or any(fact.kind in apart for fact in event.facts):
        return False
    told = tuple(fact for fact in event.facts if fact.kind in taking.EVIDENCE)
    sure = any(fact.certain for fact in told)
    return wording.tells_story(event.text, understood=bool(told), sure=sure)
