"""Changes of long ago: "filter changed last year" is no change just before the trouble.

The rule: asked what was changed just before, an old change is the usual answer (none); told by itself it is
kept as a note and no evidence. Where the trouble is said to be as old ("since ..."), it counts.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import taking

if TYPE_CHECKING:
    from assistant.engine.effects import Effect
    from assistant.engine.state import State
    from assistant.facts import Fact
    from graph import Case
    from graph.machine import Check

_LONG_AGO = re.compile(
    r"\b(last (year|summer|winter|spring|autumn|season|month|christmas|easter)|(months?|years?) (ago|back)"
    r"|ages (ago|back)|long (time )?ago|in (19|20)\d\d|(the )?(year|month|summer) before( last)?)\b"
)
_AS_OLD = re.compile(r"\b(since|ever since|from then on)\b")


def sorted_out(
    case: Case, state: State, facts: tuple[Fact, ...]
) -> tuple[State, tuple[Fact, ...], tuple[Effect, ...]]:
    """Return the facts with old changes made into the usual answer or left out, and what is said of that."""
    old = tuple(fact for fact in facts if _old(fact) and _about_change(case, fact))
    if not old:
        return state, facts, ()
    asked = state.open.id if state.open is not None else ""
    words = tuple(dict.fromkeys(fact.words for fact in old))
    kept = []
    for fact in facts:
        if fact not in old and (fact.certain or fact.words not in words):  # a rival is no better guess now
            kept.append(fact)
        elif fact in old and fact.kind == "answer" and fact.id == asked and case.check(asked).usual >= 0:
            check = case.check(asked)
            kept.append(replace(fact, value=check.outcomes[check.usual].id, certain=True))
    for each in words:
        state = taking.not_understood(state, each)
    return state, tuple(kept), tuple(wording.long_ago(each) for each in words)


def _old(fact: Fact) -> bool:
    words = fact.words.casefold()
    return bool(_LONG_AGO.search(words)) and not _AS_OLD.search(words)


def _about_change(case: Case, fact: Fact) -> bool:
    """Return whether a fact tells of something done just before, as a symptom or as an answer."""
    meant = taking.checks_of(case, fact)
    if fact.kind == "symptom":
        return any(check.recent for check in meant)
    return fact.kind == "answer" and any(_repeats(case, check) for check in meant)


def _repeats(case: Case, check: Check) -> bool:
    covered = (name for outcome in check.outcomes for name, _ in outcome.covers)
    return any(case.has_check(name) and case.check(name).recent for name in covered)
