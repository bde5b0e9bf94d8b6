"""The answers that stand at the end of a session: when, by whom, and what each of them weighs."""

from __future__ import annotations

from dataclasses import dataclass
from math import log10
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence
from assistant.report.model import Believed, Found, LeftOut, ProofCheck, RuledOut
from assistant.report.wording import (
    asked_as,
    not_read_out,
    plain_title,
    repair_question,
    repair_result,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.engine.state import Answer, State
    from assistant.report.exchanges import Reply
    from assistant.report.told import Moment, Told
    from graph import Case

GONE = "gone"  # the question whether a repair helped
MOST_CAUSES = 6
WORTH_NAMING = 0.01  # posterior below which a cause is not listed, or counts as ruled out
LIKELY_ONCE = 0.05  # posterior that a cause must have had to be worth ruling out by name
MOST_RULED_OUT = 8


@dataclass(frozen=True, slots=True)
class Given:
    """An answer with the moment at which it was given."""

    answer: Answer
    moment: Moment


def given(told: Told) -> tuple[Given, ...]:
    """Return the answers that stand, each with the moment that brought it."""
    first = _brought(told)
    return tuple(Given(answer, first[id(answer)]) for answer in told.end.answers)


def _brought(told: Told) -> dict[int, Moment]:
    """Return the moment that brought each answer, by the answer's identity."""
    first: dict[int, Moment] = {}
    for moment in told.moments:
        known = {id(answer) for answer in moment.before.answers}
        first |= {id(answer): moment for answer in moment.after.answers if id(answer) not in known}
    return first


def screened_before(told: Told, asked: Mapping[tuple[str, str], str]) -> tuple[Found, ...]:
    """Return the safety answers of everybody who handed over, where somebody later has answered them anew."""
    first, standing = _brought(told), {id(answer) for answer in told.end.answers}
    handed = (m for m in told.moments if m.before.role and _who(m.before) != _who(m.after))
    given_then = {id(answer): answer for moment in handed for answer in moment.before.answers}
    before = (Given(answer, first[key]) for key, answer in given_then.items() if key not in standing)
    rows = (_found(told.case, each, 0.0, asked) for each in before)
    return tuple(row for row in rows if row.safety)


def _who(state: State) -> tuple[str, str]:
    return state.person, state.role


def found(told: Told, cause: str, asked: Mapping[tuple[str, str], str]) -> tuple[Found, ...]:
    """Return the answers that stand with their weights in decibans for a cause; zeros where there is none.

    `asked` holds the questions of the record, by time and by the check that was open then.
    """
    known = evidence.findings(told.end)
    weights = told.case.explain(known, cause) if cause else (0.0,) * len(known)
    return tuple(
        _found(told.case, each, weight, asked) for each, weight in zip(given(told), weights, strict=True)
    )


def _found(case: Case, each: Given, weight: float, asked: Mapping[tuple[str, str], str]) -> Found:
    answer, moment = each.answer, each.moment
    name = answer.finding.check
    shown = asked.get((moment.at, GONE if name.startswith(evidence.WORK) else name), "")
    ref, question, said, text, safety = _worded(case, answer, moment.before)
    return Found(
        at=moment.at,
        check=name,
        ref=ref,
        title=_name(case, name),
        question=not_read_out(shown) or question,
        answer=said,
        value=answer.value,
        unit=answer.unit,
        text=text,
        role=answer.finding.role,
        person=moment.before.person or moment.after.person,
        asked=bool(shown),
        safety=safety,
        decibans=weight,
    )


def _name(case: Case, check: str) -> str:
    """Return the title of a check, or of the repair that an answer is about."""
    if check.startswith(evidence.WORK):
        return case.remedy(check.removeprefix(evidence.WORK)).title
    return plain_title(case.check(check))


def _worded(case: Case, answer: Answer, state: State) -> tuple[str, str, str, str, bool]:
    """Return an answer's ref, question, answer, number in both systems, and whether it is about safety."""
    name = answer.finding.check
    if name.startswith(evidence.WORK):
        remedy = case.remedy(name.removeprefix(evidence.WORK))
        return remedy.ref, repair_question(remedy.title), _helped(answer), "", False
    check = case.check(name)
    question = check.title if check.kind == "symptom" else asked_as(check, state.role)
    number = ""
    if answer.value is not None and check.reading:
        number = wording.both(answer.value, answer.unit, case.quantity(check.reading).unit)
    return check.ref, question, wording.outcome_label(check, answer.outcome), number, check.phase == "safety"


def _helped(answer: Answer) -> str:
    return repair_result("helped" if answer.outcome == "cured" else "did_not_help")


def said(case: Case, answer: Answer) -> str:
    """Return an answer as one phrase: what was asked and what was said."""
    name = answer.finding.check
    if name.startswith(evidence.WORK):
        remedy = case.remedy(name.removeprefix(evidence.WORK))
        return f"{remedy.title}: {_helped(answer)}"
    return wording.said_of(case.check(name), answer.outcome).replace("?,", ",")


def left_out(told: Told, replied: tuple[Reply, ...]) -> tuple[LeftOut, ...]:
    """Return the questions that got no answer by the end, the last try of each."""
    answered = {answer.finding.check for answer in told.end.answers}
    settled = {name for moment in told.moments for name in moment.after.settled}
    last: dict[str, LeftOut] = {}
    for reply in replied:
        open_check = reply.ask.about in {"check", "symptom"} and told.case.has_check(reply.ask.id)
        if not open_check or reply.ask.id in answered or reply.ask.id not in settled:
            continue
        check = told.case.check(reply.ask.id)
        last[check.id] = LeftOut(
            reply.at, check.id, check.ref, check.title, reply.answer, check.phase == "safety"
        )
    return tuple(last.values())


def prior_and_posterior(told: Told, cause: str) -> tuple[float, float]:
    """Return the log odds of a cause in decibans before any answer and after all of them."""
    if not cause:
        return 0.0, 0.0
    before, now = told.case.believe(()), told.case.believe(evidence.findings(told.end))
    return _decibans(before.cause(cause)), _decibans(now.cause(cause))


def _decibans(p: float) -> float:
    """Return ten times the log odds; the ends are kept off, as `Case.explain` does."""
    p = min(max(p, 1e-300), 1.0 - 1e-16)
    return 10.0 * log10(p / (1.0 - p))


def believed(told: Told) -> tuple[Believed, ...]:
    """Return the leading causes at the end, most probable first."""
    now = told.case.believe(evidence.findings(told.end))
    return tuple(
        Believed(name, told.case.fault(name).ref, told.case.fault(name).title, p)
        for name, p in now.causes[:MOST_CAUSES]
        if p >= WORTH_NAMING
    )


def ruled_out(told: Told) -> tuple[RuledOut, ...]:
    """Return the causes that were likely at some time and are not any more, the likeliest first."""
    case, known = told.case, evidence.findings(told.end)
    peaks: dict[str, float] = {}
    for count in range(len(known) + 1):
        for name, p in case.believe(known[:count]).causes:
            if p < LIKELY_ONCE:
                break  # they come most probable first
            peaks[name] = max(p, peaks.get(name, 0.0))
    now = dict(case.believe(known).causes)
    gone = [name for name in sorted(peaks, key=lambda name: -peaks[name]) if now[name] < WORTH_NAMING]
    return tuple(_ruled_out(told, name, peaks[name], now[name]) for name in gone[:MOST_RULED_OUT])


def _ruled_out(told: Told, name: str, peak: float, now: float) -> RuledOut:
    weights = told.case.explain(evidence.findings(told.end), name)
    most = min(range(len(weights)), key=weights.__getitem__)
    fault = told.case.fault(name)
    because = said(told.case, told.end.answers[most])
    return RuledOut(name, fault.ref, fault.title, peak, now, because, weights[most])


def proof(told: Told, remedy: str) -> tuple[ProofCheck, ...]:
    """Return the checks that a remedy wants on record, with their last answers before it was done."""
    if remedy not in {each.id for each in told.case.machine.remedies}:
        return ()
    before = [each for each in given(told) if remedy not in each.answer.finding.cured]
    by_check = {each.answer.finding.check: each for each in before}
    return tuple(
        _proof(told.case, name, by_check.get(name))
        for name in told.case.remedy(remedy).proof
        if told.case.has_check(name)
    )


def _proof(case: Case, name: str, each: Given | None) -> ProofCheck:
    check = case.check(name)
    if each is None:
        return ProofCheck(name, check.ref, plain_title(check), "", "", "")
    _, _, answer, text, _ = _worded(case, each.answer, each.moment.before)
    return ProofCheck(name, check.ref, plain_title(check), answer, text, each.moment.at)
