"""The open question as an effect: what may be answered, and the `Ask` that shows it.

The same state always gives the same question, so it can be shown again after anything that was not an
answer.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import (
    closing,
    complaint,
    evidence,
    guard,
    leading,
    learning,
    left_over,
    placing,
    procedure,
    roles,
    sizing,
)
from assistant.engine.effects import Ask, Option
from assistant.engine.state import Stage
from graph.physics import WORKOUTS

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.procedure import Item
    from assistant.engine.state import Question, State
    from graph import Case
    from graph.machine import Check, Limits, Step, Verification


def ask(case: Case, state: State, question: Question) -> Ask:
    """Return the open question as it is shown."""
    return _ASKS[question.kind](case, state, question)


def step_item(case: Case, state: State) -> Item:
    """Return the item of the repair that is asked about now."""
    return procedure.of_remedy(case, case.remedy(state.remedy))[state.at]


def verification(case: Case, state: State) -> Verification:
    """Return what is being verified now."""
    return case.remedy(state.remedy).verify[state.at]


def quantity_wanted(case: Case, state: State) -> str:
    """Return the quantity that the open question asks for; empty if it asks for none."""
    question = state.open
    if question is None:
        return ""
    if question.kind in {"check", "proof"} and case.has_check(question.id):
        return case.check(question.id).reading
    if question.kind == "proof":
        return verification(case, state).read
    wanted = one_wanted(case, state)
    return wanted[0] if len(wanted) == 1 else ""


def expected(case: Case, state: State) -> Limits | None:
    """Return where the number asked for lies when all is well, in its quantity's unit; None where none is."""
    question = state.open
    if question is None:
        return None
    if case.has_check(question.id):
        check = case.check(question.id)
        return check.outcomes[check.usual].band if check.usual >= 0 else None
    if question.kind == "proof":
        return verification(case, state).limits
    item = open_item(case, state)
    return next((limits for _, limits in item.step.reads), None) if item and item.step else None


def open_item(case: Case, state: State) -> Item | None:
    """Return the item of work that is asked about, in a repair or on the way to a check; else None."""
    question = state.open
    if question is None or question.kind not in {"guard", "step"}:
        return None
    return guard.item(case, state) if question.kind == "guard" else step_item(case, state)


def one_wanted(case: Case, state: State) -> tuple[str, ...]:
    """Return the quantities of which the open step asks for one; none where no step is open."""
    item = open_item(case, state)
    return tuple(quantity for quantity, _ in item.step.reads) if item and item.step else ()


def _unit(case: Case, state: State) -> str:
    """Return the unit to ask for: the one that the instrument is known to show, else the pack's."""
    wanted = quantity_wanted(case, state) or next(iter(one_wanted(case, state)), "")
    if not wanted:
        return ""
    quantity = case.quantity(wanted)
    return dict(state.units).get(quantity.base, quantity.unit)


# -- one function per kind of question -----------------------------------------------------------


def _role(case: Case, state: State, question: Question) -> Ask:
    del state, question
    titles = case.machine.roles
    options = tuple(Option(role, wording.role_title(titles, role)) for role in roles.AT_INTAKE)
    return Ask("intake", "role", "", wording.ASK_ROLE, options)


def _site(case: Case, state: State, question: Question) -> Ask:
    del case, state, question
    return Ask("intake", "site", "", wording.ASK_SITE, (wording.SKIP,))


def _place(case: Case, state: State, question: Question) -> Ask:
    del case, state
    return Ask("intake", "place", "", placing.text(question), question.options)


def _barrels(case: Case, state: State, question: Question) -> Ask:
    del state, question
    known = not sizing.unknown(case)
    text = wording.ask_barrels(case.machine.barrels) if known else wording.ASK_BARRELS
    return Ask("intake", "barrels", "", text, sizing.options(case))


def _complaint(case: Case, state: State, question: Question) -> Ask:
    del case, question
    text = wording.read_out(state.role, wording.ASK_COMPLAINT)
    return Ask("intake", "complaint", "", text, (wording.SKIP,))


def _check(case: Case, state: State, question: Question) -> Ask:
    check = case.check(question.id)
    about = "symptom" if check.kind == "symptom" else "check"
    return _of_check(case, state, question, about=about, why=_why(check, state))


def _why(check: Check, state: State) -> str:
    return wording.SAFETY_FIRST if state.stage is Stage.SAFETY and not check.why else check.why


