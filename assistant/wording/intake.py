"""What is said and asked at intake."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.wording.pieces import stop, tell

if TYPE_CHECKING:
    from assistant.engine.effects import Tell

NOT_NAMED = "not named"
ASK_ROLE = "Who am I talking to? That decides what I ask of you."
ASK_SITE = "Which site is it, and which machine there?"
ASK_WHICH_PLACE = "Which of these do you mean?"
ASK_COMPLAINT = "Tell me in your own words what is wrong."


def welcome(machine: str) -> Tell:
    """Return the greeting, with what machine it is about where that is known."""
    known = f"{stop(machine)} " if machine else ""
    return tell("welcome", f"{known}A few questions, one at a time. If you can't do one, just say.")


def repeated(sentence: str) -> Tell:
    """Return what an earlier session says, as it was recorded."""
    return tell("repeat", sentence)


def no_such_role(role: str) -> Tell:
    return tell("ignored", f'I know no role "{role}".')


def need_role() -> Tell:
    return tell("ignored", "I need to know that first: it decides what is safe for you to do.")


def story_first() -> Tell:
    return tell("taken", "That tells me what is wrong, so I keep it as that and not as the site's name.")


def story_noted() -> Tell:
    return tell("taken", "That is about what is wrong: I keep it, and come to that next.")


def no_site(words: str) -> Tell:
    return tell("taken", f"I take that as a time, not as a site: {words.strip()}.")


def why_site() -> Tell:
    text = "I ask so that the record says which machine it is, and so that what is known of it counts."
    return tell("why", f"{text} The name you use for it will do; skip it if you have none.")


def place_named(site: str, unit: str) -> str:
    """Return a place in one: its site, and the machine there where one is named."""
    return f"{site}, {unit}" if unit else site


def ask_place(place: str) -> str:
    return f"Do you mean {place}?"


def ask_machine(site: str, *, sure: bool) -> str:
    return f"Which machine is it at {site}?" if sure else f"Do you mean {site}? Then which machine is it?"


def machine_found(place: str, machine: str) -> Tell:
    return tell("taken", f"Site: {place}. {stop(machine)}")


def site_taken(site: str) -> Tell:
    return tell("taken", f"Site: {site}.")
