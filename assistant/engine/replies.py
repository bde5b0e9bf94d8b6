"""Who takes the reply to which kind of question: one table for choices, one for free words."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from assistant import wording
from assistant.engine import (
    aiming,
    asking,
    branching,
    calling,
    changing,
    checking,
    closing,
    confirming,
    danger,
    deciding,
    handing,
    intake,
    learning,
    listening,
    moving,
    placing,
    proving,
    sizing,
    stuck,
    timing,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.effects import Option
    from assistant.engine.state import State, Turn
    from graph import Case


class TakesWords(Protocol):
    """Takes a line as it was typed; `understood` says whether it told something about the machine."""

    def __call__(self, case: Case, state: State, text: str, *, understood: bool) -> Turn:
        """Return the state after the line."""
        ...


REPLIES: dict[str, Callable[[Case, State, str], Turn]] = {
    "role": intake.take_role,
    "site": intake.take_site,
    "place": placing.take,
    "barrels": sizing.take,
    "complaint": listening.skipped,
    "check": checking.take,
    "fact": confirming.take,
    "trained": deciding.take_trained,
    "become": handing.take_role,
    "safe": danger.take_safe,
    "safe_by": danger.take_safe_by,
    "secured": learning.take_secured,
    "remedy": deciding.take_offer,
    "guard": branching.take_guard,
    "step": branching.take_step,
    "instead": branching.take,
    "stuck": stuck.take,
    "early": timing.take,
    "proof": proving.take,
    "gone": proving.take_gone,
    "left": proving.take_left,
    "change": changing.take,
    "moved": moving.take,
    "aimed": aiming.take,
    "called": calling.take,
    "cause": closing.take_cause,
    "parts": closing.take_parts,
    "note": closing.take_note,
}

WORDS: dict[str, TakesWords] = {
    "site": intake.site_told,
    "complaint": listening.told,
    "parts": closing.parts_told,
    "note": closing.note_told,
    "safe": danger.told,
    "safe_by": danger.safe_by_told,
}

ALWAYS = ("yes", "no", "unsure", "cannot", "skip")  # may be said to any question


def reply(case: Case, state: State, choice: str) -> Turn:
    """Take a choice as the reply to the open question."""
    if state.open is None:
        return state, (wording.nothing_asked(),)
    return REPLIES[state.open.kind](case, state, choice)


def picked(case: Case, state: State, words: str) -> str:
    """Return the id of the option that some words pick by id, ref, label or number; empty for none."""
    if state.open is None:
        return ""
    options = asking.ask(case, state, state.open).options
    wanted = plain(words)
    named = (option.id for option in options if wanted in _names(option))
    numbered = {str(number): option.id for number, option in enumerate(options, start=1)}
    return next(named, "") or numbered.get(wanted, "") or (wanted if wanted in ALWAYS else "")


def plain(words: str) -> str:
    """Return some words without case, doubled blanks and what ends a sentence."""
    return " ".join(words.casefold().split()).strip(" .!,;:)")


def _names(option: Option) -> tuple[str, ...]:
    return tuple(plain(name) for name in (option.id, option.ref, option.label) if name)


def asked_anew(before: State, after: State) -> State:
    """Return the state with its question to be asked anew, if anything was learnt meanwhile."""
    if after.open is None or after.open.kind in {"role", "stuck", *WORDS} or after == before:
        return after
    return replace(after, open=None)