def _of_check(case: Case, state: State, question: Question, *, about: str, why: str) -> Ask:
    check, ranked = case.check(question.id), question.ranked
    now = case.believe(evidence.findings(state)) if state.stage is Stage.NARROWING else None
    return Ask(
        about,
        check.id,
        check.ref,
        wording.with_numbers(wording.question(check, state.role), WORKOUTS.get(check.work_out)),
        (
            *(Option(o.id, wording.sentence(o.label), o.ref) for o in check.outcomes),
            *wording.NO_ANSWER,
        ),
        unit=_unit(case, state),
        bits=ranked.bits_remedy if ranked is not None else None,
        minutes=ranked.minutes if ranked is not None else check.minutes,
        why=why,
        causes=leading.causes(case, state, now) if now is not None else (),
        bits_left=now.bits if now is not None else None,
        place=case.place(check.place).title,
    )


def _fact(case: Case, state: State, question: Question) -> Ask:
    """Ask about a doubt; where it is about one check, its ref says that an answer to that will do as well."""
    del state
    ref = case.check(question.id).ref if case.has_check(question.id) else ""
    return Ask("confirm", question.id, ref, question.text, question.options)


def _trained(case: Case, state: State, question: Question) -> Ask:
    remedy = case.remedy(question.id)
    return Ask(
        "confirm",
        "trained",
        remedy.ref,
        wording.ask_trained(remedy, state.role),
        wording.YES_NO,
    )


def _become(case: Case, state: State, question: Question) -> Ask:
    del state
    text = wording.ask_become(wording.role_title(case.machine.roles, question.id))
    return Ask("confirm", "role", "", text, wording.YES_NO)


def _safe(case: Case, state: State, question: Question) -> Ask:
    del question
    cautions = tuple(case.caution(name) for name in state.halts)
    return Ask("confirm", "safe", "", wording.ask_safe(cautions), wording.SAFE_NOW)


def _safe_by(case: Case, state: State, question: Question) -> Ask:
    del state
    caution = case.caution(question.id)
    named = tuple(Option(wording.option_id(name), name) for name in wording.entitled(caution))
    return Ask("confirm", "safe_by", caution.ref, wording.ask_safe_by(caution), (*named, wording.NOBODY_YET))


def _secured(case: Case, state: State, question: Question) -> Ask:
    check = case.check(question.id)
    text = wording.read_out(state.role, learning.order(case, state, check.id))
    return Ask("confirm", "secured", check.ref, text, wording.SECURED, why=wording.SAFETY_FIRST)


def _remedy(case: Case, state: State, question: Question) -> Ask:
    remedy = case.remedy(question.id)
    now = case.believe(evidence.findings(state))
    return Ask(
        "remedy",
        remedy.id,
        remedy.ref,
        wording.offer(remedy, state.role),
        wording.YES_NO,
        minutes=remedy.minutes,
        why=wording.offer_why(leading.causes(case, state, now), state.role),
        causes=leading.causes(case, state, now),
        bits_left=now.bits,
    )


def _guard(case: Case, state: State, question: Question) -> Ask:
    check = case.check(state.guarding)
    why = wording.before_check(check)
    return _of_item(case, state, guard.item(case, state), why=why, of=question.id)


def _step(case: Case, state: State, question: Question) -> Ask:
    remedy = case.remedy(state.remedy)
    return _of_item(case, state, step_item(case, state), why=remedy.title, of=question.id)


def _of_item(case: Case, state: State, item: Item, *, why: str, of: str) -> Ask:
    if item.step is None:
        caution = case.caution(item.id)
        text = wording.read_out(state.role, wording.acknowledge(caution))
        return Ask("caution", of, caution.ref, text, wording.UNDERSTOOD, why=why)
    step, owner = item.step, item.id.partition("#")[0]
    ref = case.gate(owner).ref if item.kind == "gate" else case.remedy(owner).ref
    return Ask(
        item.kind,
        of,
        ref,
        wording.step(step, state.role, procedure.until(state, item)),
        _answers(step),
        unit=_unit(case, state),
        minutes=step.wait or None,
        why=why,
    )


def _answers(step: Step) -> tuple[Option, ...]:
    """Return the answers to a step: yes, what may keep it from being done, no, not sure."""
    yes, *others = wording.CONFIRMED if step.confirm else wording.DONE
    return (yes, *(Option(way.id, way.label) for way in step.instead), *others)


