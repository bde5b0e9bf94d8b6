"""Why a question is asked, what is believed, what each answer weighs, where and what a part is."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.wording.checks import said_of
from assistant.wording.pieces import lower, minutes, number, percent, sentence, stop, tell

if TYPE_CHECKING:
    from assistant.engine.effects import Ask, Cause, Tell
    from graph.machine import Caution, Check, Component, Outcome, Remedy


_CAUSE = re.compile(
    r"\bwhat(?:'?s| is| are| was)? (?:then )?"
    r"(?:wrong|causing|the (?:cause|matter|problem|fault|trouble|issue|reason))\b"
    r"|\bwhat (?:do|does|did) (?:you|it) (?:think|reckon|guess|suspect)\b"
    r"|\bwhat (?:could|can|might|would) it be\b|^what is it then\b"
    r"|\b(?:any idea|do you know|you know|tell me) what (?:it is|it's|its|is wrong|'?s wrong)\b"
)
_NEXT = re.compile(r"\bwhat(?:'?s| is| comes| happens)? next\b|\bwhat (?:then|after that)\b")


def unknown_thing(name: str) -> Tell:
    return tell("ignored", f'I know no part or word "{name}".' if name else "Which part do you mean?")


def asks_cause(text: str) -> bool:
    """Return whether a line asks what is wrong."""
    return bool(_CAUSE.search(" ".join(text.casefold().replace("\u2019", "'").split())))


def asks_next(text: str) -> bool:
    """Return whether a line asks what comes next."""
    return bool(_NEXT.search(" ".join(text.casefold().replace("\u2019", "'").split())))


def not_known_yet() -> Tell:
    return tell("why", "I don't know yet: that is what I ask for. I say so as soon as it is likely enough.")


def this_first() -> Tell:
    return tell("why", "First the question that is open. What comes next depends on the answer.")


def where(part: Component, place: str) -> Tell:
    return tell("where", f"{stop(part.title)} {stop(place)} {stop(part.explain)}", part.id, part.ref)


def where_check(check: Check, place: str) -> Tell:
    return tell("where", stop(place), check.id, check.ref)


def what(part: Component) -> Tell:
    return tell("what", f"{sentence(part.title)}: {stop(part.explain)}", part.id, part.ref)


def meaning(word: str, text: str) -> Tell:
    return tell("what", f"{word}: {stop(text)}")


_WHY = MappingProxyType(
    {
        "role": "What is safe to ask of you depends on it.",
        "site": "It goes into the record.",
        "complaint": "Your own words often say more than my questions.",
        "fact": "I was not sure what you meant, and only what you confirm counts.",
        "trained": "This work is safe only in trained hands.",
        "become": "What I may show you depends on it.",
        "safe": "Nothing goes on while there is danger.",
        "safe_by": "A danger is called over by those whose work that is.",
        "secured": "Nothing goes on before that is done.",
        "early": "Some things show only after the whole time.",
        "guard": "It makes the next check safe.",
        "step": "It is a step of the repair.",
        "instead": "It is another way to the same end; the step comes again after it.",
        "proof": "Only a reading or a look proves that the repair worked.",
        "gone": "Whether it helped is itself an answer.",
        "change": "Nobody is held to a slip.",
        "moved": "It should stand at the right barrel only.",
        "aimed": "So that I ask about the right barrel.",
        "left": "Whoever comes next should not find it by chance.",
        "cause": "It makes the next diagnosis better.",
        "note": "It goes into the record.",
    }
)


MUCH, SOME = 1.0, 0.2  # bits about what to do: halves what is open, or tells something worth the asking
MANY_CAUSES = 50


def causes_open(bits: float) -> str:
    """Return how much is open in plain words: of so many equally likely causes, doubt would be as large.

    That number is 2 to the power of the entropy (the perplexity).
    """
    causes = round(2.0**bits)
    if causes <= 1:
        return "nearly sure"
    return "many causes left" if causes > MANY_CAUSES else f"about {causes} causes left"


def _gain(bits: float, *, plain: bool) -> str:
    if not plain:
        return f"I expect {bits:.2f} bits about what to do from it."
    how_much = "a lot" if bits >= MUCH else "something" if bits >= SOME else "a little"
    return f"It should tell {how_much} about what to do."


def why(kind: str, shown: Ask, *, plain: bool = False) -> Tell:
    """Return why a question is asked, with its gain and its minutes where it has them.

    `plain`: in words, for somebody to whom bits say nothing.
    """
    parts = [stop(shown.why)] if shown.why else []
    if kind in _WHY:
        parts.append(_WHY[kind])
    if shown.bits is not None:
        parts.append(_gain(shown.bits, plain=plain))
    if shown.minutes is not None:
        parts.append(f"It takes {minutes(shown.minutes)}.")
    if shown.bits_left is not None:
        exact = "" if plain else f", {shown.bits_left:.1f} bits"
        parts.append(f"Open at the moment: {causes_open(shown.bits_left)}{exact}.")
    return tell("why", " ".join(parts) or "It tells us what to do next.", shown.id, shown.ref)


def what_if(check: Check, outcome: Outcome, lead: Cause, before: float) -> Tell:
    now, then = percent(before), percent(lead.probability)
    text = f'If "{outcome.label}": most likely {lower(lead.title)}, {then} (now {now}).'
    return tell("why", text, f"{check.id}={outcome.id}", outcome.ref)


def cause(each: Cause) -> Tell:
    return tell("causes", f"{percent(each.probability)}  {lower(each.title)}", each.id, each.ref)


def the_rest(nothing: float, unknown: float) -> Tell:
    text = f"Nothing wrong at all: {percent(nothing)}. A cause that I don't know: {percent(unknown)}."
    return tell("causes", text)


def no_facts() -> Tell:
    return tell("facts", "No answers yet.")


def facts_about(lead: Cause, *, plain: bool = False) -> Tell:
    of = f"{lower(lead.title)} ({percent(lead.probability)})"
    text = f"What was answered, and what it says of {of}:" if plain else f"{_IN_DECIBANS} {of}:"
    return tell("facts", text, lead.id, lead.ref)


def fact(
    check: Check, outcome: str, value: float | None, unit: str, weight: float, *, plain: bool = False
) -> Tell:
    text = _weighed(said(check, outcome, value, unit), weight, plain=plain)
    return tell("facts", text, check.id, check.ref)


_IN_DECIBANS = "Weights in decibans for the leading cause,"
WORTH_TELLING = 1.0  # decibans: less is hardly noticed by anybody (I. J. Good, 1950)


def _weighed(text: str, weight: float, *, plain: bool) -> str:
    """Return an answer with its weight, in words for whom decibans say nothing."""
    if not plain:
        return f"{_weight(weight)}  {text}"
    return text if abs(weight) < WORTH_TELLING else f"{text} ({'for' if weight > 0 else 'against'} it)"


def said(check: Check, outcome: str, value: float | None, unit: str) -> str:
    """Return an answer in words, with the number that was read."""
    measured = f" ({number(value, unit)})" if value is not None else ""
    return f"{said_of(check, outcome)}{measured}"


def work_fact(remedy: Remedy, outcome: str, weight: float, *, plain: bool = False) -> Tell:
    helped = "helped" if outcome == "cured" else "did not help"
    text = _weighed(f"{lower(remedy.title)}: {helped}", weight, plain=plain)
    return tell("facts", text, remedy.id, remedy.ref)


def _weight(weight: float) -> str:
    """Return a weight of evidence with its sign; what rounds to nothing has none."""
    return f"{weight:+.1f}" if abs(weight) >= 0.05 else "0.0"  # noqa: PLR2004 - half of the last place


def hazard(caution: Caution, safe_by: str) -> Tell:
    return tell("facts", f"Hazard noted: {hazard_named(caution, safe_by)}.", caution.id, caution.ref)


def hazard_named(caution: Caution, safe_by: str) -> str:
    """Return a hazard with who called it over, if anybody did."""
    return f"{lower(caution.title)}{f' (called safe by: {safe_by})' if safe_by else ''}"
