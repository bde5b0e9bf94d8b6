"""What a line at the site's question is besides a site: a time, a correction, a question back.

The rule: none of these becomes a site's name. What is left of the line once they are taken out may be one.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import intake, roles

if TYPE_CHECKING:
    from assistant.engine.events import Said
    from assistant.engine.state import State, Turn
    from graph import Case

_SLIP = re.compile(r"^((no|nah|oops|sorry|i mean)[ ,.]+)+|[ ,.]+(i mean|i meant|sorry)$", re.IGNORECASE)
_QUESTION = re.compile(r"(what|which|why|who|how|when|where|do|does|did|can|could|is|are|should|must)\b")
_EDGES = " ,.;:!?-"
SHORTEST = 3  # letters of a word that may be a site's name


def told(case: Case, state: State, event: Said) -> Turn | None:
    """Take what is no site's name in a line; None where the line is to be taken as it is."""
    kinds = {fact.kind for fact in event.facts}
    if "danger" in kinds:
        return None
    if "correct" in kinds:
        return _corrected(case, state, event)
    if "began" in kinds:
        began = next(fact for fact in event.facts if fact.kind == "began")
        return _timed(case, state, event, began.value or began.words)
    name = _SLIP.sub("", event.text).strip(_EDGES)
    if name and name != event.text.strip(_EDGES) and not kinds:
        return intake.site_told(case, state, name, understood=False)
    of_nothing = "ask" in kinds and all(fact.value == "what" and not fact.id for fact in event.facts)
    if of_nothing or (_asks(event) and kinds <= {"symptom"}):  # "don't know what you mean"
        return state, (wording.why_site(),)
    return None


def _corrected(case: Case, state: State, event: Said) -> Turn:
    """Take who is there anew where the line says it, or a site that it names; else ask who is there again."""
    words = next(fact.words for fact in event.facts if fact.kind == "correct")
    rest = " ".join(event.text.replace(words, " ", 1).split()).strip(_EDGES)
    role = roles.named(case.machine.roles, rest)
    if role:
        return replace(state, role=role), (wording.your_role(wording.role_title(case.machine.roles, role)),)
    if rest:
        return intake.site_told(case, state, rest, understood=False)
    return replace(state, role="", open=None), (wording.taken_back(),)


def _timed(case: Case, state: State, event: Said, began: str) -> Turn | None:
    """Take when it began, and what stands beside it as the site; None where the line tells more than that."""
    if any(fact.kind != "began" for fact in event.facts):
        return None
    words = next(fact.words for fact in event.facts)
    name = " ".join(event.text.replace(words, " ", 1).split()).strip(_EDGES)
    state = replace(state, began=began)
    if not any(len(word) >= SHORTEST for word in name.split()):
        return state, (wording.no_site(event.text),)
    state, shown = intake.site_told(case, state, name, understood=False)
    return state, (wording.began_noted(began), *shown)


def _asks(event: Said) -> bool:
    """Return whether a line is a question; a name in capitals behind its first word makes it none."""
    words = event.text.split()
    named = any(word[:1].isupper() and word != "I" for word in words[1:])
    asked = event.text.strip().endswith("?") or bool(_QUESTION.match(event.text.strip().casefold()))
    return asked and not named
