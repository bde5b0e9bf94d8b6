"""A barrel called by a flavour that this machine is not known to have: which one is asked, once.

The rule: nobody's flavour is guessed. What a line tells of it waits until the barrel is picked; from then on
the name means that barrel.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import taking
from assistant.engine.effects import Option
from assistant.engine.state import Question, State, Turn, answered

if TYPE_CHECKING:
    from assistant.facts import Fact
    from graph import Case

STORY = ("role", "complaint")
OF_A_BARREL = ("symptom", "not_symptom", "answer", "reading")


def resolved(case: Case, state: State, facts: tuple[Fact, ...]) -> tuple[State, tuple[Fact, ...]]:
    """Return the facts of a line with the barrel that a strange name means by now, else a doubt about that.

    While the doubt stands, what the line tells of one barrel is left out of the facts: it waits with it.
    """
    stranger = next((f for f in facts if f.kind == "which" and not (f.certain or f.which)), None)
    if stranger is None:
        return state, facts
    others = tuple(fact for fact in facts if fact is not stranger)
    barrel = dict(state.called).get(stranger.value)
    if barrel is not None:
        meant = replace(stranger, value=str(barrel), which=(barrel,), certain=True)
        return state, (*(_at(f, barrel) if _waits(case, f, stranger) else f for f in others), meant)
    waiting = tuple(fact for fact in others if _waits(case, fact, stranger))
    question = _question(case, stranger, tuple(_first_rivals(waiting)))
    if state.open != question:
        waits = state.open is not None and state.open.kind in STORY  # which the line answers all the same
        doubts = (question, *(doubt for doubt in state.doubts if doubt != question))
        state = replace(state, open=state.open if waits else None, doubts=doubts)
    return state, tuple(fact for fact in others if fact not in waiting)


def _waits(case: Case, fact: Fact, stranger: Fact) -> bool:
    """Return whether a fact is about a barrel that is called by the strange name, with others or alone."""
    if fact.kind not in OF_A_BARREL:
        return False
    if fact.which and (fact.certain or stranger.words not in fact.words):
        return False
    base = fact.id.partition("@")[0] if fact.which else fact.id
    return taking.per_barrel(case, replace(fact, id=base, which=()))


def _at(fact: Fact, barrel: int) -> Fact:
    """Return a fact told of a barrel, as well as of those that it names."""
    base = fact.id.partition("@")[0] if fact.which else fact.id
    return replace(fact, id=base, which=tuple(sorted({*fact.which, barrel})))


def _first_rivals(facts: tuple[Fact, ...]) -> tuple[Fact, ...]:
    """Return the facts, of doubtful ones of the same words the first only."""
    firsts: dict[str, Fact] = {}
    for number, fact in enumerate(facts):
        firsts.setdefault(f"#{number}" if fact.certain else fact.words, fact)
    return tuple(firsts.values())


def _question(case: Case, stranger: Fact, facts: tuple[Fact, ...]) -> Question:
    names = case.machine.flavours
    numbers = range(1, case.machine.barrels + 1)
    called = {n: wording.barrel_named(n, names[n - 1] if n <= len(names) else "") for n in numbers}
    if len(facts) == 1:  # to pick one says that this is meant, too
        facts = (replace(facts[0], certain=True),)
        called = {n: taking.described(case, _at(facts[0], n)) for n in numbers}
    options = tuple(Option(str(n), wording.sentence(name)) for n, name in called.items())
    return Question(
        "called",
        stranger.value,
        (*options, wording.NONE_OF_THESE),
        facts,
        text=wording.which_is_called(stranger.value, known=any(names)),
    )


def take(case: Case, state: State, choice: str) -> Turn:
    """Take the barrel that a name means, and what was told of it; anything else leaves that out."""
    question = state.open
    if question is None:
        return state, ()
    if choice == "yes":
        return state, (wording.which_of_these(),)
    state = replace(answered(state), doubts=tuple(doubt for doubt in state.doubts if doubt != question))
    if not choice.isdecimal():
        words = question.facts[0].words if question.facts else question.id
        return taking.not_understood(state, words), (wording.left_out(),)
    barrel = int(choice)
    state = replace(state, called=(*state.called, (question.id, barrel)))
    if not question.facts:
        return state, (wording.called(question.id, barrel),)
    return taking.take_facts(case, state, tuple(_at(fact, barrel) for fact in question.facts))


def take_barrels(case: Case, state: State, barrels: tuple[int, ...]) -> Turn | None:
    """Take the barrel of the open question in words ("the left one"); None where it is not about that."""
    asked = state.open is not None and state.open.kind == "called"
    return take(case, state, str(barrels[0])) if asked and len(barrels) == 1 else None
