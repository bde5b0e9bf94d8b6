"""Where a conversation stands: one frozen value, always recomputed from the events.

The rule: what is not answered yet stands in `open`. A move that answers it sets `open` to None, and the
stage then says what to ask next; so nothing but `open` decides how a reply is taken.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.engine.effects import Effect, Option
    from assistant.facts import Fact
    from graph import Finding, Ranked


class Stage(Enum):
    """The stages of a session, in the order in which they are gone through."""

    INTAKE = "intake"
    SAFETY = "safety"
    LISTENING = "listening"
    NARROWING = "narrowing"
    DOING = "doing"
    PROVING = "proving"
    CLOSING = "closing"
    CLOSED = "closed"
    HALTED = "halted"  # danger: nothing goes on until it is said to be safe


@dataclass(frozen=True, slots=True)
class Question:
    """The open question. `kind` says which part of the engine takes the reply.

    kind: role, site, place, barrels, complaint, check, fact, trained, become, safe, safe_by, secured, remedy,
    guard, step, instead, stuck, early, proof, gone, left, change, moved, called, cause, parts, note. For
    `fact`, the reply takes `facts[i]` if it is `options[i]`; "yes" is the first, "no" none.
    """

    kind: str
    id: str
    options: tuple[Option, ...] = ()
    facts: tuple[Fact, ...] = ()
    ranked: Ranked | None = None
    text: str = ""  # of a `fact`, which is about what was just said
    born: int = field(default=0, compare=False)  # of a doubt: the turn in which it was told


@dataclass(frozen=True, slots=True)
class Answer:
    """One piece of evidence as it was given; `value` and `unit` are set where it was a number."""

    finding: Finding
    outcome: str
    value: float | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """The last number that was read for a quantity, in the unit that was given."""

    quantity: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class State:
    """Everything that the next move depends on, besides the case."""

    stage: Stage = Stage.INTAKE
    open: Question | None = Question("role", "role")
    by: str = "minutes"  # what the next check is ranked by

    # who and where
    site: str = ""
    unit: str = ""
    place: str = ""  # of the address book, as `site/machine`; empty: none that it has
    profile: str = ""  # the machine of the pack that it is by what was said, where this is another one
    sized: bool = False  # whether it has been said, or asked, how many barrels there are
    person: str = ""
    role: str = ""
    others: str = ""
    trained: str = ""  # yes, no, or not known
    serviced: tuple[tuple[str, float], ...] = ()  # piece of service -> days since it was done here
    here: str = ""  # the place of the last check

    # what was said
    complaint: str = ""
    heard: bool = False  # whether listening is over
    story: tuple[str, ...] = ()  # the symptoms that were told by then
    answers: tuple[Answer, ...] = ()
    readings: tuple[Reading, ...] = ()
    units: tuple[tuple[str, str], ...] = ()  # quantity -> the unit that its instrument shows
    began: str = ""
    barrels: tuple[int, ...] = ()  # barrels named on their own
    called: tuple[tuple[str, int], ...] = ()  # flavours not known here -> the barrel that the person means
    notes: tuple[str, ...] = ()
    unheard: tuple[str, ...] = ()  # words that nothing was made of
    misses: int = 0  # lines in a row that nothing was made of, or readings out of limits

    # what need not be asked
    settled: tuple[str, ...] = ()  # checks answered, not known, or not possible here
    known: tuple[str, ...] = ()  # checks whose answer already weighs in the prior, for the whole session
    screened: tuple[str, ...] = ()  # safety checks done in this screening
    uncleared: tuple[str, ...] = ()  # safety checks that got no clear answer once
    lacking: tuple[str, ...] = ()  # tools that are not at hand
    questioned: tuple[str, ...] = ()  # checks asked while narrowing since the last decision
    rechecked: tuple[str, ...] = ()  # checks already asked again because answers conflict

    # what waits for its turn
    turn: int = field(default=0, compare=False)  # answers and lines so far
    doubts: tuple[Question, ...] = ()  # interpretations to confirm
    due: tuple[str, ...] = ()  # checks to ask next whatever their gain

    # danger
    halts: tuple[str, ...] = ()  # cautions that stop everything until it is safe
    hazards: tuple[str, ...] = ()  # cautions that hold for whoever comes next
    cleared: tuple[tuple[str, str], ...] = ()  # (caution, who said that it is safe again)
    after: Stage = Stage.INTAKE  # where to go on once it is safe
    securing: tuple[str, ...] = ()  # checks whose answer ordered something at once, not confirmed yet
    secured: tuple[tuple[str, str], ...] = ()  # (what was ordered, yes or no): whether that was done

    # cautions and gates before a check
    guarding: str = ""
    guard_at: int = 0
    ranked: Ranked | None = None  # why the check being guarded was chosen
    passed: tuple[str, ...] = ()  # gates that still hold
    warned: tuple[str, ...] = ()  # cautions shown for the checks, or the repair, at hand
    sworn: tuple[str, ...] = ()  # cautions that this person has acknowledged: shown again, not asked again

    # repair
    remedy: str = ""
    at: int = 0  # position in the steps, or in the verifications
    fresh: tuple[str, ...] = ()  # quantities read since the step, gate or verification was reached
    proved: tuple[str, ...] = ()  # checks answered since proving began
    declined: tuple[str, ...] = ()  # remedies refused or not possible here
    unbegun: tuple[str, ...] = ()  # those of them that were not begun, though nothing speaks against them
    aside: tuple[str, ...] = ()  # checks not begun since a gate or caution was not passed: for /again
    refused: tuple[str, ...] = ()  # gates and cautions not passed here: what lies behind is not begun
    cured: tuple[str, ...] = ()  # remedies done that did not end the complaint
    relieved: bool = False  # the complaint is said to be gone; what else is on record is looked at
    left: tuple[str, ...] = ()  # checks whose answers stay out of order though the complaint is gone

    # the end
    outcome: str = ""
    cause: str = ""
    seen: bool = False  # whether the person said which cause it was
    used: tuple[str, ...] = ()  # parts that were used, by id or as they were called
    counted: bool = False  # whether the person said which parts were used
    closing_note: str = ""
    paused: Stage = Stage.INTAKE  # where a stopped session goes on

    # time, as it came in with the events
    now: str = field(default="", compare=False)
    zone: str = field(default="", compare=False)  # the first time of the session: its zone is the site's
    step: str = ""  # the item of work that is asked about
    since: str = ""  # when it was first shown
    hurried: tuple[str, ...] = ()  # items done in less than their time, and confirmed

    previous: State | None = field(default=None, compare=False, repr=False)


OPENING = State()

Turn = tuple[State, tuple["Effect", ...]]


def answered(state: State) -> State:
    """Return the state with no question open, so that the stage asks its next one."""
    return replace(state, open=None, misses=0)


def once(names: tuple[str, ...], *more: str) -> tuple[str, ...]:
    """Return the names with more of them added, each once, in order of first mention."""
    return tuple(dict.fromkeys((*names, *more)))
