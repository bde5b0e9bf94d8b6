"""Every sentence and label of reports, notes, briefs and work sheets.

What was asked and answered comes from the record, what parts and causes are called from the pack.
"""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant import wording as talk
from assistant.shell_wording import decision_head

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from assistant.engine.effects import Decide
    from assistant.report.model import Item, ReadingRow, ServiceRow
    from graph.machine import Check

OUTCOMES: Mapping[str, str] = MappingProxyType(
    {
        "cured": "Put right",
        "cured_for_now": "Put right for now, not proved yet",
        "made_safe": "Made safe and waiting: the danger is not cleared",
        "visit": "A visit is needed",
        "referred": "Handed on to those whose work it is",
        "not_found": "No cause found",
        "stopped": "Stopped before its end",
        "open": "Not finished",
    }
)
RESULTS: Mapping[str, str] = MappingProxyType(
    {
        "helped": "it helped",
        "for_now": "too early to say",
        "did_not_help": "it did not help",
        "stopped": "stopped, not possible here",
        "handed_over": "left to somebody else",
        "open": "not finished",
    }
)
PHASES: Mapping[str, str] = MappingProxyType(
    {"before": "before the work", "during": "during the work", "after": "after the work"}
)
PAUSES: Mapping[str, str] = MappingProxyType({"gap": "nobody at it", "stopped": "session stopped"})
_NEXT_CONTACT: Mapping[str, str] = MappingProxyType(
    {
        "cured_for_now": "Look again before the next busy hour, and say whether it lasted.",
        "made_safe": "At once: nothing is used until the danger is cleared.",
        "visit": "When the visit is done: the session goes on from here.",
        "referred": "When those whose work it is have been.",
        "not_found": "When somebody else has looked: the session goes on from here.",
        "stopped": "When the session goes on.",
        "open": "The session is open: it goes on from here.",
    }
)
DUE: Mapping[str, str] = MappingProxyType({"overdue": "OVERDUE", "due": "due now", "ahead": "ahead"})
NOT_DONE = "Not done"
NOT_CLEANED = "Nothing is served from it before it is cleaned and sanitised"
CALL_BACK = "Call back within the day and ask whether every barrel serves."
COMES_BACK = "If it comes back, call again and say what has changed since today."
NO_SERVICE = "not set in this session"
NEXT_SERVICE = "next service"  # a note that begins so says when
STOP_HERE = "Stop here. Leave shut what is shut and off what is off."

_READ_OUT = talk.read_out("helpdesk", "\0").split("\0")


def not_read_out(text: str) -> str:
    """Return a sentence without the frame that asks an agent to read it out."""
    head, tail = _READ_OUT
    framed = text.startswith(head) and text.endswith(tail)
    return text[len(head) : len(text) - len(tail)] if framed else text


# What a step says for the moment only: until when to wait, and what to do meanwhile.
_UNTIL = re.compile(r"( Allow [^.]*? for it), until [^.]*\.")
_MEANWHILE = re.compile(r" (?:Let them call back|You need not sit by it)\b[^\n]*$")


def gone_through(text: str) -> str:
    """Return a step as it was shown, without what was meant for the moment only."""
    return not_read_out(_UNTIL.sub(r"\1.", _MEANWHILE.sub("", text)))


def plain_title(check: Check) -> str:
    """Return a check's title as a name: no question mark, wherever the barrel stands."""
    return check.title.rstrip("?").replace("?,", ",")


def asked_as(check: Check, role: str) -> str:
    """Return a check's question in the wording for a role."""
    return not_read_out(talk.question(check, role))


def repair_question(title: str) -> str:
    """Return what a repair asks of the machine."""
    return f"Did it help: {title}?"


def repair_result(result: str) -> str:
    """Return what came of a repair, as a sentence begins."""
    return talk.sentence(RESULTS.get(result, result))


def outcome(name: str) -> str:
    """Return how a session ended."""
    return OUTCOMES.get(name, name.replace("_", " "))


def next_contact(name: str, *, called: bool) -> str:
    """Return when somebody should look or call again."""
    if name == "cured":
        return CALL_BACK if called else "Only if it comes back."
    return _NEXT_CONTACT.get(name, "")


def decision(decide: Decide) -> str:
    """Return a decision's head line."""
    return decision_head(decide)


def told_again() -> str:
    """Return how to read a report of a record that no longer replays."""
    return "What was said and done stands here as recorded; beliefs and weights are reckoned anew."


