"""Taking what a person said as evidence: whatever it is, in whatever stage it is said.

The rule: what is certain counts and is shown back; what is not certain waits in `doubts` to be confirmed;
what fits nothing on this machine is kept as a note.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import danger, evidence, learning, readings
from assistant.engine.effects import Option
from assistant.engine.naming import checks_meant, quantities_meant
from assistant.engine.state import Question, State, Turn, once

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.facts import Fact
    from graph import Case
    from graph.machine import Check, Quantity

EVIDENCE = ("danger", "symptom", "not_symptom", "answer", "reading")
MOST_OPTIONS = 9


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of one fact; `label` says what it was taken as, empty if it was not."""

    state: State
    shown: tuple[Effect, ...] = ()
    label: str = ""


def take_facts(case: Case, state: State, facts: tuple[Fact, ...], *, confirmed: bool = False) -> Turn:
    """Take all the evidence among some facts, danger first; doubtful facts of the same words are rivals."""
    order = sorted(
        (fact for fact in facts if fact.kind in EVIDENCE), key=lambda fact: EVIDENCE.index(fact.kind)
    )
    labels: list[str] = []
    shown: tuple[Effect, ...] = ()
    for fact in (fact for fact in order if fact.certain):
        taken = _take(case, state, fact, confirmed=confirmed)
        state, shown = taken.state, (*shown, *taken.shown)
        labels += [taken.label] if taken.label else []
    if shown or labels:
        state = _settled(case, state, tuple(fact for fact in order if fact.certain))
    doubtful = _rivals(tuple(fact for fact in facts if fact.kind in EVIDENCE and not fact.certain))
    for rivals in sorted(doubtful, key=lambda group: min(EVIDENCE.index(fact.kind) for fact in group)):
        state = _doubted(case, state, rivals)
    return state, ((wording.taken(labels),) if labels else ()) + shown


def _rivals(doubtful: tuple[Fact, ...]) -> tuple[tuple[Fact, ...], ...]:
    """Return the doubtful facts, those of the same words together; without words each stands alone."""
    groups: dict[str, tuple[Fact, ...]] = {}
    for number, fact in enumerate(doubtful):
        key = fact.words or f"#{number}"
        groups[key] = (*groups.get(key, ()), fact)
    return tuple(groups.values())


def _take(case: Case, state: State, fact: Fact, *, confirmed: bool) -> Taken:
    if fact.kind == "reading":
        return _take_reading(case, state, fact, confirmed=confirmed)
    meant = checks_of(case, fact)
    if not meant:
        return _take_caution(case, state, fact)
    if len(meant) > 1 and not fact.which and fact.kind != "not_symptom":
        named = tuple(check for check in meant if check.barrel in state.barrels)
        if len(named) != 1:
            return Taken(_waiting(state, _which_instance(fact, meant)))
        meant = named
    alike = len(meant) > 1 and len({_outcome(check, fact) for check in meant}) == 1
    label = (
        wording.said_of_several(meant, _outcome(meant[0], fact), case.machine.barrels)
        if alike
        else "; ".join(_label(state, check, _outcome(check, fact)) for check in meant)
    )
    shown: tuple[Effect, ...] = ()
    for check in meant:
        state, more = learning.learn(case, state, check.id, _outcome(check, fact))
        shown = (*shown, *more)
    return Taken(state, shown, label)


def _label(state: State, check: Check, outcome: str) -> str:
    """Return what an answer is taken as; the title of the open question goes without saying."""
    if check.kind == "check" and state.open is not None and state.open.id == check.id:
        return wording.outcome_label(check, outcome)
    return wording.said_of(check, outcome)


def checks_of(case: Case, fact: Fact) -> tuple[Check, ...]:
    """Return the checks that a fact may be about and has an outcome for."""
    kinds = ("check", "symptom") if fact.kind in {"answer", "danger"} else ("symptom",)
    found = (check for kind in kinds for check in checks_meant(case, fact, kind))
    return tuple(check for check in found if _outcome(check, fact))


def orders(case: Case, fact: Fact) -> bool:
    """Return whether a fact, if it is so, means danger or orders something to be done at once."""
    given = ((check, check.outcome_index(_outcome(check, fact))) for check in checks_of(case, fact))
    outcomes = (check.outcomes[index] for check, index in given)
    return any(outcome.danger or outcome.confirm for outcome in outcomes)


