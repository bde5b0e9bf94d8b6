"""Deciding: what is to be done, by whom, with what, and why."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import danger, evidence, leading, roles, serving
from assistant.engine.candidates import allowed, out_of_question, still_needed, work_refused
from assistant.engine.effects import Decide
from assistant.engine.state import Question, Stage, State, Turn, answered, once
from graph.visit import worth_carrying

if TYPE_CHECKING:
    from assistant.engine.effects import Cause
    from graph import Advice, Belief, Case
    from graph.machine import Remedy

VISITORS = ("technician", "refrigeration")  # whose coming is a visit; others are referred to
MOST_ITEMS = 8  # parts or tools named
HALF = 0.5  # more likely than not
RULED_OUT = 0.01  # posterior below which a cause that was likely before counts as ruled out


def decide(case: Case, state: State, advice: Advice) -> Turn:
    """Turn advice into a decision: offer a repair, ask what it needs first, or say who must come."""
    now = case.believe(evidence.findings(state))
    left = left_here(case, state, max(advice.probability, now.unknown, now.nothing))
    if left is not None:
        return _sent_for(case, state, left)
    spent = advice.reason == "no_check_changes_it"  # no question left, so whatever leads is the answer
    if advice.reason == "nothing_wrong" or (spent and now.nothing > HALF):
        return _not_in_graph(case, state) if _unexplained(case, state) else _nothing_wrong(case, state)
    leading_nowhere = spent and advice.probability < leading.WORTH_NAMING  # all that was likely is put right
    unknown = advice.reason == "unknown_leads" or (spent and now.unknown > advice.probability)
    unknown = unknown or leading_nowhere
    if unknown or out_of_question(state, advice.remedy):
        return _not_in_graph(case, state)
    return _do(case, state, case.remedy(advice.remedy), advice.reason)


def decide_now(case: Case, state: State) -> Turn:
    """Decide on what is known, since nobody answers questions for ever.

    What can be done here and is worth a try is tried first; what helps more likely than not is sent for;
    else it is said that nobody here knows.
    """
    now = case.believe(evidence.findings(state))
    if now.nothing > HALF and not _unexplained(case, state):
        return _nothing_wrong(case, state)
    spared = left_here(case, state, HALF)
    if spared is not None:
        return _sent_for(case, state, spared)
    for remedy in case.worth_a_try(state.role, now):
        if allowed(case, state, case.remedy(remedy)) and not out_of_question(state, remedy):
            return _do(case, state, case.remedy(remedy), "worth_a_try")
    left = (pair for pair in now.remedies if not out_of_question(state, pair[0]))
    remedy, share = next(left, ("", 0.0))
    if share > HALF:
        return _do(case, state, case.remedy(remedy), "asked_enough")
    return _not_in_graph(case, state, len(state.questioned))


def left_here(case: Case, state: State, above: float, *, begun: bool = True) -> Remedy | None:
    """Return the leading remedy where it was left here undone and is likelier than `above`; None else.

    That nobody here could or would do it is no evidence against it: somebody else must. Without `begun`
    only work counts that was not begun.
    """
    left = state.declined if begun else state.unbegun
    if not left:
        return None
    name, share = case.believe(evidence.findings(state)).remedies[0]
    return case.remedy(name) if name in left and name not in state.cured and share > above else None


def _sent_for(case: Case, state: State, remedy: Remedy) -> Turn:
    """Send somebody for what was left here undone, begun or not."""
    return send(case, state, remedy, "not_begun" if remedy.id in state.unbegun else "not_finished")


def _do(case: Case, state: State, remedy: Remedy, reason: str) -> Turn:
    """Order, offer or hand on a remedy, or ask first what it needs."""
    if danger.orders(case, state, remedy):
        return _ordered(case, state, remedy)
    due = still_needed(case, state, remedy)
    if due:
        return replace(state, due=once(state.due, *due)), (wording.record_first(remedy),)
    if not allowed(case, state, remedy):
        return send(case, state, remedy, "not_begun" if work_refused(case, state, remedy) else reason)
    if roles.needs_training(state.role, remedy) and not state.trained:
        return replace(state, open=Question("trained", remedy.id)), ()
    kind = "phone_fix" if state.role in roles.BY_PHONE else "do_it"
    shown = _about_remedy(case, state, remedy, kind, reason)
    return replace(state, open=Question("remedy", remedy.id), questioned=()), (shown,)


def _ordered(case: Case, state: State, remedy: Remedy) -> Turn:
    """Say what must be done at once: an order is no offer, so nothing is asked and nothing is timed."""
    now = case.believe(evidence.findings(state))
    fault, p_fault = leading.leading_fault(case, now, remedy.id)
    probable = leading.cause(case, state, fault, p_fault) if fault else None
    causes = leading.causes(case, state, now)
    decision = Decide(
        "make_safe",
        remedy.id,
        remedy.ref,
        remedy.title,
        0.0,
        wording.role_title(case.machine.roles, remedy.send),
        (),
        (),
        wording.reasons("", probable, *_second(case, now, probable, causes)),
        causes,
        wording.urgency("hazard"),
        tuple(text for text in (*(step.do for step in remedy.steps), remedy.serve) if text),
    )
    state, warned = danger.held(case, state, remedy)
    state = replace(state, stage=Stage.CLOSING, outcome="made_safe", remedy=remedy.id, cause=fault)
    return state, (*warned, decision)


def take_trained(case: Case, state: State, choice: str) -> Turn:
    """Take whether the person whose hands do it is trained; not being sure is a no."""
    del case
    return replace(answered(state), trained="yes" if choice == "yes" else "no"), ()


def take_offer(case: Case, state: State, choice: str) -> Turn:
    """Begin the repair, or leave it and go on narrowing."""
    if state.open is None:
        return state, ()
    remedy = case.remedy(state.open.id)
    state = answered(state)
    if choice != "yes":
        return put_off(state, remedy.id), (wording.declined(remedy),)
    state = replace(state, stage=Stage.DOING, remedy=remedy.id, at=0, fresh=(), warned=(), passed=())
    return state, (wording.begin(remedy, state.role),)


def put_off(state: State, remedy: str) -> State:
    """Return the state with a remedy that is not begun here, and not offered again to this person."""
    return replace(state, declined=once(state.declined, remedy), unbegun=once(state.unbegun, remedy))


def send(case: Case, state: State, remedy: Remedy, reason: str, *leave: str) -> Turn:
    """Say whom to send for a remedy that may not be done here, and go on to closing.

    `leave` is what else holds until they come: how to leave what could not be done.
    """
    to = roles.whom_to_send(state.role, remedy)
    kind = "visit" if to in VISITORS else "refer"
    shown = _about_remedy(case, state, remedy, kind, reason)
    shown = replace(
        shown, meanwhile=once(tuple(wording.stop(text) for text in leave if text), *shown.meanwhile)
    )
    fault, _ = leading.leading_fault(case, case.believe(evidence.findings(state)), remedy.id)
    outcome = "visit" if kind == "visit" else "referred"
    state = replace(state, stage=Stage.CLOSING, outcome=outcome, remedy=remedy.id, cause=fault)
    return replace(state, questioned=()), (shown,)


def _about_remedy(case: Case, state: State, remedy: Remedy, kind: str, reason: str) -> Decide:
    now = case.believe(evidence.findings(state))
    here = kind in {"phone_fix", "do_it"}
    fault, p_fault = leading.leading_fault(case, now, remedy.id)
    causes = leading.causes(case, state, now)
    probable = leading.cause(case, state, fault, p_fault) if fault else None
    to = "" if here else roles.whom_to_send(state.role, remedy)
    return Decide(
        kind,
        remedy.id,
        remedy.ref,
        remedy.title,
        _likely(now, remedy.id, p_fault),
        wording.whom(case.machine.roles, to, state.role) if to else "",
        remedy.parts if here else _parts(case, now, to),
        remedy.tools if here else _tools(case, now, to),
        wording.reasons(reason, probable, *_second(case, now, probable, causes)),
        causes,
        "" if here else serving.urgency(case, state, fault),
        _meanwhile(case, state, remedy.serve if here else remedy.serve or serving.may_serve(case, state)),
    )


def _likely(now: Belief, remedy: str, p_fault: float) -> float:
    """Return how probable it is at least that there is something for this repair to put right.

    Of two faults that are there each has half of what is to be done first; that half is not how likely it is.
    """
    return max(dict(now.remedies)[remedy], p_fault)


def _parts(case: Case, now: Belief, to: str) -> tuple[str, ...]:
    """Return the parts that it pays to carry for whoever is sent, the most probably needed first.

    What every van has aboard is named only where the likeliest repair needs it.
    """
    settings = case.machine.settings
    needed = case.remedy(now.remedies[0][0]).parts
    aboard = [part for part in settings.van if part not in needed]
    needs = ((p, remedy.parts) for p, remedy in case.work_of(to, now))
    picked = worth_carrying(needs, settings.costs["second_visit"], settings.costs["carry_part"], aboard)
    return picked[:MOST_ITEMS]


def _tools(case: Case, now: Belief, to: str) -> tuple[str, ...]:
    """Return the tools that it pays to carry for whoever is sent, the most probably needed first."""
    costs = case.machine.settings.costs
    needs = ((p, remedy.tools) for p, remedy in case.work_of(to, now))
    return worth_carrying(needs, costs["second_visit"], costs["carry_tool"])[:MOST_ITEMS]


def _second(
    case: Case, now: Belief, probable: Cause | None, causes: tuple[Cause, ...]
) -> tuple[Cause | None, float]:
    """Return the next likely cause, with how probable it is that its own repair is what to do.

    That share is zero where the same repair helps: one figure stands for one thing to do.
    """
    second = next((cause for cause in causes if probable is None or cause.id != probable.id), None)
    if second is None or probable is None:
        return second, 0.0
    own, other = case.fault(probable.id).remedy, case.fault(second.id).remedy
    return second, 0.0 if own == other else _likely(now, other, second.probability)


def _meanwhile(case: Case, state: State, serve: str) -> tuple[str, ...]:
    over = {name for name, _ in state.cleared}
    hazards = (case.caution(name).do for name in state.hazards if name not in over)
    return tuple(text for text in (serve, *hazards) if text)


def _not_in_graph(case: Case, state: State, asked: int = 0) -> Turn:
    now = case.believe(evidence.findings(state))
    to = "technician" if state.role != "technician" else "supervisor"
    before = dict(case.believe(()).causes)
    after = dict(now.causes)
    ruled_out = [name for name in before if after[name] < RULED_OUT < before[name]][:MOST_ITEMS]
    names = tuple(leading.cause(case, state, name, after[name]).title for name in ruled_out)
    decision = Decide(
        "not_in_graph",
        "",
        "",
        wording.NOT_IN_GRAPH,
        0.0 if asked else now.unknown,  # who gives up asking has no figure for it
        wording.role_title(case.machine.roles, to),
        _parts(case, now, to),
        _tools(case, now, to),
        wording.unknown_reasons(names, asked, state.complaint if _unexplained(case, state) else ""),
        leading.causes(case, state, now),
        serving.urgency(case, state, ""),
        _meanwhile(case, state, serving.may_serve(case, state)),
    )
    state = replace(state, stage=Stage.CLOSING, outcome="not_found", remedy="", cause="", questioned=())
    return state, (decision,)


def _unexplained(case: Case, state: State) -> bool:
    """Return whether no symptom here covers the complaint: then "nothing is wrong" is no answer."""
    symptoms = (a for a in state.answers if case.has_check(a.finding.check))
    known = any(case.check(a.finding.check).kind == "symptom" and a.outcome == "present" for a in symptoms)
    return bool(state.complaint) and not known


def _nothing_wrong(case: Case, state: State) -> Turn:
    now = case.believe(evidence.findings(state))
    decision = Decide(
        "nothing_wrong",
        "",
        "",
        wording.NOTHING_WRONG,
        now.nothing,
        "",
        (),
        (),
        wording.nothing_reasons(),
        leading.causes(case, state, now),
        meanwhile=_meanwhile(case, state, ""),
    )
    return replace(state, stage=Stage.CLOSING, outcome="not_found", remedy="", cause=""), (decision,)
