"""Closing: the true cause as it was found, a note, and what to watch for."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence, left_over, putting_back, roles
from assistant.engine.effects import Closed, Decide, Option
from assistant.engine.state import Question, Stage, State, Turn, answered, once
from graph.service import done_by, standings

if TYPE_CHECKING:
    from graph import Case

LONGEST_NOTE = 600  # characters
MOST_CAUSES = 6
OTHER, ALL = "other", "all"
NO_PARTS = ("", "none", "no", "nothing")  # words for no part at all
LONGEST_PART = 60  # characters of a part that the pack does not know
DONE = ("cured", "cured_for_now")  # ends after which the work itself is done


def ask_next(case: Case, state: State) -> Turn:
    """Ask which cause was found, where that is open, which parts were used, then for a note."""
    options = _causes(case, state)
    if options:
        return replace(state, open=Question("cause", "cause", (*options, wording.OTHER_CAUSE))), ()
    if state.outcome in DONE and not state.counted and parts_at_hand(case, state):
        return replace(state, open=Question("parts", "parts")), ()
    return replace(state, open=Question("note", "note")), ()


def _causes(case: Case, state: State) -> tuple[Option, ...]:
    """Return the causes that a hands-on person may have seen: those that the remedy deals with."""
    if state.outcome != "cured" or state.role in roles.BY_PHONE or state.seen:
        return ()
    now = case.believe(evidence.findings(state))
    found = [case.fault(name) for name, _ in now.causes if case.fault(name).remedy == state.remedy]
    if len(found) < 2:  # noqa: PLR2004 - one cause is no question
        return ()
    return tuple(Option(fault.id, fault.title, fault.ref) for fault in found[:MOST_CAUSES])


def take_cause(case: Case, state: State, choice: str) -> Turn:
    """Take the cause that was found; anything else leaves the most probable one."""
    known = {fault.id for fault in case.machine.faults}
    cause = choice if choice in known else "" if choice == OTHER else state.cause
    return replace(answered(state), cause=cause, seen=True), ()


def parts_at_hand(case: Case, state: State) -> tuple[str, ...]:
    """Return the parts of the repairs that were done, each once, in their order."""
    done = (*state.cured, *((state.remedy,) if state.remedy else ()))
    return once((), *(part for name in done for part in case.remedy(name).parts))


def take_parts(case: Case, state: State, choice: str) -> Turn:
    """Take the parts that were used: all, none, or one; anything else leaves it open which."""
    parts = parts_at_hand(case, state)
    used = {"yes": parts, ALL: parts}.get(choice, (choice,) if choice in parts else ())
    return replace(answered(state), used=used, counted=True), ()


def parts_told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Take parts in a person's words: those of the pack by id, what it does not know as it was called."""
    del understood
    known = {part.replace("_", " "): part for part in parts_at_hand(case, state)}
    named = (" ".join(each.split()) for each in re.split(r",|;|\+|&|\band\b", text.casefold()))
    called = (each.removeprefix("the ").removeprefix("a ") for each in named if each not in NO_PARTS)
    used = once((), *(known.get(each, each[:LONGEST_PART]) for each in called))
    return replace(answered(state), used=used, counted=True), ()


def note_told(case: Case, state: State, text: str, *, understood: bool) -> Turn:
    """Take a line as the closing note, cut to its longest."""
    del understood
    note = text.strip()
    cut = (wording.note_cut(LONGEST_NOTE),) if len(note) > LONGEST_NOTE else ()
    state, shown = closed(case, replace(answered(state), closing_note=note[:LONGEST_NOTE]))
    return state, (*cut, *shown)


def take_note(case: Case, state: State, choice: str) -> Turn:
    """Close without a note."""
    return (state, (wording.write_it(),)) if choice == "yes" else closed(case, answered(state))


def closed(case: Case, state: State) -> Turn:
    """Close the session with its outcome, its cause and what to watch for."""
    cause = case.fault(state.cause) if state.cause else None
    remedy = case.remedy(state.remedy) if state.remedy else None
    text = " ".join(
        filter(
            None,
            (
                wording.closing(state.outcome, cause, remedy, state.role),
                wording.left_open(left_over.described(case, state)) if state.outcome in DONE else "",
                _next_service(case, state),
            ),
        )
    )
    end = Closed(state.outcome, state.cause, cause.ref if cause is not None else "", text, state.used)
    return replace(state, stage=Stage.CLOSED, open=None, paused=state.stage), (end,)


def _next_service(case: Case, state: State) -> str:
    """Return what service comes next on this machine; what was done today counts."""
    machine = case.machine
    done = (*state.cured, *((state.remedy,) if state.remedy and state.outcome in DONE else ()))
    today = done_by(machine.services, (case.remedy(name).base for name in done))
    return wording.next_service(
        standings(machine.services, {**dict(state.serviced), **dict.fromkeys(today, 0.0)})
    )


def stopped(case: Case, state: State) -> Turn:
    """Close the session before its end; a danger that was not cleared is handed on first."""
    outcome = "made_safe" if state.stage is Stage.HALTED else "stopped"
    state, back = (state, ()) if state.halts else putting_back.put_back(case, state, leaving=True)
    paused, dangers = state.stage, tuple(case.caution(name) for name in state.halts)
    shown = (_make_safe(state, tuple(c.do for c in dangers), dangers[0].who),) if dangers else ()
    state, end = closed(case, replace(state, outcome=outcome))
    return replace(state, paused=paused), (*back, *shown, *end)


def _make_safe(state: State, todo: tuple[str, ...], who: str) -> Decide:
    urgency = wording.urgency("hazard")
    reasons = wording.danger_reasons(state.complaint)
    return Decide("make_safe", "", "", wording.MAKE_SAFE, 0.0, who, (), (), reasons, (), urgency, todo)
