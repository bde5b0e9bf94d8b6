"""A repair in words: its steps, its proof, and whether it helped."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.engine.effects import Option
from assistant.wording.pieces import limits_text, lower, minutes, read_out, spelled, stop, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Check, Limits, Quantity, Remedy, Step, Verification


def begin(remedy: Remedy, role: str) -> Tell:
    tools = f" You need: {', '.join(spelled(remedy.tools))}." if remedy.tools else ""
    parts = f" Parts: {', '.join(spelled(remedy.parts))}." if remedy.parts else ""
    how = "Read each step out, one at a time." if role == "helpdesk" else "One step at a time."
    return tell("doing", f"{stop(remedy.title)}{tools}{parts} {how}", remedy.id, remedy.ref)


LONG_WAIT = 10.0  # minutes: longer than anybody stays on the phone for
_MEANWHILE = MappingProxyType(  # hands at an open machine stay at it
    {
        "helpdesk": "Let them call back {}: /stop keeps this session until then.",
        "operator": "You need not sit by it: /stop keeps this session; go on with it {}.",
    }
)


def step(item: Step, role: str, until: str) -> str:
    """Return a step as it is shown, with its waiting time and the question to be answered.

    `until` is what the clock says when the time is over, empty where no clock is known.
    """
    over = f", until {until}" if until else ""
    wait = f" Allow {minutes(item.wait)} for it{over}." if item.wait else ""
    confirm = f" {stop(item.confirm)}" if item.confirm else ""
    text = read_out(role, f"{stop(item.do)}{wait}{confirm}")
    meanwhile = _MEANWHILE.get(role, "") if item.wait >= LONG_WAIT else ""
    return f"{text} {meanwhile.format(f'at {until}' if until else 'then')}" if meanwhile else text


def ask_early(item: Step) -> str:
    return f"That took less than the {item.wait:.0f} minutes that it needs. Is it really done?"


def hurried(item: Step) -> Tell:
    """Return that a step was done in less than its time."""
    text = f"Done in less than {minutes(item.wait)}, and confirmed: {stop(item.do)}"
    return tell("facts", text)


def out_of_limits(quantity: Quantity, limits: Limits | None) -> Tell:
    text = f"That is out of limits: {lower(quantity.title)} should be {limits_text(quantity, limits)}."
    return tell("reading", text, quantity.id)


def read_again(wait: float) -> Tell:
    how_long = minutes(wait) if wait else "a minute or two"
    return tell("reading", f"Give it {how_long}, then read it once more.")


def do_again(redo: str) -> Tell:
    return tell("reading", f"{stop(redo)} Then read it once more.")


def work_stopped(cannot: str) -> Tell:
    own = f" {stop(cannot)}" if cannot else ""
    text = f"Then the work stops here. Leave shut what is shut and off what is off.{own}"
    return tell("stopped", text)


def step_takes(own: float | None, steps: int, left: float) -> Tell:
    """Return how long a step takes, and how much of the work comes behind it."""
    this = (
        f"This step takes {minutes(own)}." if own else "This step needs no waiting: tell me when it is done."
    )
    behind = (
        "It is the last one."
        if not steps
        else f"Behind it {_counted(steps, 'step')}, {minutes(left)} in all."
    )
    return tell("why", f"{this} {behind}")


def work_takes(own: float | None, steps: int) -> Tell:
    return tell("why", f"That takes {minutes(own or 0.0)}. It is done in {_counted(steps, 'step')}.")


def proof_takes(own: float | None, more: int) -> Tell:
    this = f"This takes {minutes(own)}." if own else "This is done at a look."
    return tell("why", f"{this} {_counted(more, 'look or reading')} to go, then we know whether it helped.")


def question_takes(own: float | None) -> Tell:
    this = f"This question takes {minutes(own)}." if own else "This question needs no waiting."
    behind = "I ask no more of them than it takes to know what to do; then I say how long that takes."
    return tell("why", f"{this} {behind}")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def not_begun(cannot: str) -> Tell:
    own = f" {stop(cannot)}" if cannot else ""
    return tell("stopped", f"Then this work is not begun, and everything stays as it is now.{own}")


def ask_stuck(remedy: Remedy) -> str:
    return f"How shall we go on with it ({lower(remedy.title)})?"


_SOMEBODY = Option("send", "Send somebody who can do it")
_AGAIN = Option("again", "Try that step once more")


def ways_on(*, begun: bool) -> tuple[Option, ...]:
    """Return the ways on from a step that could not be done, the likeliest first."""
    if begun:
        return (Option("on", "Leave it, and look for another cause"), _AGAIN, _SOMEBODY)
    return (_SOMEBODY, _AGAIN, Option("on", "Leave it, and go on with the questions"))


def begin_again(remedy: Remedy) -> Tell:
    return tell("doing", "Once more, then.", remedy.id, remedy.ref)


def left_for_now(remedy: Remedy) -> Tell:
    text = f"Then I leave that: {lower(remedy.title)}. Say /again if it can be done after all."
    return tell("taken", text, remedy.id, remedy.ref)


def open_again() -> Tell:
    return tell("taken", "Then what was left because it could not be done may be tried again.")


def nothing_left() -> Tell:
    return tell("ignored", "Nothing was left because it could not be done.")


def not_your_step() -> Tell:
    text = "The next step is not yours to do, so the work stops here. Leave shut what is shut."
    return tell("stopped", text)


def now_prove(remedy: Remedy) -> Tell:
    return tell("proving", "The work is done. Now we see whether it helped.", remedy.id, remedy.ref)


def proof_why(remedy: Remedy) -> str:
    return f"to prove the repair: {lower(remedy.title)}"


def verify(item: Verification, quantity: Quantity | None) -> str:
    """Return what is to be seen after the work."""
    if quantity is None:
        return f"{stop(item.text)} Is that so?"
    return stop(item.text) if item.text else f"Read the {lower(quantity.title)} now."


def not_proved() -> Tell:
    return tell("proving", "Then that stays unproved, and I note it so.")


def ask_gone(complaint: str) -> str:
    """Return the last question of a proof: the complaint itself, in plain words."""
    return f'You said: "{complaint}". Is it good again now?' if complaint else "Is all good again now?"


LOOK_AGAIN_WHY = "so nothing is left that was wrong as well"


def look_once_more(check: Check) -> Tell:
    text = f"This was not right either, and the repair does not explain it: {lower(check.title)}. Once more."
    return tell("left", text, check.id, check.ref)


def ask_left(left: Sequence[str]) -> str:
    """Return the question whether to go on with what is left once the complaint is gone."""
    return f"The complaint is gone, but this is left: {'; '.join(left)}. Shall we look for that too?"


def left_open(left: Sequence[str]) -> str:
    """Return what stays open at the end; empty for nothing."""
    return f"Still open: {'; '.join(left)}." if left else ""


def go_on_with_rest() -> Tell:
    return tell("left", "So one thing is put right, and there is another. I go on.")


def too_early(wait: float, at: str) -> Tell:
    """Return when to look again; `at` is what the clock says then, empty where no clock is known."""
    when = f"at {at}" if at else f"in {minutes(wait)}"
    return tell(
        "proving", f"Then look again {when}. I keep this session: go on with it then, and say how it is."
    )


def not_in_order() -> Tell:
    text = "That is not yet as it should be after this repair, so there is more to find. I go on."
    return tell("proving", text)


def did_not_help() -> Tell:
    text = "So the complaint is not gone. That is an answer all the same: there is another cause. I go on."
    return tell("proving", text)