def _instead(case: Case, state: State, question: Question) -> Ask:
    step = procedure.step_named(case, question.id)
    way = next(way for way in step.instead if way.id == question.text)
    return Ask("confirm", "instead", "", wording.read_out(state.role, way.do), wording.TRIED)


def _stuck(case: Case, state: State, question: Question) -> Ask:
    """Ask how to go on where a step could not be done: another try, somebody else, or other causes."""
    del question
    remedy = case.remedy(state.remedy)
    items = procedure.of_remedy(case, remedy)
    begun = procedure.begun(items, state.at) and not procedure.barrier(case, items, state.at)
    return Ask("confirm", "stuck", remedy.ref, wording.ask_stuck(remedy), wording.ways_on(begun=begun))


def _early(case: Case, state: State, question: Question) -> Ask:
    step = procedure.step_named(case, question.id)
    text = wording.read_out(state.role, wording.ask_early(step))
    return Ask("confirm", "early", "", text, wording.REALLY_DONE, minutes=step.wait)


def _proof(case: Case, state: State, question: Question) -> Ask:
    remedy = case.remedy(state.remedy)
    why = wording.LOOK_AGAIN_WHY if state.relieved else wording.proof_why(remedy)
    if case.has_check(question.id):
        return _of_check(case, state, question, about="verification", why=why)
    found = verification(case, state)
    quantity = case.quantity(found.read) if found.read else None
    text = wording.read_out(state.role, wording.verify(found, quantity))
    options = wording.NO_ANSWER if quantity is not None else (*wording.YES_NO, *wording.NO_ANSWER)
    unit = _unit(case, state)
    return Ask("verification", question.id, remedy.ref, text, options, unit=unit, why=why)


def _gone(case: Case, state: State, question: Question) -> Ask:
    del question
    text = wording.read_out(state.role, wording.ask_gone(complaint.standing(case, state)))
    return Ask("verification", "gone", "", text, wording.GONE)


def _left(case: Case, state: State, question: Question) -> Ask:
    del question
    text = wording.read_out(state.role, wording.ask_left(left_over.described(case, state)))
    return Ask("confirm", "left", "", text, wording.GO_ON_OR_CLOSE)


def _change(case: Case, state: State, question: Question) -> Ask:
    del case, state
    return Ask("confirm", "change", "", wording.ASK_CHANGE, question.options)


def _moved(case: Case, state: State, question: Question) -> Ask:
    del case, state
    return Ask("confirm", "moved", "", question.text, question.options)


def _aimed(case: Case, state: State, question: Question) -> Ask:
    del case
    return Ask("confirm", "aimed", "", wording.read_out(state.role, question.text), question.options)


def _called(case: Case, state: State, question: Question) -> Ask:
    del case, state
    return Ask("confirm", "called", "", question.text, question.options)


def _cause(case: Case, state: State, question: Question) -> Ask:
    del case, state
    return Ask("closing", "cause", "", wording.ASK_CAUSE, question.options)


def _parts(case: Case, state: State, question: Question) -> Ask:
    del question
    parts = closing.parts_at_hand(case, state)
    text = wording.read_out(state.role, wording.ask_parts(parts))
    return Ask("closing", "parts", "", text, wording.which_parts(parts))


def _note(case: Case, state: State, question: Question) -> Ask:
    del case, question
    return Ask("closing", "note", "", wording.ask_note(state.outcome), (wording.NOTHING_TO_ADD,))


_ASKS: dict[str, Callable[[Case, State, Question], Ask]] = {
    "role": _role,
    "site": _site,
    "place": _place,
    "barrels": _barrels,
    "complaint": _complaint,
    "check": _check,
    "fact": _fact,
    "trained": _trained,
    "become": _become,
    "safe": _safe,
    "safe_by": _safe_by,
    "secured": _secured,
    "remedy": _remedy,
    "guard": _guard,
    "step": _step,
    "instead": _instead,
    "stuck": _stuck,
    "early": _early,
    "proof": _proof,
    "gone": _gone,
    "left": _left,
    "change": _change,
    "moved": _moved,
    "aimed": _aimed,
    "called": _called,
    "cause": _cause,
    "parts": _parts,
    "note": _note,
}
KINDS = tuple(_ASKS)