def per_barrel(case: Case, fact: Fact) -> bool:
    """Return whether a fact may be about any of several barrels."""
    if fact.kind == "reading":
        found = {quantity.barrel for quantity in quantities_meant(case, fact.id, fact.which)}
    else:
        found = {check.barrel for check in checks_of(case, fact)}
    return len(found) > 1


def _outcome(check: Check, fact: Fact) -> str:
    """Return the id of the outcome that a fact gives to a check; empty if it gives none."""
    if fact.kind == "symptom":
        return "present"
    if fact.kind == "not_symptom":
        return "absent"
    if fact.kind == "danger" and not fact.value:
        return next((outcome.id for outcome in check.outcomes if outcome.danger), "")
    index = check.outcome_index(fact.value)
    return check.outcomes[index].id if index >= 0 else ""


def _take_caution(case: Case, state: State, fact: Fact) -> Taken:
    """Stop for a danger that is named by its caution; keep anything else as a note."""
    names = tuple(
        c.id for c in case.machine.cautions if fact.kind == "danger" and fact.id and fact.id in (c.id, c.ref)
    )
    if names:
        state, shown = danger.halted(case, state, names[0])
        return Taken(state, shown, case.caution(names[0]).title)
    return Taken(not_understood(state, fact.words), (wording.not_here(fact.words),))


def not_understood(state: State, words: str) -> State:
    """Return the state with words kept that nothing was made of."""
    return replace(state, unheard=once(state.unheard, words)) if words.strip() else state


# -- readings ------------------------------------------------------------------------------------


def _take_reading(case: Case, state: State, fact: Fact, *, confirmed: bool) -> Taken:
    meant = quantities_meant(case, fact.id, fact.which)
    if not meant:
        words = fact.words or f"{fact.value} {fact.unit}".strip()
        return Taken(not_understood(state, words), (wording.not_here(words),))
    if len(meant) > 1:
        named = _asked_here(case, state, meant) if not fact.which else ()
        named = named or tuple(q for q in meant if q.barrel in (fact.which or state.barrels))
        if not fact.which and len(named) != 1:
            return Taken(_waiting(state, _which_quantity(fact, meant)))
        meant = named
    done = Taken(state)
    for quantity in meant:
        more = _take_one(case, done.state, replace(fact, id=quantity.id), confirmed=confirmed)
        label = "; ".join(text for text in (done.label, more.label) if text)
        done = Taken(more.state, (*done.shown, *more.shown), label)
    return done


def _asked_here(case: Case, state: State, meant: tuple[Quantity, ...]) -> tuple[Quantity, ...]:
    """Return the quantity that the open check is about, by its channel and barrel; empty for none."""
    name = state.open.id if state.open is not None else ""
    if not case.has_check(name) or case.check(name).barrel is None:
        return ()
    check = case.check(name)
    return tuple(q for q in meant if q.barrel == check.barrel and check.channel in {"", q.base})


def _take_one(case: Case, state: State, fact: Fact, *, confirmed: bool) -> Taken:
    """Take a reading of one quantity, once its unit is known and its size is believed."""
    verdict = readings.judged(case, state, fact, confirmed=confirmed)
    if verdict.refusal:
        return Taken(state, (wording.ignored(verdict.refusal),))
    if verdict.question is not None:
        return Taken(_waiting(state, verdict.question))
    quantity, value = case.quantity(fact.id), readings.value_of(fact) or 0.0
    label = wording.reading(quantity, value, verdict.unit)
    check = _check_reading(case, state, quantity)
    if check is None:
        return Taken(evidence.noted(state, quantity.id, value, verdict.unit), (), label)
    state, shown = learning.learn_reading(case, state, check.id, value, verdict.unit)
    return Taken(state, shown, label)


def _check_reading(case: Case, state: State, quantity: Quantity) -> Check | None:
    """Return the check that a reading answers: the open one, else one not settled yet, else the first."""
    found = [check for check in case.machine.checks if check.reading == quantity.id]
    wanted = state.open.id if state.open is not None and state.open.kind in {"check", "proof"} else ""
    ranks = {check.id: (check.id != wanted, check.id in state.settled) for check in found}
    return min(found, key=lambda check: ranks[check.id], default=None)


