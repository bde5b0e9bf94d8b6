"""What a bare yes or no means at a check: the one outcome that the question's own words say, if there is one.

Rule of the file: the question is read as a statement ("does it drip?" as "it does drip", "it does not drip"),
and the outcomes are compared with it as with anything else that is said.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.hear import asked as answering
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from assistant.hear.phrasebook import Phrasebook
    from graph.machine import Check

PLAIN_IDS = {"no": ("no", "none"), "yes": ("yes",)}
AUXILIARY = "is|are|was|were|does|do|did|has|have|can|will"
POLAR = re.compile(rf"(?:^|.*?(?:, |: |; ))({AUXILIARY}) (\w+)\b(.*)$")
CONDITIONAL = re.compile(r"(if|when|where) ")
# How close an outcome must come to the statement, to its denial; how far ahead.
SAID, DENIED, AHEAD = 0.38, 0.68, 0.2
ALONE = 0.5  # how far ahead an outcome must be of the other, for a question with "or" to ask for it alone


def plain_outcome(check: Check, reply: str, book: Phrasebook) -> str:
    """Return the outcome that a bare yes or no can only mean, "" if there is no such one."""
    if check.kind == "symptom":
        return "present" if reply == "yes" else "absent"
    found = _named(check, reply)
    if found:
        return found
    other = "no" if reply == "yes" else "yes"
    meant = _named(check, other)
    if not meant:
        outcomes = _asked_for(check, book)
        if reply in outcomes:
            return outcomes[reply]
        meant = outcomes.get(other, "")
    others = [outcome.id for outcome in check.outcomes if outcome.id != meant]
    return others[0] if meant and len(others) == 1 and not _alternatives(check, others[0], book) else ""


def _named(check: Check, reply: str) -> str:
    """Return the outcome that is called yes or no, or that has it among the ways of saying it."""
    named = [outcome.id for outcome in check.outcomes if outcome.id in PLAIN_IDS[reply]]
    if named:
        return named[0]
    said = [o.id for o in check.outcomes if reply in {" ".join(w.text for w in words_of(t)) for t in o.say}]
    return said[0] if len(said) == 1 else ""


def _asked_for(check: Check, book: Phrasebook) -> dict[str, str]:
    """Return the outcomes that the question says if answered with yes, and with no, where that is plain."""
    polar = _polar(_question(check))
    figures = any(outcome.band or answering.limits_of(outcome.label) for outcome in check.outcomes)
    if polar is None or check.reading or figures:
        return {}
    (auxiliary, subject, rest), whole = polar
    ways = {"yes": f"{subject} {auxiliary}{rest}", "no": f"{subject} {auxiliary} not{rest}"}
    chosen = {reply: answering.whole(check, words_of(way), book) for reply, way in ways.items()}
    plain = {
        reply: choice.ranked[0][0].outcome
        for reply, choice in chosen.items()
        if choice.score >= (SAID if reply == "yes" else DENIED) and choice.margin >= AHEAD
    }
    if len(set(plain.values())) < len(plain):  # the same either way: what comes closer is meant
        plain.pop("yes" if chosen["no"].score > chosen["yes"].score else "no")
    if not whole:
        plain.pop("yes", "")
    return plain


def _alternatives(check: Check, outcome: str, book: Phrasebook) -> bool:
    """Tell whether the question names both outcomes, so that a yes may be said to either.

    "Is it round, or squashed?" does; "is it squashed by a box, or folded over?" does not.
    """
    asked = re.findall(r"[^.?!:]*\?", _question(check))
    if not asked or " or " not in asked[-1]:
        return False
    choice = answering.whole(check, words_of(asked[-1]), book)
    return choice.ranked[0][0].outcome != outcome or choice.margin < ALONE


def _question(check: Check) -> str:
    return check.ask.get("operator") or next(iter(check.ask.values()), "")


def _polar(question: str) -> tuple[tuple[str, str, str], bool] | None:
    """Return the verb, subject and rest of the only yes or no question, and whether a yes is all it asks for.

    "Is it down? If it is, does it stay up?" asks for more than a yes. "Is it strong or weak?" is none.
    """
    asked = [sentence.strip(" ?").lower() for sentence in re.findall(r"[^.?!]*\?", question)]
    first = [sentence for sentence in asked if not CONDITIONAL.match(sentence)]
    if len(first) != 1 or re.search(r"\b(or|only)\b", first[0]):
        return None
    if re.fullmatch(r"\w+", first[0]):
        return ("is", "it", f" {first[0]}"), len(asked) == 1
    found = POLAR.match(first[0])
    return ((found[1], found[2], found[3]), len(asked) == 1) if found else None
