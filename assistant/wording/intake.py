"""What is said and asked at intake."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.wording.pieces import stop, tell

if TYPE_CHECKING:
    from assistant.engine.effects import Tell

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
NOT_NAMED = "not named"
ASK_ROLE = "Who am I talking to? That decides what I ask of you."
ASK_SITE = "Which site is it, and which machine there?"
ASK_COMPLAINT = "Tell me in your own words what is wrong."


def welcome(machine: str) -> Tell:
    return tell("welcome", f"{stop(machine)} A few questions, one at a time. If you can't do one, just say.")


def repeated(sentence: str) -> Tell:
    """Return what an earlier session says, as it was recorded."""
    return tell("repeat", sentence)


def no_such_role(role: str) -> Tell:
    return tell("ignored", f'I know no role "{role}".')


def need_role() -> Tell:
    return tell("ignored", "I need to know that first: it decides what is safe for you to do.")


def tells_story(text: str, *, understood: bool, sure: bool) -> bool:
    """Return whether a line says what is wrong rather than where; words in capitals are a name.

    `understood`, `sure`: whether it tells anything about the machine, perhaps or for certain.
    """
    words = re.findall(r"[^\W\d_]{4,}", text)
    if words and all(word[0].isupper() for word in words):
        return False
    return sure or bool(_TROUBLE.search(text)) or (understood and bool(_VERB.search(text)))


def story_first() -> Tell:
    return tell("taken", "That tells me what is wrong, so I keep it as that and not as the site's name.")


def site_taken(site: str) -> Tell:
    return tell("taken", f"Site: {site}.")
