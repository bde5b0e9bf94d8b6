"""A line at intake: a story told where the site was asked for is the story, not a site's name."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import hearing, lasting, placing, taking, where
from assistant.engine.state import Question, Stage, State, Turn
from assistant.facts import REPLY_KINDS

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.engine.events import Said
    from graph import Case


WHERE = ("site", "place", "barrels")
MOST_PLACES = 8  # of the address book, to pick from
# Verbs that a story has and the name of a place has not; what is said of a machine that does not work.
_VERB = re.compile(
    r"n['\u2019]t\b|\b(is|are|was|has|have|had|been|keeps?|goes|going|gone|went|wont|cant|doesnt|isnt|comes?|coming"
    r"|came|runs?|running|pours?|pouring|leaks?|leaking|stopped|stops|makes|making|made|tastes|shows|says|smells?"
    r"|looks|won|do|does|did)\b",
    re.IGNORECASE,
)
_TROUBLE = re.compile(
    r"\b(broken?|bust|not working|(does|is|wo)n['\u2019]?t (work\w*|start|run|go)|playing up|acting up|faulty"
    r"|on the blink|gone wrong|packed (up|in)|out of order)\b",
    re.IGNORECASE,
)


def said(case: Case, state: State, event: Said) -> Turn:
    """Take a line at intake; what tells of the machine is the complaint, and the site is asked again."""
    placed = _placed(case, state, event)
    if placed is not None:
        return placed
    at_site = state.open is not None and state.open.kind == "site"
    taken = where.told(case, state, event) if at_site else None
    if taken is not None:
        return taken
    if not _is_story(state, event):
        return lasting.said(case, state, event)
    listening = replace(state, open=Question("complaint", "complaint"))
    at_barrels = state.open is not None and state.open.kind == "barrels"
    after, shown = hearing.said(case, listening, event)
    return after, (wording.story_noted() if at_barrels else wording.story_first(), *shown)


def _placed(case: Case, state: State, event: Said) -> Turn | None:
    """Take the place of the address book that a line names, with whatever else it tells; None for none."""
    asked = state.open is not None and state.open.kind in {"site", "place"}
    places = tuple(fact for fact in event.facts if fact.kind == "place" and fact.value.strip())[:MOST_PLACES]
    if not places or not asked:
        return None
    beside = ("place", "correct", *REPLY_KINDS)  # "no sorry, Old Quay" names the site, and nothing else
    others = tuple(fact for fact in event.facts if fact.kind not in beside)
    shown: tuple[Effect, ...] = ()
    if others:
        listening = replace(state, open=Question("complaint", "complaint"))
        state, shown = hearing.said(case, listening, replace(event, facts=others))
    sure = next((fact for fact in places if fact.certain), None)
    if sure is not None:
        state, more = placing.taken(state, sure)
        return state, (*more, *shown)
    if state.stage is Stage.INTAKE:  # no danger is in the line
        state = replace(state, open=placing.asked(places, event.text))
    return state, shown


def _is_story(state: State, event: Said) -> bool:
    """Return whether a line told instead of a site says what is wrong; danger is taken as ever."""
    apart = ("danger", *REPLY_KINDS)  # a danger is taken as ever, and "can't say" is no story
    at_intake = state.open is not None and state.open.kind in WHERE
    if not at_intake or any(fact.kind in apart for fact in event.facts):
        return False
    told = tuple(fact for fact in event.facts if fact.kind in taking.EVIDENCE)
    sure = any(fact.certain for fact in told)
    return _tells_story(event.text, understood=bool(told), sure=sure)


def _tells_story(text: str, *, understood: bool, sure: bool) -> bool:
    """Return whether a line says what is wrong rather than where; words in capitals are a name.

    `understood`, `sure`: whether it tells anything about the machine, perhaps or for certain.
    """
    words = re.findall(r"[^\W\d_]{4,}", text)
    if words and all(word[0].isupper() for word in words):
        return False
    return sure or bool(_TROUBLE.search(text)) or (understood and bool(_VERB.search(text)))