def one_of(case: Case, state: State, fact: Fact, wanted: tuple[str, ...]) -> State:
    """Return the state with the question which of several things a number was read of."""
    if not wanted:
        return state
    meant = tuple(case.quantity(name) for name in wanted)
    question = _which_quantity(replace(fact, words=fact.words or f"{fact.value} {fact.unit}".strip()), meant)
    return replace(_waiting(state, question), open=None)


# -- doubts --------------------------------------------------------------------------------------


def _settled(case: Case, state: State, facts: tuple[Fact, ...]) -> State:
    """Return the state without the doubts about what these facts have answered for certain."""
    answered = dict(said for fact in facts for said in _says(case, fact))

    def open_still(question: Question) -> bool:
        asked = [_says(case, fact) for fact in question.facts]
        chosen = any(said and said <= answered.items() for said in asked)
        return not chosen and not all(said and dict(said).keys() <= answered.keys() for said in asked)

    doubts = tuple(question for question in state.doubts if not answered or open_still(question))
    return replace(state, doubts=doubts)


def _says(case: Case, fact: Fact) -> set[tuple[str, str]]:
    """Return the checks that a fact answers, each with its outcome; none where it is no answer."""
    if fact.kind not in {"answer", "symptom", "not_symptom"}:
        return set()
    return {(check.id, _outcome(check, fact)) for check in checks_of(case, fact)}


def _waiting(state: State, question: Question) -> State:
    """Return the state with one more interpretation to confirm, what may be danger first."""
    if question in state.doubts:
        return state
    doubts = (*state.doubts, question)
    return replace(state, doubts=tuple(sorted(doubts, key=lambda q: not _about_danger(q))))


def _about_danger(question: Question) -> bool:
    return any(fact.kind == "danger" for fact in question.facts)


def _doubted(case: Case, state: State, rivals: tuple[Fact, ...]) -> State:
    """Return the state with doubtful facts waiting: one to be confirmed, several to choose from."""
    known = tuple((fact, label) for fact in rivals if (label := described(case, fact)))[:MOST_OPTIONS]
    if not known:
        return not_understood(state, rivals[0].words)
    facts = tuple(replace(fact, certain=True) for fact, _ in known)
    if len(known) == 1:
        text = wording.do_you_mean(known[0][1], denied=facts[0].kind == "not_symptom")
        return _waiting(state, Question("fact", facts[0].id, wording.YES_NO, facts, text=text))
    options = tuple(Option(str(number), label) for number, (_, label) in enumerate(known, start=1))
    text = wording.which_did_you_mean(rivals[0].words)
    return _waiting(state, Question("fact", facts[0].id, (*options, wording.NONE_OF_THESE), facts, text=text))


def described(case: Case, fact: Fact) -> str:
    """Return what a fact would be taken as; empty if it fits nothing on this machine."""
    if fact.kind == "reading":
        quantities = quantities_meant(case, fact.id, fact.which)
        value = readings.value_of(fact)
        if not quantities or value is None:
            return ""
        return wording.reading(quantities[0], value, fact.unit)
    meant = checks_of(case, fact)
    if len(meant) > 1 and not fact.which:
        return wording.said_of_any(meant[0], _outcome(meant[0], fact))
    if len({_outcome(check, fact) for check in meant}) > 1:
        return "; ".join(wording.said_of(check, _outcome(check, fact)) for check in meant)
    return wording.said_of_several(meant, _outcome(meant[0], fact), case.machine.barrels) if meant else ""


def _which_instance(fact: Fact, meant: tuple[Check, ...]) -> Question:
    some = meant[:MOST_OPTIONS]
    options = tuple(Option(check.id, wording.said_of(check, _outcome(check, fact))) for check in some)
    return Question(
        "fact",
        some[0].base,
        (*options, wording.NONE_OF_THESE),
        tuple(replace(fact, id=check.id, which=_barrels(check.barrel)) for check in some),
        text=wording.which_one(fact.words),
    )


def _which_quantity(fact: Fact, meant: tuple[Quantity, ...]) -> Question:
    options = tuple(Option(quantity.id, quantity.title) for quantity in meant)
    return Question(
        "fact",
        meant[0].base,
        (*options, wording.NONE_OF_THESE),
        tuple(replace(fact, id=quantity.id, which=_barrels(quantity.barrel)) for quantity in meant),
        text=wording.which_one(fact.words),
    )


def _barrels(barrel: int | None) -> tuple[int, ...]:
    return () if barrel is None else (barrel,)
