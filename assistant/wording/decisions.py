"""What is to be done, by whom and why: decisions and offers."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.wording.pieces import lower, minutes, percent, read_out, stop, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Cause, Tell
    from graph.machine import Remedy

NOT_IN_GRAPH = "I don't know this one"
NOTHING_WRONG = "Nothing seems to be wrong with the machine"
_REASONS = MappingProxyType(
    {
        "certain": "That is sure enough to act on.",
        "cheaper": "Trying it now costs less than asking on.",
        "no_check_changes_it": "No question left would change what to do.",
        "worth_a_try": "Enough has been asked; trying this costs less than sending somebody.",
        "asked_enough": "Enough has been asked; this is more likely than not.",
        "not_yours": "The next step belongs to somebody else.",
        "not_begun": "It could not be begun with the people who are there now.",
        "not_finished": "It was begun, and could not be finished with the people who are there now.",
    }
)


def reasons(reason: str, probable: Cause | None, second: Cause | None, share: float) -> tuple[str, ...]:
    """Return why this is decided: the likely cause, the next likely one, and the rule that decided.

    The figure of the first stands at the head of the decision; `share` is the second one's, zero where
    the same repair helps with both.
    """
    found = []
    if probable is not None:
        found.append(f"Most likely: {lower(probable.title).rstrip('.')}.")
    if second is not None:
        other = lower(second.title)
        found.append(
            f"Second: {other} ({percent(share)})." if share else f"Or, put right in the same way: {other}."
        )
    return (*found, *((_REASONS[reason],) if reason in _REASONS else ()))


def unknown_reasons(ruled_out: Sequence[str], asked: int, unexplained: str) -> tuple[str, ...]:
    """Return what an honest "I don't know" rests on.

    `asked` is how many questions were asked where that is why it ends, `unexplained` a complaint that
    nothing here covers.
    """
    text = "The answers fit no cause that I know better than chance."
    if asked:
        text = f"I have asked {asked} questions, and no cause stands out. More of them would hardly help."
    named = (f'Nothing that I know explains: "{unexplained}".',) if unexplained else ()
    out = (f"Ruled out: {'; '.join(lower(name) for name in ruled_out)}.",) if ruled_out else ()
    return (text, *named, *out)


def nothing_reasons() -> tuple[str, ...]:
    return ("All answers are what a healthy machine shows.",)


_URGENCY = MappingProxyType(
    {
        "hazard": "at once: safety",
        "number": "soon: a number is wrong, but the drinks are not",
    }
)


def urgency(what: str) -> str:
    """Return how soon somebody must come: for a hazard, or only a number."""
    return _URGENCY[what]


def urgency_of(how_many: str, barrels: Sequence[str], *, shared: bool, known: bool) -> str:
    """Return how soon somebody must come, by how many barrels are said to be affected.

    `shared`: whether the likely cause is one for all barrels; `known`: whether there is a likely cause.
    """
    if how_many == "all":
        return "today: every barrel is affected"
    named = " and ".join(barrels) or "not every barrel"
    verb = "are" if len(barrels) > 1 else "is"
    if how_many == "some" and shared and known:
        return f"today: {named} {verb} affected so far, but the cause is one for all barrels"
    if how_many == "some":
        return f"soon: {named} {verb} affected, as far as is told"
    if not known:
        return "today: nobody knows yet how far it goes"
    return "today: the cause may touch every barrel" if shared else "soon: the cause is at one barrel"


def may_serve(how_many: str, barrels: Sequence[str]) -> str:
    """Return what may be served meanwhile, by how many barrels are said to be affected."""
    if how_many == "none":
        return "The drinks may be served as long as they come out right."
    if how_many == "all":
        return "Serve nothing that does not come out right."
    named = " and ".join(barrels)
    leave = f"Leave {named} off" if named else "Leave the barrels off that are affected"
    return f"{leave}; the others may go on as long as their drink is right."


def barrel_named(number: int, flavour: str) -> str:
    return f"barrel {number} ({flavour})" if flavour else f"barrel {number}"


def offer(remedy: Remedy, role: str) -> str:
    """Return the offer of a repair, with the time it takes."""
    plain = remedy.plain if role in {"operator", "helpdesk"} else remedy.title
    return f"{read_out(role, stop(plain))} It takes {minutes(remedy.minutes)}. Shall we do it now?"


def offer_why(causes: Sequence[Cause], role: str) -> str:
    del role
    if not causes:
        return ""
    first = f"most likely {lower(causes[0].title)}"
    return first if len(causes) == 1 else f"{first}; second {lower(causes[1].title)}"


def ask_trained(remedy: Remedy, role: str) -> str:
    who = "Has the person at the machine" if role == "helpdesk" else "Have you"
    return f"{who} been trained for this work: {lower(remedy.title)}?"


def declined(remedy: Remedy) -> Tell:
    return tell("taken", f"Then not: {lower(remedy.title)}.", remedy.id, remedy.ref)


def record_first(remedy: Remedy) -> Tell:
    text = f"Before that is decided ({lower(remedy.title)}), something must be seen and written down."
    return tell("decision", text, remedy.id, remedy.ref)
