"""What is said of danger: cautions, the safety screen, and while all is stopped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine.effects import Warn
from assistant.wording.pieces import lower, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Caution

SAFETY_FIRST = "safety comes before anything else"
MAKE_SAFE = "The danger comes first"


def warn(caution: Caution, *, stop: bool = False) -> Warn:
    return Warn(caution.id, caution.ref, caution.title, caution.do, caution.do_not, caution.who, stop=stop)


def look_again() -> Tell:
    return tell("safety", "This has to be clear before we go on. Please look once more, from a safe place.")


def hazard_noted() -> Tell:
    return tell("safety", "I take it as not cleared. Keep to the caution; whoever comes next will see it.")


def safety_stays() -> Tell:
    return tell("refused", "Safety questions can't be skipped. If you don't know, say so.")


def ask_safe(cautions: Sequence[Caution]) -> str:
    names = "; ".join(lower(caution.title) for caution in cautions)
    who = "; ".join(dict.fromkeys(caution.who.rstrip(".") for caution in cautions))
    return f"We stop here: {names}. Is it safe now? That is for these to say: {who}."


def still_halted() -> Tell:
    text = "Then nobody goes in. If anyone is unwell, ring the emergency number. Tell me when it is safe."
    return tell("safety", text)


def while_halted(caution: Caution) -> Tell:
    return tell("safety", f"I can't go into that now. {caution.do_not or caution.do}")


def safe_again() -> Tell:
    return tell("safety", "Good. We go on where we were. If anything changes, say so at once.")


def not_in_danger() -> Tell:
    return tell("refused", "Not while there is danger. You can say that it is safe, hand over, note or stop.")


def danger_reasons(complaint: str) -> tuple[str, ...]:
    told = (f"The complaint was: {complaint}",) if complaint else ()
    return ("A danger was reported and has not been cleared.", *told)
