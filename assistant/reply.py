"""What a typed line means while a question is open: an option, a reading, a slash word, or words.

Only what leaves no doubt is decided here: an option picked by its number, letter, id or label, and a
number where a number is welcome. Everything else is heard and stays words.

Where a reading is welcome a bare number is always the reading; its options are picked by letter.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Protocol

from assistant.engine.events import Asked, Chose, Event, Measured, Said
from assistant.facts import REPLY_KINDS, Fact
from assistant.layout import picker
from assistant.visible import without_surrogates
from assistant.wording.options import NONE_OF_THESE, everyday
from graph.errors import GraphError
from graph.units import convert, find_unit

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.conversation import SlashWord
    from assistant.engine.effects import Ask, Option
    from assistant.facts import Kind

_NUMBER = re.compile(r"([+-]?\d{1,12}(?:[.,]\d{1,9})?)\s*([^\d\s.,].{0,39})?", re.DOTALL)
_CHECKS = ("check", "symptom", "verification")
_STEPS = ("gate", "step")
_WORKING = (*_STEPS, "caution")
GUESS = 0.45  # doubtful symptoms less alike are guesses
_SAID_OF_A_STEP = (*REPLY_KINDS, "which", "fine")  # "all quiet" names no barrels
# Who speaks, where, and whether it is safe again: no complaint is told there.
_OF_WHOM = (
    *(("intake", name) for name in ("role", "site", "place", "barrels")),
    *(("confirm", name) for name in ("safe", "safe_by")),
)
_SITE = ("intake", "site")
_NONE = re.compile(
    r"(no |nah |nope )?(none|neither|not any)( of (them|em|those|these|it|that|the above))?( thanks| mate)?"
)
_AT_THE_END = ("verification", "gone")  # is it good again?


class Hears(Protocol):
    """The part of a conversation that understands words."""

    def hear(self, text: str, asked: str) -> tuple[tuple[Fact, ...], str]:
        """Return what was understood of a line, and its rest."""
        ...

    def words(self) -> tuple[SlashWord, ...]:
        """Return the slash words that the conversation knows."""
        ...


def reply(text: str, ask: Ask | None, hears: Hears) -> Event | None:
    """Return the event that a typed line is, None for a blank one."""
    typed = without_surrogates(text).strip()
    if not typed:
        return None
    if typed.startswith("/") and "\n" not in typed:
        return _slash(typed[1:], hears.words())
    return picked(typed, ask) or measured(typed, ask) or said(typed, ask, hears)


def said(text: str, ask: Ask | None, hears: Hears) -> Said:
    """Return a line as words, with what is understood of it.

    To a doubt about a check a plain yes or no is about the doubt; anything else may answer the check itself.
    """
    asked = ask.id if ask is not None and ask.about in _CHECKS else ""
    facts, rest = hears.hear(text, asked)
    if ask is not None and (kind := _confirmed(text, ask)):
        ended = (ask.about, ask.id) == _AT_THE_END  # "no still flat" is the reply, not one more complaint
        told = tuple(
            fact
            for fact in facts
            if fact.kind == "danger" or (not ended and fact.certain and fact.kind not in _SAID_OF_A_STEP)
        )
        return Said(text, (Fact(kind, words=text), *told))
    who = ask is not None and (ask.about, ask.id) in _OF_WHOM
    if ask is not None and (who or ask.about in _WORKING) and all(_far_off(fact) for fact in facts):
        facts, rest = (), text
    if ask is not None and (ask.about, ask.id) == _SITE and not any(fact.certain for fact in facts):
        facts = _time(text) or facts
    replied = any(fact.kind in REPLY_KINDS for fact in facts)
    if ask is not None and ask.about == "confirm" and ask.ref and not replied:
        again, left = hears.hear(text, ask.id)
        if any(ask.ref == fact.ref or ask.id == fact.id for fact in again):  # else it tells something else
            facts, rest = again, left
    return Said(text, facts, rest)


def _time(text: str) -> tuple[Fact, ...]:
    """Return a line that tells a time and nothing else as when it began: no site is called so."""
    from assistant.hear.times import only_time  # noqa: PLC0415 -- loaded with the hearing, not before

    time = only_time(text)
    return (Fact("began", value=time, words=text),) if time else ()


def _far_off(fact: Fact) -> bool:
    """Return whether a fact is no more than a guess, which is for who tells what is wrong, not for work."""
    return fact.kind == "symptom" and not fact.certain and fact.score < GUESS


def _confirmed(text: str, ask: Ask) -> Kind | None:
    """Return what a line says of a step, or of the trouble at the end; None where it is not plain."""
    from assistant.hear.confirmed import confirmed  # noqa: PLC0415 -- loaded with the hearing, not before
    from assistant.hear.recovered import recovered  # noqa: PLC0415 -- likewise

    if ask.about in _STEPS:
        return confirmed(ask.text, text)
    return recovered(text) if (ask.about, ask.id) == _AT_THE_END else None


def picked(text: str, ask: Ask | None) -> Chose | None:
    """Return the option that a line picks by its number, letter, id, ref or label, None for none."""
    if ask is None:
        return None
    wanted = _plain(text)
    keyed = [(picker(ask, index), option) for index, option in enumerate(ask.options)]
    found = [option for key, option in keyed if wanted == key] or _named(wanted, ask)
    if not found and _NONE.fullmatch(wanted):
        found = [option for option in ask.options if option == NONE_OF_THESE]
    if not found and ask.about == "confirm" and wanted.isdecimal() and not ask.unit:
        return Chose(wanted, text)  # a number that is none of the answers, and not the reading of anything
    return Chose(found[0].id, text) if len(found) == 1 else None


def measured(text: str, ask: Ask | None) -> Measured | None:
    """Return the reading that a line is, where one is welcome and its unit fits; None otherwise."""
    found = _NUMBER.fullmatch(text)
    if ask is None or not ask.unit or found is None:
        return None
    value = float(found[1].replace(",", "."))
    unit = fitting_unit(found[2] or "", ask.unit, value)
    return None if unit is None else Measured(value, unit, "", text)


def fitting_unit(spelled: str, asked: str, value: float) -> str | None:
    """Return the unit that was typed, empty for none; None where it measures something else."""
    try:
        unit = find_unit(spelled, find_unit(asked).quantity).name if spelled.strip() else ""
        return unit if math.isfinite(convert(value, unit or asked, asked)) else None
    except GraphError:
        return None


def _slash(text: str, words: Iterable[SlashWord]) -> Asked:
    """Return a slash word with its argument; an unambiguous beginning of a word will do."""
    word, _, argument = text.strip().partition(" ")
    word = word.casefold()
    known = [each.word for each in words]
    begun = [each for each in known if each.startswith(word)] if word and word not in known else []
    return Asked(begun[0] if len(begun) == 1 else word, argument.strip())


def _named(wanted: str, ask: Ask) -> list[Option]:
    """Return the options that are called so; everyday words stand for yes, no, unsure and cannot."""
    word = everyday(wanted, ask) or wanted
    return [option for option in ask.options if word in map(_plain, (option.id, option.ref, option.label))]


def _plain(text: str) -> str:
    """Return a label without case, doubled blanks, curled apostrophes and what ends a sentence."""
    return " ".join(text.casefold().replace("\u2019", "'").split()).strip(" .!,;:)")
