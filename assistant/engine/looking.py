"""Where a thing is and what it is, from the pack's own explanations and glossary."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import naming

if TYPE_CHECKING:
    from assistant.engine.state import State, Turn
    from graph import Case
    from graph.machine import Check, Component

MOST = 4  # components told at once


def where(case: Case, state: State, argument: str = "") -> Turn:
    """Say where a component is; with no name given, the one that the open check is about."""
    found = _components(case, state, argument)
    if found:
        return state, tuple(wording.where(part, case.place(part.place).title) for part in found)
    check = _open_check(case, state)
    if argument or check is None:
        return state, (wording.unknown_thing(argument),)
    return state, (wording.where_check(check, case.place(check.place).title),)


def what(case: Case, state: State, argument: str = "") -> Turn:
    """Say what a component is or what a word means."""
    wanted = argument.strip().casefold()
    meanings = [(word, text) for word, text in case.machine.glossary.items() if word.casefold() == wanted]
    if meanings:
        return state, (wording.meaning(*meanings[0]),)
    found = _components(case, state, argument)
    if not found:
        return state, (wording.unknown_thing(argument),)
    return state, tuple(wording.what(part) for part in found)


def knows(case: Case, name: str) -> bool:
    """Return whether a name means a component or a word of the glossary."""
    words = (word.casefold() for word in case.machine.glossary)
    return bool(name.strip()) and (
        name.strip().casefold() in words or bool(naming.named(case.machine.components, name))
    )


def aimed(case: Case, state: State, name: str) -> str:
    """Return the name of the like part at the barrel that the open check is about, else the name as it is."""
    check = _open_check(case, state)
    here = f"{name.partition('@')[0]}@{check.barrel}" if check is not None else ""
    return next((part.id for part in case.machine.components if part.id == here), name)


def _components(case: Case, state: State, argument: str) -> tuple[Component, ...]:
    if argument.strip():
        return naming.named(case.machine.components, argument)[:MOST]
    check = _open_check(case, state)
    return (case.component(check.component),) if check is not None and check.component else ()


def _open_check(case: Case, state: State) -> Check | None:
    question = state.open
    if question is None or not case.has_check(question.id):
        return None
    return case.check(question.id)
