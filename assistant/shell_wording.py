"""Every sentence of the shells: the terminal, records, sessions, replay.

The sentences of the conversation itself stand in `wording.py`, those of the pack in the pack.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.engine.effects import Ask, Closed, Decide, Warn
    from assistant.engine.leading import Status

CAUTION = "CAUTION:"
STOP = "STOP:"
DO = "Do:"
DO_NOT = "Do not:"
WHO = "Who:"
PROMPT = "> "

_DECISIONS = MappingProxyType(
    {
        "phone_fix": "Can be put right now",
        "do_it": "Can be put right now",
        "visit": "Somebody must come",
        "refer": "This work belongs to somebody else",
        "not_in_graph": "This is no fault that we know",
        "nothing_wrong": "Nothing seems to be wrong",
        "make_safe": "Make it safe first",
    }
)


def reading_welcome(unit: str) -> str:
    """Return what a letter means and what a number, where a reading is welcome."""
    return f"letter = that answer; number = the reading, in {unit} unless you name a unit"


def _percent(share: float) -> str:
    """Return a probability as the conversation words it."""
    from assistant.wording import percent  # noqa: PLC0415 -- whoever has an effect has the engine loaded

    return percent(share)


def _listed(names: tuple[str, ...]) -> str:
    """Return parts or tools as the conversation calls them."""
    from assistant.wording import spelled  # noqa: PLC0415 -- whoever has an effect has the engine loaded

    return ", ".join(spelled(names))


def decision_head(decide: Decide) -> str:
    """Return the head line of a decision."""
    kind = _DECISIONS.get(decide.kind, decide.kind)
    what = f": {decide.title}" if decide.title else ""
    return f"{kind}{what}{f' ({_percent(decide.probability)} likely)' if decide.probability else ''}"


def decision_parts(decide: Decide) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return what a decision says under its head, a label and its texts each."""
    parts = (
        ("Because:", decide.reasons),
        ("Send:", (decide.send,) if decide.send else ()),
        ("How soon:", (decide.urgency,) if decide.urgency else ()),
        ("Parts:", (_listed(decide.parts),) if decide.parts else ()),
        ("Tools:", (_listed(decide.tools),) if decide.tools else ()),
        ("Do now:" if decide.kind == "make_safe" else "Until then:", decide.meanwhile),
    )
    return tuple((label, texts) for label, texts in parts if texts)


def decision_text(decide: Decide) -> str:
    """Return a decision as one text."""
    parts = decision_parts(decide)
    return "\n".join(
        (decision_head(decide), *(f"{label} {text}" for label, texts in parts for text in texts))
    )


def warn_text(warn: Warn) -> str:
    """Return a caution as one text."""
    parts = ((DO, warn.do), (DO_NOT, warn.do_not), (WHO, warn.who))
    head = f"{STOP if warn.stop else CAUTION} {warn.title}"
    return "\n".join((head, *(f"{label} {text}" for label, text in parts if text)))


def closed_text(closed: Closed) -> str:
    """Return the last words of a session."""
    return closed.text or f"The session is closed: {closed.outcome.replace('_', ' ')}."


def toolbar(status: Status, width: int, ask: Ask | None = None) -> str:
    """Return the one line under the prompt: stage, leading cause, how much is still open, what to type.

    What to type stands under the options too, so it goes before the name of a cause is cut.
    """
    stage, lead, left = status.stage.casefold().replace("_", " "), status.leading, _still_open(status)
    cause = "" if lead is None else f"{lead.title} {_percent(lead.probability)}"
    whole = " | ".join(filter(None, (stage, cause, left, _to_type(ask))))
    if len(whole) <= width:
        return whole
    ends = (left,) if lead is not None else (left, _to_type(ask))
    room = width - len(" | ".join(filter(None, (stage, *ends)))) - len(" | ")
    middle = "" if lead is None else _shortened(lead.title, _percent(lead.probability), room)
    return " | ".join(filter(None, (stage, middle, *ends)))[:width]


def _still_open(status: Status) -> str:
    """Return how many causes are still open; in bits too for those who work with them."""
    if status.bits_left is None:
        return ""
    from assistant.wording import causes_open  # noqa: PLC0415 -- whoever has a status has the engine loaded

    left = causes_open(status.bits_left)
    return left if status.plain else f"{left}, {status.bits_left:.1f} bits"


def _to_type(ask: Ask | None) -> str:
    """Return what picks an answer to the open question: a letter where a number would be a reading."""
    if ask is None or not ask.options:
        return ""
    return f"letter = answer, number = {ask.unit}" if ask.unit else "number = answer"


