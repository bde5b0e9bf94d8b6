"""How many barrels the machine has, where nobody said which machine it is: asked, or taken from what is said.

The rule: no number is assumed in silence. Another number makes it another machine of the pack; the shell
then tells the session again about that one (`placing.wanted`), and until then this one is gone by.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.effects import Option
from assistant.engine.state import Question, State, Turn, answered

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.engine.events import Said
    from graph import Case


def unknown(case: Case) -> bool:
    """Return whether nobody has said which machine this is, while the pack knows several kinds."""
    return not any(case.machine.flavours) and len(_numbers(case)) > 1


def wanted(case: Case, state: State) -> bool:
    """Return whether the number of barrels is still to be asked."""
    return unknown(case) and not state.sized


def options(case: Case) -> tuple[Option, ...]:
    """Return the answers: each number that the pack has a machine of, by its own number."""
    known = tuple(Option(str(n), wording.sentence(wording.barrels_of(n))) for n in _numbers(case))
    return (*known, wording.NO_ANSWER[0])


def _numbers(case: Case) -> tuple[int, ...]:
    return tuple(dict.fromkeys(profile.barrels for profile in case.machine.profiles))


def take(case: Case, state: State, choice: str) -> Turn:
    """Take a number that was picked; without one, say which is gone by, and how to put it right."""
    state = replace(state, doubts=tuple(doubt for doubt in state.doubts if doubt.kind != "barrels"))
    if choice.isdecimal() and int(choice) in _numbers(case):
        return _sized(case, answered(state), int(choice))
    if choice == "yes":
        return state, (wording.which_of_these(),)
    here = case.machine.barrels
    shown = wording.barrels_assumed(here) if unknown(case) else wording.barrels_kept(here)
    return replace(answered(state), sized=True), (shown,)


def told(case: Case, state: State, event: Said) -> tuple[State, tuple[Effect, ...], Said | None]:
    """Take the number of barrels that a line says the machine has; with what else it says, None for nothing.

    Where it is known which machine it is, another number than its own is asked about, not taken.
    """
    asked = state.open is not None and state.open.kind == "barrels"
    said = wording.barrels_said(event.text, asked=asked)
    if said is None or any(fact.kind == "danger" for fact in event.facts):
        return state, (), event
    here, numbers = case.machine.barrels, _numbers(case)
    rest = _rest(state, event, said)
    settled = answered(state) if asked and rest is None else state
    if said.number not in numbers:
        return replace(settled, sized=True), (wording.machines_known(numbers, here),), rest
    if unknown(case) or asked:
        return (*_sized(case, settled, said.number), rest)
    if said.number == here:
        return state, () if rest else (wording.barrels_right(here),), rest
    doubt = Question("barrels", "barrels")
    doubts = (doubt, *(each for each in state.doubts if each != doubt))
    return replace(state, open=state.open if rest else None, doubts=doubts), (), rest


def _rest(state: State, event: Said, said: wording.Barrels) -> Said | None:
    """Return a line without what was made of the number in it, and as a site's name without the words."""
    if not said.rest and not any(fact.kind == "place" for fact in event.facts):
        return None
    facts = tuple(fact for fact in event.facts if fact.certain or said.words not in fact.words.lower())
    at_site = state.open is not None and state.open.kind == "site"
    return replace(event, facts=facts, text=said.rest if at_site else event.text)


def _sized(case: Case, state: State, number: int) -> Turn:
    """Take the number of barrels: another one than this machine's makes it another machine of the pack."""
    here = case.machine
    others = (each.id for each in here.profiles if each.barrels == number)
    profile = "" if number == here.barrels else next(others, "")
    shown = wording.barrels_right(number) if state.sized and not profile else wording.barrels_taken(number)
    return replace(state, sized=True, profile=profile), (shown,)
