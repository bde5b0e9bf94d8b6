"""Confirming interpretations one by one: a doubtful fact counts only after a yes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import taking
from assistant.engine.state import Stage, State, Turn, answered

if TYPE_CHECKING:
    from assistant.engine.state import Question
    from assistant.facts import Fact
    from graph import Case

PATIENCE = 4  # turns after which nobody is asked any more what an old line meant


def due(case: Case, state: State) -> Question | None:
    """Return the doubt to ask about now: what may be danger first; at intake nothing else."""
    urgent = next((doubt for doubt in state.doubts if _urgent(case, doubt)), None)
    later = state.stage is Stage.INTAKE
    return urgent or (None if later else next(iter(state.doubts), None))


def _urgent(case: Case, question: Question) -> bool:
    """Return whether a doubt is about danger, or about what orders something at once."""
    return any(fact.kind == "danger" or taking.orders(case, fact) for fact in question.facts)


def dated(before: State, after: State) -> State:
    """Return the state with the turn kept in which each new doubt was told."""
    if after.doubts == before.doubts:
        return after
    new = (d if d in before.doubts else replace(d, born=before.turn) for d in after.doubts)
    return replace(after, doubts=tuple(new))


def without_stale(case: Case, state: State) -> State:
    """Return the state without the doubts about lines that are long past; nothing is said of it."""
    fresh = (d for d in state.doubts if state.turn - d.born <= PATIENCE or _urgent(case, d))
    return replace(state, doubts=tuple(fresh)) if state.doubts else state


def interrupted(case: Case, state: State) -> State:
    """Return the state with who and where put off, while a danger or an order waits for its answer."""
    if state.open is None or state.open.kind not in {"role", "site", "place", "barrels"}:
        return state
    return replace(state, open=None) if state.securing or due(case, state) is not None else state


def ask_next(case: Case, state: State) -> Turn:
    """Ask about the doubt that is due."""
    return replace(state, open=due(case, state)), ()


def take(case: Case, state: State, choice: str) -> Turn:
    """Take the fact that was confirmed or picked; nobody being sure, danger is taken as danger."""
    question = state.open
    if question is None:
        return state, ()
    if choice == "yes" and choice not in [option.id for option in question.options]:
        return state, (wording.which_of_these(),)
    state = replace(answered(state), doubts=tuple(q for q in state.doubts if q != question))
    fact = _picked(question, choice)
    if fact is None:
        return taking.not_understood(state, question.facts[0].words), (wording.left_out(),)
    if fact.kind == "reading" and choice == fact.unit:
        state = _unit_known(case, state, fact)
    return taking.take_facts(case, state, (fact,), confirmed=True)


def said_again(question: Question | None, facts: tuple[Fact, ...]) -> str:
    """Return the option of the open doubt that a line says once more; empty for none, or for several."""
    if question is None or question.kind != "fact":
        return ""
    pairs = zip(question.options, question.facts, strict=False)
    found = [option.id for option, fact in pairs if among(fact, facts)]
    return found[0] if len(found) == 1 else ""


def among(fact: Fact, others: tuple[Fact, ...]) -> bool:
    """Return whether one of some facts tells the same, in whatever words and however certain."""
    return any(
        (o.kind, o.id, o.value, o.which) == (fact.kind, fact.id, fact.value, fact.which) for o in others
    )


def _picked(question: Question, choice: str) -> Fact | None:
    by_option = {option.id: fact for option, fact in zip(question.options, question.facts, strict=False)}
    if choice in by_option:
        return by_option[choice]
    unsure = choice in {"unsure", "cannot"}
    return next((fact for fact in question.facts if unsure and fact.kind == "danger"), None)


def take_barrels(case: Case, state: State, barrels: tuple[int, ...]) -> Turn | None:
    """Take the facts of a question that are about these barrels; None if it is about none of them."""
    question = state.open
    if question is None or question.kind != "fact":
        return None
    facts = tuple(fact for fact in question.facts if set(fact.which) & set(barrels))
    if not facts:
        return None
    state = replace(answered(state), doubts=tuple(q for q in state.doubts if q != question))
    return taking.take_facts(case, state, facts)


def _unit_known(case: Case, state: State, fact: Fact) -> State:
    """Return the state with the unit remembered that this quantity's instrument shows."""
    base = next((q.base for q in case.machine.quantities if q.id == fact.id), fact.id)
    others = tuple(pair for pair in state.units if pair[0] != base)
    return replace(state, units=(*others, (base, fact.unit)))
