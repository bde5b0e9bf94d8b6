"""The last words: the cause, the note, how it ended."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.engine.effects import Option
from assistant.wording.pieces import lower, sentence, spelled, stop, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Fault, Remedy

ASK_CAUSE = "Which cause did you find?"


def ask_parts(parts: Sequence[str]) -> str:
    """Return which parts were really fitted, not only planned."""
    if len(parts) == 1:
        return f"Was a new part fitted: {spelled(parts)[0]}?"
    return f"Which new parts were fitted, if any: {', '.join(spelled(parts))}? Name several with commas."


def which_parts(parts: Sequence[str]) -> tuple[Option, ...]:
    """Return the answers: none, each by itself where there are several, all; a repair often needs no part."""
    if len(parts) == 1:
        return (
            Option("none", "No, nothing was replaced"),
            Option("all", "Yes"),
            Option("unsure", "Not sure"),
        )
    each = (Option(part, sentence(name)) for part, name in zip(parts, spelled(parts), strict=True))
    none = Option("none", "None: nothing was replaced")
    return (none, *each, Option("all", "All of them"), Option("unsure", "Not sure"))


def ask_note(outcome: str) -> str:
    if outcome in {"visit", "referred", "not_found"}:
        return "Anything that whoever comes should know: access, keys, opening hours?"
    return "Anything to add for the record?"


def write_it() -> Tell:
    return tell("ignored", "Then write it here, up to 600 characters.")


def note_cut(longest: int) -> Tell:
    return tell("note", f"That is longer than {longest} characters; I keep the first {longest}.")


_ENDS = MappingProxyType(
    {
        "cured": "Put right.",
        "cured_for_now": "Put right for now; not proved yet.",
        "made_safe": "Stopped for safety. The danger is not cleared yet: keep everybody away from it.",
        "visit": "Somebody comes to the machine.",
        "referred": "Handed on to those whose work it is.",
        "not_found": "No cause was found.",
        "stopped": "Stopped here. Nothing is lost; it can go on from here.",
    }
)


_COMES_BACK = MappingProxyType(
    {
        "operator": "If it comes back, call again and say what has changed since today.",
        "helpdesk": "If it comes back, they should call again and say what has changed since today.",
    }
)
_TELL_THEM = "Tell the people here to call if it comes back, and to say what has changed since today."


def closing(outcome: str, cause: Fault | None, remedy: Remedy | None, role: str) -> str:
    """Return the last words: how it ended, the cause, and what to watch for."""
    parts = [_ENDS.get(outcome, "The session is over.")]
    if cause is not None and outcome in {"cured", "cured_for_now"}:
        parts.append(f"Cause: {stop(lower(cause.title))}")
    if cause is not None and outcome in {"visit", "referred"}:
        parts.append(f"Most likely: {stop(lower(cause.title))}")
    if remedy is not None and remedy.serve and outcome in {"visit", "referred"}:
        parts.append(stop(remedy.serve))
    if outcome == "cured":
        parts.append(_COMES_BACK.get(role, _TELL_THEM))
    return " ".join(parts)
