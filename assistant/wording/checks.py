"""Questions and tests, their answers in words, and what is said on the way to them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.wording.pieces import both, lower, read_out, sentence, stop, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Caution, Check, Gate, Quantity
    from graph.physics import Quantity as Number
    from graph.physics import WorkOut


def _after(role: str) -> tuple[str, ...]:
    """Return whose wording to use, best first."""
    chains = {
        "helpdesk": ("helpdesk", "operator"),
        "technician": ("technician", "operator"),
        "refrigeration": ("refrigeration", "technician", "operator"),
    }
    return chains.get(role, ("operator",))


def question(check: Check, role: str) -> str:
    """Return a check's question in the wording for a role."""
    who = next((who for who in _after(role) if who in check.ask), "")
    text = check.ask[who] if who else next(iter(check.ask.values()), check.title)
    return text if who == role == "helpdesk" else read_out(role, text)


def with_numbers(text: str, work: WorkOut | None) -> str:
    """Return a question that also says which numbers would do for an answer."""
    if work is None:
        return text
    needed = ", ".join(_wanted(ask) for ask in work.asks if ask.default is None)
    return f"{text} Or give me the numbers, and I work it out: {needed}."


def _wanted(ask: Number) -> str:
    return f"{ask.name} ({ask.label}{f', {ask.unit}' if ask.unit else ''})"


def outcome_label(check: Check, outcome: str) -> str:
    """Return the label of an outcome by id."""
    index = check.outcome_index(outcome)
    return check.outcomes[index].label if index >= 0 else outcome


def named(check: Check) -> str:
    """Return a check's title within a sentence; where it asks, the mark stands behind the place."""
    title, mark, place = check.title.partition("?,")
    return lower(f"{title},{place}?" if mark else check.title)


def said_of(check: Check, outcome: str) -> str:
    """Return an answer in words: a symptom by its title, a check with its outcome's label."""
    title, label = named(check), outcome_label(check, outcome)
    if check.kind == "symptom":
        return title if outcome == "present" else f"{title}? No"
    return f"{title.removesuffix('?')}: {lower(label)}"


def said_of_several(checks: Sequence[Check], outcome: str, barrels: int) -> str:
    """Return an answer that holds at several barrels of a machine that has so many."""
    said = [said_of(check, outcome) for check in checks]
    nameless = {re.sub(r",? barrel \d+( \([^)]*\))?", "", each) for each in said}
    numbers = [check.barrel for check in checks if check.barrel is not None]
    if len(nameless) != 1 or len(numbers) != len(checks) or len(checks) == 1:
        return "; ".join(said)
    where = "every barrel" if len(set(numbers)) == barrels else f"barrels {' and '.join(map(str, numbers))}"
    return f"{nameless.pop()}, {where}"


def said_of_any(check: Check, outcome: str) -> str:
    """Return an answer of a check that stands once per barrel or sensor, before it is known which."""
    said = said_of(check, outcome)
    nameless = re.sub(r",? barrel \d+( \([^)]*\))?", "", said)
    if nameless == said:
        return f"{said} (or another one of the kind)"
    said_so = re.search(r"\bone (barrel|flavour|side)\b", nameless)
    return nameless if said_so else f"{nameless}, on one barrel"


def reading(quantity: Quantity, value: float, unit: str) -> str:
    """Return a reading in words, in both systems where there are two."""
    return f"{lower(quantity.title)}: {both(value, unit, quantity.unit)}"


def remark(check: Check, text: str) -> Tell:
    return tell("remark", stop(text), check.id, check.ref)


def never_mind(choice: str) -> Tell:
    return tell(
        "taken",
        "No matter, I leave that out." if choice == "unsure" else "That's fine. I won't ask it again.",
    )


def conflict(check: Check, outcome: str) -> Tell:
    said = said_of(check, outcome)
    text = f'The answers do not fit together well. "{sentence(said)}" fits least. Let me ask that again.'
    return tell("conflict", text, check.id, check.ref)


def before_check(check: Check) -> str:
    return f"before this check: {lower(check.title)}"


def next_check(check: Check) -> Tell:
    """Return what comes next, before the cautions and gates on the way to it."""
    return tell("next", f"Next: {stop(named(check))}", check.id, check.ref)


def gate_title(gate: Gate, of: str) -> Tell:
    """Return how a gate begins; `of` is the step that the gate is all of, empty where work follows it."""
    head = f"{stop(of)} Step by step" if of else "First, step by step"
    return tell("gate", f"{head}: {lower(gate.title)}.", gate.id, gate.ref)


def put_back(of: Gate | Check, *, leaving: bool = False) -> Tell:
    """Return how what a gate or a check shut, switched off or unplugged is put back."""
    when = "Before you leave it" if leaving else "Before you go on"
    return tell("put_back", f"{when}: {lower(stop(of.undo))}", of.id, of.ref)


def not_past_gate(check: Check, cannot: str) -> Tell:
    own = f" {stop(cannot)}" if cannot else ""
    text = (
        f"Then that check is not begun, nor anything else that needs the same.{own} Say /again if it can be."
    )
    return tell("stopped", text, check.id, check.ref)


def acknowledge(caution: Caution) -> str:
    return f"{sentence(caution.title)}. Is that understood, and can you keep to it?"


def asking_again(check: Check) -> Tell:
    return tell("taken", f"Again, then: {lower(check.title).rstrip('?')}.", check.id, check.ref)


def asked_afterwards(check: Check) -> Tell:
    text = f"I ask that again when this work is over: {lower(check.title).rstrip('?')}."
    return tell("taken", text, check.id, check.ref)
