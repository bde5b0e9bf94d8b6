"""What the engine wants done: effects, plain data for the shells to show.

The rule: an effect names things by id and carries numbers; `wording.py` makes the sentences. The last
effect of a step that expects an answer is an `Ask`.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cause:
    """One leading cause with its posterior probability."""

    id: str
    ref: str
    title: str
    probability: float


@dataclass(frozen=True, slots=True)
class Option:
    """One answer that may be given, by number, id, label or in other words."""

    id: str
    label: str
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """A question. `about` says what kind of thing `id` is.

    about: intake, check, symptom, confirm, remedy, gate, step, caution, verification, closing.
    `bits` is the expected information gain about what to do; `minutes` what the answer costs.
    """

    about: str
    id: str
    ref: str
    text: str
    options: tuple[Option, ...]
    unit: str = ""  # set where a number is welcome
    bits: float | None = None
    minutes: float | None = None
    why: str = ""
    causes: tuple[Cause, ...] = ()
    bits_left: float | None = None
    place: str = ""


@dataclass(frozen=True, slots=True)
class Tell:
    """A sentence. `topic` says which: taken, ignored, refused, why, causes, facts, help, decision, ..."""

    topic: str
    text: str
    id: str = ""
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Warn:
    """A caution, shown before the step that needs it; `stop` stops everything else."""

    id: str
    ref: str
    title: str
    do: str
    do_not: str
    who: str
    stop: bool = False


@dataclass(frozen=True, slots=True)
class Decide:
    """What is to be done, by whom, with what.

    kind: phone_fix, do_it, visit, refer, not_in_graph, nothing_wrong, make_safe.
    """

    kind: str
    remedy: str
    ref: str
    title: str
    probability: float
    send: str
    parts: tuple[str, ...]
    tools: tuple[str, ...]
    reasons: tuple[str, ...]
    causes: tuple[Cause, ...] = ()
    urgency: str = ""
    meanwhile: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Closed:
    """The session is over. outcome: cured, cured_for_now, made_safe, visit, referred, not_found, stopped.

    `parts` are those that were used, by id or, where the pack does not know them, in the person's words;
    whether that was asked at all, the question on parts says.
    """

    outcome: str
    cause: str
    ref: str
    text: str
    parts: tuple[str, ...] = ()


TAKEN_UP = ("stopped", "made_safe", "cured_for_now")  # ends after which the same person may go on

Effect = Ask | Tell | Warn | Decide | Closed
