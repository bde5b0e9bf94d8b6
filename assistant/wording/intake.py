"""What is said and asked at intake."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.wording.pieces import stop, tell

if TYPE_CHECKING:
    from assistant.engine.effects import Tell

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


def story_first() -> Tell:
    return tell("taken", "That tells me what is wrong, so I keep it as that and not as the site's name.")


def no_site(words: str) -> Tell:
    return tell("taken", f"I take that as a time, not as a site: {words.strip()}.")


def why_site() -> Tell:
    text = "I ask so that the record says which machine it is, and so that what is known of it counts."
    return tell("why", f"{text} The name you use for it will do; skip it if you have none.")


def site_taken(site: str) -> Tell:
    return tell("taken", f"Site: {site}.")
