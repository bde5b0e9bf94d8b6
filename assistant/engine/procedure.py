"""A remedy or a check as one list of items, in the order in which they must be gone through.

The rule that this file keeps: a caution comes before what needs it, a gate's steps come before the step
they guard, and every item carries the roles that may see it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from assistant import wording
from assistant.clock import clock_after, minutes_between
from assistant.engine import evidence
from assistant.engine.state import Question, State, once
from graph.candidates import may_do
from graph.units import convert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from assistant.engine.effects import Effect
    from assistant.engine.state import Reading
    from graph import Case
    from graph.machine import Check, Limits, Remedy, Step


MUCH_TOO_EARLY = 0.5  # of the time that a step takes
Verdict = Literal["pass", "fail", "ask"]


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to go through; kind: caution, title (of a gate), gate (a step of it), step (a remedy's)."""

    kind: str
    id: str  # caution id, or "owner#number" of a step
    roles: tuple[str, ...]
    step: Step | None = None  # of a title: the step that the gate is all of


def of_remedy(case: Case, remedy: Remedy) -> tuple[Item, ...]:
    """Return everything to go through in a remedy."""
    return (
        *(Item("caution", name, remedy.by) for name in remedy.cautions),
        *_steps(case, remedy.id, remedy.steps, remedy.by, "step", ()),
    )


def of_check(case: Case, check: Check, passed: tuple[str, ...] = ()) -> tuple[Item, ...]:
    """Return everything to go through before a check may be asked, less the gates that still hold.

    A safety question has no caution before it: asking is harmless, and its cautions come with the
    answers that call for them.
    """
    gates = (name for name in check.gates if name not in passed)
    cautions = () if check.phase == "safety" else check.cautions
    return (
        *(Item("caution", name, check.roles) for name in cautions),
        *(item for name in gates for item in _gate(case, name, check.roles, ())),
    )


def _gate(
    case: Case, name: str, allowed: tuple[str, ...], path: tuple[str, ...], of: Step | None = None
) -> Iterator[Item]:
    if name in path:  # a gate that leads back to itself has been passed on the way
        return
    gate = case.gate(name)
    yield Item("title", gate.id, allowed, of)
    yield from (Item("caution", caution, allowed) for caution in gate.cautions)
    yield from _steps(case, gate.id, gate.steps, allowed, "gate", (*path, name))


def _steps(
    case: Case,
    owner: str,
    steps: tuple[Step, ...],
    allowed: tuple[str, ...],
    kind: str,
    path: tuple[str, ...],
) -> Iterator[Item]:
    for number, step in enumerate(steps, start=1):
        own = step.roles or allowed
        name = f"{owner}#{number}"
        yield from (Item("caution", caution, own) for caution in step.cautions)
        if step.gate:
            yield from _gate(case, step.gate, own, path, step if step.by_gate else None)
        if not step.by_gate:  # else the gate is all there is to it
            yield Item(kind, name, own, step)


def walk(case: Case, state: State, items: tuple[Item, ...], at: int) -> tuple[State, int, tuple[Effect, ...]]:
    """Go on from position `at` to the next item that needs an answer, or that this role may not see.

    Returns the state (cautions shown count as such), the new position and what to show on the way;
    a position past the end means that all is done.
    """
    shown: list[Effect] = []
    while at < len(items) and may_do(state.role, items[at].roles):
        item = items[at]
        if item.kind == "title":
            of = item.step.do if item.step is not None else ""
            shown.append(wording.gate_title(case.gate(item.id), of))
        elif item.kind == "caution":
            caution = case.caution(item.id)
            if item.id not in state.warned:
                shown.append(wording.warn(caution))
                if caution.acknowledge and item.id not in state.sworn:
                    break
                state = replace(state, warned=once(state.warned, item.id))
        else:
            break
        at += 1
    return state, at, tuple(shown)


def understood(state: State, caution: str) -> State:
    """Return the state with a caution acknowledged: shown for the work at hand, sworn for the visit."""
    return replace(state, warned=once(state.warned, caution), sworn=once(state.sworn, caution))


def within(case: Case, quantity: str, limits: Limits | None, value: float, unit: str) -> bool:
    """Return whether a reading lies within limits, which stand in the quantity's own unit.

    Raises GraphError for a unit that does not fit.
    """
    number = convert(value, unit, case.quantity(quantity).unit) if unit else value
    low, high = limits or (None, None)
    return (low is None or number >= low) and (high is None or number <= high)


def verdict(case: Case, state: State, item: Item) -> Verdict:
    """Return whether the number that an item asks for settles it.

    A number outside its limits fails; one inside passes, unless a question must be answered too.
    """
    step, found = item.step, taken(state, item)
    if step is None or found is None:
        return "ask"
    reading, limits = found
    if not within(case, reading.quantity, limits, reading.value, reading.unit):
        return "fail"
    return "ask" if step.confirm else "pass"


def taken(state: State, item: Item) -> tuple[Reading, Limits | None] | None:
    """Return what was read for an item since it was reached, with its limits; None for nothing."""
    for quantity, limits in item.step.reads if item.step is not None else ():
        found = evidence.fresh_reading(state, quantity)
        if found is not None:
            return found, limits
    return None


def begun(items: tuple[Item, ...], at: int) -> bool:
    """Return whether a step of the work itself comes before position `at`."""
    return any(item.kind == "step" for item in items[:at])


def barrier(case: Case, items: tuple[Item, ...], at: int) -> tuple[str, ...]:
    """Return the caution or gate that stands in the way at position `at`; none where it is plain work.

    A gate bars what lies behind it where it comes before all work, or where it makes something safe that is
    put back later. One that ends the work (cleaning, the return to service) bars nothing else.
    """
    item = items[at]
    if item.kind != "gate":
        return (item.id,) if item.kind == "caution" else ()
    gate = item.id.partition("#")[0]
    return (gate,) if case.gate(gate).undo or not begun(items, at) else ()


def barred(state: State, items: tuple[Item, ...]) -> bool:
    """Return whether the person here has refused a caution or a gate among some items."""
    return any(item.kind in {"caution", "title"} and item.id in state.refused for item in items)


def asked(state: State, item: Item, kind: str) -> State:
    """Return the state with an item asked about; when it was first shown is kept."""
    begun = state if state.step == item.id else replace(state, step=item.id, since=state.now)
    return replace(begun, open=Question(kind, item.id))


def too_soon(state: State, item: Item) -> bool:
    """Return whether an item that takes its time is said to be done much too early, for the first time."""
    wait = item.step.wait if item.step is not None else 0.0
    if not wait or item.id in state.hurried or state.step != item.id:
        return False
    elapsed = minutes_between(state.since, state.now)
    return elapsed is not None and elapsed < wait * MUCH_TOO_EARLY


def until(state: State, item: Item) -> str:
    """Return what the clock says when an item's time is over; empty where that is not known."""
    wait = item.step.wait if item.step is not None else 0.0
    return clock_after(state.since, wait, state.zone) if wait and state.step == item.id else ""


def step_named(case: Case, name: str) -> Step:
    """Return the step that an item's id ("owner#number") names."""
    owner, _, number = name.partition("#")
    steps = case.gate(owner).steps if owner.startswith("gate.") else case.remedy(owner).steps
    return steps[int(number) - 1]


def number_missing(state: State, item: Item) -> bool:
    """Return whether an item must not be passed before its number has been read."""
    wanted = item.step is not None and any(limits for _, limits in item.step.reads)
    return wanted and taken(state, item) is None
