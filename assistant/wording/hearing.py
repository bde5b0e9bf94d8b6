"""What is said back of a line: taken, doubted, or not understood."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.wording.pieces import limits_text, lower, minutes, number, sentence, stop, tell

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Limits, Quantity

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
_MARKS = " ,.;:!?\"'"  # around words said back
_MEANT = re.compile(r"\b(?:meant|mean|should be|make that|that's a|thats a) (?:a )?(yes|yeah|no|nope)\W*$")
_HOW_LONG = re.compile(r"\bhow (long|much time|many minutes)\b")


def taken(labels: Iterable[str]) -> Tell:
    return tell("taken", f"I take that as: {'; '.join(labels)}.")


def do_you_mean(label: str, *, denied: bool = False) -> str:
    """Return the question whether something is meant; `denied` where it is that there is no such trouble."""
    said = label.removesuffix("? No")
    return f"Do you mean that this is not so: {said}?" if denied else f"Do you mean: {label}?"


def which_did_you_mean(words: str) -> str:
    said = words.strip(_MARKS)
    return f'You said "{said}". Which of these do you mean?' if said else "Which of these do you mean?"


def which_one(words: str) -> str:
    return f'You said "{words}". Which one is it?' if words else "Which one is it?"


def which_unit(quantity: Quantity, value: float) -> str:
    return f"{sentence(quantity.title)}, {round(value, 2):g}: which unit does it show?"


def really(quantity: Quantity, value: float, unit: str, limits: Limits | None = None) -> str:
    """Return the question whether a number is right, and what is expected: `limits`, or what is typical."""
    text = f"{sentence(quantity.title)}: {number(value, unit)}, have I got that right?"
    expected = limits or quantity.typical
    return text if expected is None else f"{text} I would expect {limits_text(quantity, expected)}."


def unusual_for(quantity: Quantity, value: float, unit: str) -> str:
    """Return the question what an unusual number tells, where something else may have been read out."""
    return f"{number(value, unit)} would be a lot for {lower(quantity.title)}. Which of these is it?"


def left_out() -> Tell:
    return tell("taken", "Then I leave that out.")


def no_number(text: str) -> str:
    return f'"{text}" is no number that I can use: give it in figures, such as 62.'


def impossible_reading(quantity: Quantity, why_not: str) -> str:
    return f"I can't take that for {lower(quantity.title)}. {why_not}"


def ignored(text: str) -> Tell:
    return tell("ignored", text)


def worked_out(line: str) -> Tell:
    return tell("worked_out", stop(line))


def nothing_to_work_out(names: Iterable[str]) -> Tell:
    known = ", ".join(names)
    return tell("ignored", f"This question has nothing to work out. Name what you want: {known}.")


def not_here(words: str) -> Tell:
    return tell("ignored", f'"{words}" fits nothing on this machine; I keep it as a note.')


def nothing_understood() -> Tell:
    return tell("ignored", "I did not understand that; I keep it as a note. Try other words, or an option.")


def asked_next() -> Tell:
    return tell("taken", "Noted; I come to that next.")


def rest_kept(rest: str) -> Tell:
    words = rest.strip(_MARKS)
    return tell("ignored", f'I made nothing of "{words}"; I keep it as a note.')


def no_such_option(option: str) -> Tell:
    return tell("ignored", f'"{option}" is none of the answers to this question.')


def which_of_these() -> Tell:
    return tell("ignored", "Which of these answers is it?")


def no_number_wanted() -> Tell:
    return tell("ignored", "This question needs no number. If it is a reading, say what was read.")


def no_such_quantity(name: str) -> Tell:
    return tell("ignored", f'This machine has no reading called "{name}".')


def number_needed() -> Tell:
    return tell("ignored", "I need the number that you read there.")


def number_or_answer(order: int, unit: str) -> str:
    """Return the question what a bare digit means."""
    named = _ORDINALS[order - 1] if order <= len(_ORDINALS) else f"number {order}"
    return f"Do you mean {number(order, unit)}, or the {named} answer?"


def nothing_asked() -> Tell:
    return tell("ignored", "There is no open question.")


def began_noted(when: str) -> Tell:
    return tell("taken", f"It began: {when}.")


def long_ago(words: str) -> Tell:
    text = "That was long before, so I don't count it as a change just before it; I keep it as a note"
    return tell("taken", f"{text}: {words.strip(_MARKS)}.")


def fine_noted(what: str) -> Tell:
    return tell("taken", f"Noted as fine: {what.strip(_MARKS)}. I may still ask you to look.")


def barrels_noted(barrels: Sequence[int]) -> Tell:
    first, last = min(barrels), max(barrels)
    row = len(barrels) > 2 and last - first + 1 == len(set(barrels))  # noqa: PLR2004 - worth a range
    names = f"{first} to {last}" if row else " and ".join(str(barrel) for barrel in barrels)
    return tell("taken", f"Barrel{'s' if len(barrels) > 1 else ''} {names}, noted.")


def ask_aimed(barrels: Sequence[str]) -> str:
    """Return the question whether the trouble is at barrels that were named in passing."""
    return f"You named {' and '.join(barrels)}. Is that where the trouble is?"


def which_barrel(told: Sequence[str]) -> str:
    """Return the question of which barrel it is, where another one has been told of."""
    return f"I have: {'; '.join(lower(title) for title in told)}. Which barrel is it?"


def which_is_called(name: str, *, known: bool) -> str:
    """Return the question of which barrel a flavour is; `known` says whether the machine's own are known."""
    text = f"I know of no {name} on this machine." if known else f"I don't know which side {name} is."
    return f"{text} Which barrel do you mean, counted from the left?"


def called(name: str, barrel: int) -> Tell:
    return tell("taken", f"{sentence(name)} is barrel {barrel}, noted.")


def instead_of(here: int, there: int) -> str:
    return f"Barrel {here}, not barrel {there}"


def both_barrels(here: int, there: int) -> str:
    return f"Both: barrel {min(here, there)} and barrel {max(here, there)}"


def meant_instead(words: str) -> str:
    """Return the yes or no that a correction ends in ("sorry, I meant no"), empty for any other."""
    found = _MEANT.search(words.casefold())
    return {"yes": "yes", "yeah": "yes", "no": "no", "nope": "no"}[found[1]] if found else ""


def asks_how_long(text: str) -> bool:
    """Return whether a line asks how long something takes."""
    return bool(_HOW_LONG.search(text.casefold()))


def how_long(takes: float | None) -> Tell:
    text = (
        "It takes no waiting: tell me when it is done." if takes is None else f"That takes {minutes(takes)}."
    )
    return tell("why", text)


def say_it_again() -> Tell:
    return tell(
        "ignored",
        "I did not understand that; I keep it as a note. What do the drinks or the display do?",
    )


def go_on_asking() -> Tell:
    return tell("taken", "That's fine. I ask, and you look.")
