"""Where a call comes from, by the user's address book: taken, asked back, or asked which machine it is.

The rule: the book itself is nowhere in here. What a line names of it comes in as facts of the line, so a
record replays without the book; which machine stands there is for the shell to look up (`wanted`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.effects import Option
from assistant.engine.state import Question, Stage, State, Turn, answered

if TYPE_CHECKING:
    from assistant.facts import Fact
    from graph import Case

SURE = 1.0  # score of a site that was named to the letter


@dataclass(frozen=True, slots=True)
class Wanted:
    """What was said of which machine it is, for whoever can look it up; either may be empty."""

    place: str  # of the address book
    profile: str  # of the pack


def wanted(state: State) -> Wanted | None:
    """Return what was said of which machine it is; None where nothing was."""
    if not (state.place or state.profile):
        return None
    return Wanted(state.place, state.profile)


def asked(places: tuple[Fact, ...], text: str) -> Question:
    """Return the question which of some places is meant; `text` is what was said."""
    if len(places) == 1:
        options: tuple[Option, ...] = (wording.YES_NO[0],)
    elif _one_site(places):
        options = tuple(Option(each.id, wording.sentence(each.ref)) for each in places)
    else:
        options = tuple(Option(each.id, wording.place_named(each.value, each.ref)) for each in places)
    none = wording.YES_NO[1] if len(places) == 1 else wording.NONE_OF_THESE
    return Question("place", "place", (*options, none), places, text=" ".join(text.split()))


def text(question: Question) -> str:
    """Return the question in words."""
    first = question.facts[0]
    if len(question.facts) == 1:
        return wording.ask_place(wording.place_named(first.value, first.ref))
    if not _one_site(question.facts):
        return wording.ASK_WHICH_PLACE
    return wording.ask_machine(first.value, sure=first.score >= SURE)


def _one_site(places: tuple[Fact, ...]) -> bool:
    return len({each.value for each in places}) == 1


def take(case: Case, state: State, choice: str) -> Turn:
    """Take the place that was picked; none of them leaves the site as it was said."""
    del case
    question = state.open
    if question is None:
        return state, ()
    picked = next((each for each in question.facts if each.id == choice), None)
    if choice == "yes" and len(question.facts) == 1:
        picked = question.facts[0]
    if picked is not None:
        return taken(state, picked)
    if choice == "yes":
        return state, (wording.which_of_these(),)
    first = question.facts[0]
    if _one_site(question.facts) and first.score >= SURE:  # the site was named, but another machine
        return taken(state, replace(first, id=f"{first.id.partition('/')[0]}/", ref=""))
    site = question.text or wording.NOT_NAMED
    return replace(answered(state), site=site), (wording.site_taken(site),)


def taken(state: State, place: Fact) -> Turn:
    """Take a place of the book; at a danger that the line told of, its question stays open."""
    state = state if state.stage is not Stage.INTAKE else answered(state)
    state = replace(state, site=place.value, unit=place.ref, place=place.id)
    return state, (wording.site_taken(wording.place_named(place.value, place.ref)),)