def not_folded(count: int) -> str:
    """Return that the program broke on events, which therefore count for nothing."""
    events = "1 event is" if count == 1 else f"{count} events are"
    return f"{events} left out, because the program broke on it."


def minutes(value: float) -> str:
    """Return a duration in whole minutes."""
    if value < 1:
        return "under 1 min"
    hours, rest = divmod(round(value), 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


TAKEN_BACK = "taken back"
NOTHING_NOW = "nothing is complained of now"


def decibans(value: float) -> str:
    """Return a weight of evidence with its sign, to a tenth."""
    return f"{value:+.1f}" if abs(value) >= 0.05 else "0.0"  # noqa: PLR2004 - half of the last place


def spelled(names: tuple[str, ...]) -> str:
    """Return parts or tools as people write them."""
    return ", ".join(talk.spelled(names))


def weighing(title: str, prior: float, safety: float, posterior: float) -> str:
    """Return what the weights are about and what they add up to."""
    return (
        f"Weights in decibans for: {title}. Before any answer {decibans(prior)}, safety answers together "
        f"{decibans(safety)}, after all answers {decibans(posterior)}; 10 decibans are odds of ten to one."
    )


def ruled_out(because: str, weight: float) -> str:
    """Return why a cause is ruled out."""
    return f"{because} ({decibans(weight)})"


def rank(place: int, probability: float) -> str:
    """Return which place the cause had when work was first decided."""
    return f"place {place} of the list ({talk.percent(probability)}) when it was decided"


def next_service(service: Sequence[ServiceRow]) -> str:
    """Return what service comes next: all that is overdue, else what falls due first."""
    late = [f"{each.title}, overdue since {each.due}" for each in service if each.state == "overdue"]
    if late:
        return "; ".join(late)
    return next((f"{each.title}, {each.due}" for each in service), NO_SERVICE)


def strength(row: ReadingRow, source: str) -> str:
    """Return a reading of the sanitiser with its limits, where they come from, and the verdict."""
    rests = f"; {source}" if source else ""
    verdict = "not judged" if row.within is None else "within limits" if row.within else "OUT OF LIMITS"
    return f"{row.text} ({row.limits or 'no limits'}{rests}): {verdict}"


def parts(names: Sequence[str] | None) -> str:
    """Return the parts that were used, or that none was, or that nobody said."""
    if names is None:
        return "not said"
    return spelled(tuple(names)) or "none"


def steps_done(items: Sequence[Item], first: str, last: str) -> str:
    """Return how many of the steps of cleaning were done, and from when to when."""
    done = sum(item.done for item in items)
    return f"{done} of {len(items)} done, {first} to {last}" if items else "none"


def hygiene(complete: bool) -> str:  # noqa: FBT001 -- the fact itself
    """Return whether the way of the drink was cleaned as it must be."""
    if complete:
        return "The product path was opened; cleaning and sanitising are recorded step by step."
    return "The product path was opened; cleaning and sanitising are NOT fully recorded."


def sheet_refused(title: str, role: str, send: str) -> str:
    """Return why a work sheet is not printed for a role."""
    return f'"{title}" is not for the {role} to do; send the {send}, or name another role with --role.'


def sheet_untrained(title: str) -> str:
    """Return why a work sheet is not printed for somebody who may not be trained."""
    return f'"{title}" is for trained people only; say --trained if whoever does it has been trained for it.'


def sheet_ends(who: str) -> str:
    """Return where a work sheet ends because the next step belongs to somebody else."""
    return f"{STOP_HERE} The next step is for the {who}."


def no_such_remedy(name: str, near: tuple[str, ...]) -> str:
    """Return that a name is neither a remedy nor a session."""
    hint = f"did you mean {', '.join(near)}?" if near else "barrelside sessions lists the sessions."
    return f'"{name}" is neither a remedy of this machine nor a session record; {hint}'


def no_such_role(role: str, known: tuple[str, ...]) -> str:
    """Return that a role is none."""
    return f'--role "{role}" is nobody here; it may be {", ".join(known)}.'


def several_remedies(name: str, ids: tuple[str, ...]) -> str:
    """Return that a name means one remedy for each barrel or sensor."""
    return f'"{name}" stands once for each place; name one of {", ".join(ids)}.'


def nothing_decided(session: str) -> str:
    """Return that a session has no remedy to print."""
    return f"Nothing to be done is decided in {session} yet; name a remedy, or go on with the session."


def cannot_write(path: str, why: str) -> str:
    """Return that a file cannot be written."""
    return f"{path} cannot be written ({why}); give another --out."