def _shortened(title: str, tail: str, room: int) -> str:
    """Return a title and its figure in at most `room` columns; nothing where not even that fits."""
    space = room - len(tail) - 1
    if space < len("..."):
        return tail if len(tail) <= room else ""
    return f"{title if len(title) <= space else title[: space - 3] + '...'} {tail}"


def kept(name: str) -> str:
    """Return how to go on with a session that is not over."""
    return f"The session is kept. Go on with: barrelside resume {name}"


def written_down(path: str) -> str:
    """Return where a session is written down."""
    return f"This session is written down in {path}"


def over(name: str) -> str:
    """Return where a finished session can be read."""
    return f"The session is over. Read it with: barrelside show {name}"


def closed_already(name: str) -> str:
    """Return why a finished session cannot be resumed."""
    return f"The session {name} is over; hand it over with --role, or read it with: barrelside show {name}"


def nothing_to_resume(folder: str) -> str:
    """Return that there is no open session."""
    return f"There is no open session in {folder}; begin one with: barrelside talk"


def pack_changed(was: str, was_digest: str, now: str, now_digest: str) -> str:
    """Return that the pack has another content than when the session was recorded."""
    return f"The session was recorded with pack {was} ({was_digest}), this is {now} ({now_digest})."


def other_pack(name: str, was: str, now: str) -> str:
    """Return why a session cannot go on with this pack."""
    return (
        f"The session {name} belongs to pack {was}, this is {now}; name the folder of its pack with --pack."
    )


def program_changed(was: str, now: str) -> str:
    """Return that the same pack gives other words or questions now."""
    return f"The session was recorded by version {was} and reads differently in version {now}."


def carried_on(name: str, taken: int, noted: int) -> str:
    """Return how an old session goes on under a changed pack or program."""
    answers = "1 entry" if taken == 1 else f"{taken} entries"
    rest = f"; {noted} that no longer fit are kept as notes" if noted else ""
    return f"It goes on as a new record, {name}, with {answers} taken over{rest}."


def earlier(question: str, answer: str) -> str:
    """Return the note that keeps an answer to a question which is no longer asked."""
    return f"Earlier answer: {question} {answer}" if question else f"Said earlier: {answer}"


def replayed(name: str, events: int) -> str:
    """Return that a replay showed the same."""
    return f"{name}: {events} events replayed, every line as recorded."


def replay_differs(name: str, entries: Iterable[int], events: int) -> str:
    """Return that a replay showed something else."""
    numbers = tuple(entries)
    return (
        f"{name}: {len(numbers)} of {events} events show something else than recorded, "
        f"first event {numbers[0]}."
    )


def not_folded(n: int, failed: str) -> str:
    """Return that an event is kept but has no effect."""
    return f"(event {n} was left out: the program broke on it: {failed})"


def broke(error: Exception, where: str) -> str:
    """Return the sentence of the last resort: a defect of the program, not of what was typed."""
    what = str(error).split("\n", 1)[0]
    return f"barrelside broke on a defect of its own ({type(error).__name__}: {what}; at {where})."


def cut_short(longest: int) -> str:
    """Return that only the beginning of what was typed counts."""
    return f"That is very long: only its first {longest} characters are taken."


TRAINED = "trained"
CARRIED = "gone on in a newer record"


def session_of(started: str) -> str:
    """Return when a session began."""
    return f"Session of {started.replace('T', ' ', 1)}"


def machine_of(machine: str, pack: str, version: str) -> str:
    """Return which machine and which pack a session is about."""
    return f"Machine: {machine}. Pack: {pack} {version}."


def true_cause(cause: str) -> str:
    """Return what was wrong in truth, where a record knows."""
    return f"True cause: {cause}."


def continues(name: str) -> str:
    """Return which record a session carries on from."""
    return f"Carries on from {name}."


def no_sessions(folder: str) -> str:
    """Return that there is no record yet."""
    return f"No session records in {folder}."


def no_record(name: str) -> str:
    """Return that a file among the records is none, and how to learn more."""
    return f"{name} cannot be read; barrelside show {name} says why."


def session_line(name: str, entries: int, outcome: str) -> str:
    """Return one line of the list of sessions."""
    count = "1 entry" if entries == 1 else f"{entries} entries"
    return f"{name:<50}  {count:>12}  {outcome.replace('_', ' ') or 'open'}"


def refused(error: OSError) -> str:
    """Return that the operating system refused something."""
    file = f" ({error.filename})" if error.filename else ""
    return f"barrelside cannot go on: {error.strerror or error}{file}."


def lines_alone() -> str:
    """Return that the line protocol takes its answers from standard input only."""
    return "--lines reads standard input; leave --answers out."


def no_pack(folder: str) -> str:
    """Return that there is no pack in a folder."""
    return f'There is no folder "{folder}"; name the folder of a knowledge pack with --pack.'
