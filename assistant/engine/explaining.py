"""Explaining: why this question, what is believed, and what each answer weighs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import asking, complaint, evidence, leading, procedure, roles
from assistant.engine.effects import Effect
from assistant.engine.state import Stage

if TYPE_CHECKING:
    from assistant.engine.effects import Cause
    from assistant.engine.state import State, Turn
    from graph import Belief, Case
    from graph.machine import Check

MOST_CAUSES = 8
MOST_WEIGHTY = 3


def why(case: Case, state: State, argument: str = "") -> Turn:
    """Say why the open question is asked; of a check, what each answer would do to the belief."""
    del argument
    question = state.open
    if question is None:
        return state, ()
    shown = asking.ask(case, state, question)
    told: tuple[Effect, ...] = (wording.why(question.kind, shown, plain=state.role in ("", *roles.BY_PHONE)),)
    if shown.about in {"check", "symptom"} and state.stage is Stage.NARROWING:
        told = (*told, *_what_if(case, state, case.check(question.id)))
    return state, told


def _what_if(case: Case, state: State, check: Check) -> tuple[Effect, ...]:
    """Say for each answer what would then lead, and how probable it would be."""
    known, told = evidence.findings(state), list[Effect]()
    before = dict(case.believe(known).causes)
    for outcome in check.outcomes:
        finding = case.answer(check.id, outcome.id, evidence.role_of(state), evidence.work_done(state))
        after = case.believe((*known, finding))
        first = leading.causes(case, state, after, 1)
        if first:
            told.append(wording.what_if(check, outcome, first[0], before[first[0].id]))
    return tuple(told)


def causes(case: Case, state: State, argument: str = "") -> Turn:
    """Say the leading causes, and how much is left for none of them."""
    del argument
    now = case.believe(evidence.findings(state))
    listed = leading.causes(case, state, now, MOST_CAUSES)
    return state, (
        *(wording.cause(each) for each in listed),
        wording.the_rest(now.nothing, now.unknown),
    )


def asked_at_large(case: Case, state: State, text: str) -> tuple[Effect, ...]:
    """Return the answer to a line that asks what is wrong, or what comes next; nothing for any other."""
    if wording.asks_next(text):
        return (wording.this_first(),)
    if not wording.asks_cause(text):
        return ()
    if state.stage in {Stage.INTAKE, Stage.SAFETY, Stage.LISTENING}:
        return (wording.not_known_yet(),)
    return causes(case, state)[1]


def facts(case: Case, state: State, argument: str = "") -> Turn:
    """Say every answer with its weight of evidence for the leading cause."""
    del argument
    known = evidence.findings(state)
    if not known:
        return state, (wording.no_facts(),)
    now: Belief = case.believe(known)
    lead = leading.causes(case, state, now, 1)
    weights = case.explain(known, lead[0].id) if lead else (0.0,) * len(known)
    head = (wording.facts_about(lead[0], plain=_plain(state)),) if lead else ()
    listed = (_fact(case, state, index, weight) for index, weight in enumerate(weights))
    orders = (wording.order_kept(ordered, done) for ordered, done in state.secured)
    early = (wording.hurried(procedure.step_named(case, name)) for name in state.hurried)
    return state, (*head, *listed, *_hazards(case, state), *orders, *early)


def _fact(case: Case, state: State, index: int, weight: float) -> Effect:
    answer = state.answers[index]
    name = answer.finding.check
    if name.startswith(evidence.WORK):
        remedy = case.remedy(name.removeprefix(evidence.WORK))
        return wording.work_fact(remedy, answer.outcome, weight, plain=_plain(state))
    check = case.check(name)
    return wording.fact(check, answer.outcome, answer.value, answer.unit, weight, plain=_plain(state))


def _plain(state: State) -> bool:
    """Return whether figures of evidence say nothing to the person here."""
    return state.role in {"", "operator"}


def _hazards(case: Case, state: State) -> tuple[Effect, ...]:
    by = dict(state.cleared)
    return tuple(wording.hazard(case.caution(name), by.get(name, "")) for name in state.hazards)


def so_far(case: Case, state: State) -> Effect:
    """Return what a newcomer needs to know, in one text."""
    now = case.believe(evidence.findings(state))
    lead = leading.causes(case, state, now)
    by = dict(state.cleared)
    hazards = tuple(wording.hazard_named(case.caution(name), by.get(name, "")) for name in state.hazards)
    done = tuple(case.remedy(name).title for name in state.cured)
    role = wording.role_title(case.machine.roles, state.role) if state.role else ""
    by_phone = state.role == "helpdesk"  # an operator alone is at the machine
    return wording.so_far(
        role,
        complaint.standing(case, state),
        len(state.answers),
        lead,
        hazards=hazards,
        done=done,
        by_phone=by_phone,
        weighty=_weighty(case, state, lead),
    )


def _weighty(case: Case, state: State, lead: tuple[Cause, ...]) -> tuple[tuple[str, float], ...]:
    """Return the answers that weigh most for or against the leading cause, heaviest first, each weighed."""
    if not lead:
        return ()
    weights = case.explain(evidence.findings(state), lead[0].id)
    weighed = zip(state.answers, weights, strict=True)
    told = [(a, w) for a, w in weighed if case.has_check(a.finding.check) and abs(w) >= wording.WORTH_TELLING]
    heavy = sorted(told, key=lambda pair: -abs(pair[1]))[:MOST_WEIGHTY]
    return tuple((wording.said(case.check(a.finding.check), a.outcome, a.value, a.unit), w) for a, w in heavy)
