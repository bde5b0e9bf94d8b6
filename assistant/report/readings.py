"""The numbers that were read: when, before or after the work, and whether within their limits."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine.events import Chose, Measured, Said
from assistant.engine.procedure import within
from assistant.engine.state import Reading, Stage
from assistant.report.evidence import given
from assistant.report.model import ReadingRow
from assistant.report.told import doing
from graph.errors import GraphError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.engine.events import Event
    from assistant.report.exchanges import Exchange
    from assistant.report.told import Moment, Told
    from graph import Case
    from graph.machine import Limits

_WORK = ("step", "verification")  # what the questions of a repair itself are about


def readings(told: Told, kept: tuple[Exchange, ...]) -> tuple[ReadingRow, ...]:
    """Return every number that was taken, in the order in which it was read.

    `kept` are the exchanges that stand. Where a session is told again, numbers asked for by steps that
    are not gone through again come from there.
    """
    times = {each.at for each in kept}
    rows = [*(row for row in _from_states(told) if row.at in times), *_bands(told)]
    if told.again:
        known = {row.at for row in rows}
        rows += [row for row in _from_record(told.case, kept, _remedy(told)) if row.at not in known]
    order = {each.at: place for place, each in enumerate(told.record.folded)}
    return tuple(sorted(rows, key=lambda row: order.get(row.at, 0)))


def _bands(told: Told) -> Iterator[ReadingRow]:
    """Yield the readings that were answered by the band they lie in, not by a number."""
    worked = {each.at: doing(each.before) or each.before.stage is Stage.PROVING for each in told.moments}
    for each in given(told):
        answer, at = each.answer, each.moment.at
        check = told.case.check(answer.finding.check) if told.case.has_check(answer.finding.check) else None
        if check is None or not check.reading or answer.value is not None:
            continue
        quantity = told.case.quantity(check.reading)
        after = bool(answer.finding.cured) or worked.get(at, False)
        yield ReadingRow(
            at=at,
            quantity=quantity.id,
            title=quantity.title,
            value=None,
            unit=quantity.unit,
            text=wording.outcome_label(check, answer.outcome),
            phase="after" if after else "before",
            limits="",
            within=None,
            role=answer.finding.role,
        )


def _from_states(told: Told) -> Iterator[ReadingRow]:
    worked, remedy = False, _remedy(told)
    for moment in told.moments:
        phase = _phase(moment, worked=worked)
        for reading in _taken(moment):
            yield _row(told.case, moment.at, moment.before.role, reading, phase, remedy)
        worked = worked or doing(moment.after) or moment.after.stage is Stage.PROVING


def _from_record(case: Case, kept: tuple[Exchange, ...], remedy: str) -> Iterator[ReadingRow]:
    """Yield the numbers given to questions that asked for one, as far as the pack knows these questions."""
    worked = False
    for exchange, after in zip_longest(kept, kept[1:]):
        about = exchange.ask.about if exchange.ask is not None else ""
        worked = worked or about in _WORK
        quantity = _asked_for(case, exchange) or _picked(case, after)
        if quantity and isinstance(exchange.event, Measured):
            reading = Reading(quantity, exchange.event.value, exchange.event.unit)
            phase = "during" if about == "step" else "after" if worked else "before"
            yield _row(case, exchange.at, "", reading, phase, remedy)


def _picked(case: Case, after: Exchange | None) -> str:
    """Return the quantity that a number was then said to be of; empty where that was not asked."""
    option = after.event.option if after is not None and isinstance(after.event, Chose) else ""
    return option if option in {each.id for each in case.machine.quantities} else ""


def _asked_for(case: Case, exchange: Exchange) -> str:
    """Return the quantity that a number was given for; empty where the pack does not know it."""
    event, ask = exchange.event, exchange.ask
    if not isinstance(event, Measured) or ask is None:
        return ""
    owner, _, number = ask.id.partition("#")
    index = int(number) - 1 if number.isdecimal() else 0
    steps = [each.steps for each in case.machine.remedies if each.id == owner]
    steps += [each.steps for each in case.machine.gates if each.id == owner]
    proofs = [
        each.verify for each in case.machine.remedies if each.id == owner and ask.about == "verification"
    ]
    read = [items[index].read for items in proofs if index < len(items)]
    read += [items[index].read for items in steps if not proofs and index < len(items)]
    asked = case.check(ask.id).reading if case.has_check(ask.id) else ""
    wanted = event.quantity or next(iter(read), asked)
    return wanted if wanted in {each.id for each in case.machine.quantities} else ""


def _remedy(told: Told) -> str:
    """Return the remedy that was last under way or decided; empty for none."""
    return next((each.after.remedy for each in reversed(told.moments) if each.after.remedy), "")


def _phase(moment: Moment, *, worked: bool) -> str:
    if doing(moment.before):
        return "during"
    return "after" if worked else "before"


def _taken(moment: Moment) -> tuple[Reading, ...]:
    """Return the readings that one event brought, also one that shows the same number as before."""
    new = tuple(each for each in moment.after.readings if each not in moment.before.readings)
    if new or not moment.after.readings or moment.after == moment.before:
        return new
    last = moment.after.readings[-1]
    return (last,) if last.value in _numbers(moment.event) else ()


def _numbers(event: Event) -> tuple[float, ...]:
    match event:
        case Measured():
            return (event.value,)
        case Said():
            return tuple(_number(fact.value) for fact in event.facts if fact.kind == "reading")
    return ()


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return float("nan")


def _row(case: Case, at: str, role: str, reading: Reading, phase: str, remedy: str) -> ReadingRow:
    quantity = case.quantity(reading.quantity)
    limits = (step_limits(case, quantity.id, remedy) if phase == "during" else None) or limits_of(
        case, quantity.id, remedy
    )
    return ReadingRow(
        at=at,
        quantity=quantity.id,
        title=quantity.title,
        value=reading.value,
        unit=reading.unit or quantity.unit,
        text=wording.both(reading.value, reading.unit, quantity.unit),
        phase=phase,
        limits=wording.limits_text(quantity, limits) if limits is not None else "",
        within=_within(case, reading, limits),
        role=role,
        source=_source(case, quantity.id) if phase == "during" else "",
    )


def _source(case: Case, quantity: str) -> str:
    """Return where the limits of one of several things that a step may read come from."""
    gates = (step for gate in case.machine.gates for step in gate.steps)
    named = next((each.source for step in gates for each in step.either if each.quantity == quantity), "")
    return next((each.title for each in case.machine.sources if each.id == named), "")


def step_limits(case: Case, quantity: str, remedy: str) -> Limits | None:
    """Return the limits that a step of a remedy or of a gate sets for what is read there."""
    owners = [each.steps for each in case.machine.remedies if each.id == remedy]
    owners += [each.steps for each in case.machine.gates]
    found = (limits for steps in owners for step in steps for name, limits in step.reads if name == quantity)
    return next((limits for limits in found if limits is not None), None)


def limits_of(case: Case, quantity: str, remedy: str = "") -> Limits | None:
    """Return the limits of a quantity: those of a remedy's verification, else the machine's at rest."""
    if remedy and any(each.id == remedy for each in case.machine.remedies):
        own = (each.limits for each in case.remedy(remedy).verify if each.read == quantity and each.limits)
        found = next(own, None)
        if found is not None:
            return found
    window = case.machine.windows.get(case.quantity(quantity).base)
    return window.static if window is not None else None


def _within(case: Case, reading: Reading, limits: Limits | None) -> bool | None:
    if limits is None:
        return None
    try:
        return within(case, reading.quantity, limits, reading.value, reading.unit)
    except GraphError:
        return None
