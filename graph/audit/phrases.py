"""The ways people say things: enough of them, and each meaning one thing only."""

from __future__ import annotations

import re
from collections import defaultdict
from typing import TYPE_CHECKING

from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from graph.audit.remark import Remark, Trail
    from graph.pack import Knowledge

FEWEST_OF_OUTCOME = 4
FEWEST_OF_SYMPTOM = 10
_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")


def normalised(phrase: str) -> str:
    """Return a phrase without case, punctuation and doubled spaces."""
    return " ".join(_WORD.findall(phrase.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")))


def phrase_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about too few phrases, and about phrases with two meanings.

    Outcomes that are the band of a reading are said with a number and need no phrases.
    """
    symptoms = [(("symptoms", name), symptom.say) for name, symptom in knowledge.symptoms.items()]
    yield from _few("few_symptom_phrases", symptoms, FEWEST_OF_SYMPTOM)
    yield from _shared("phrase_of_two_symptoms", symptoms)
    for name, check in knowledge.checks.items():
        here = ("checks", name, "outcomes")
        answers = [((*here, o), answer.say) for o, answer in check.outcomes.items()]
        said = [((*here, o), answer.say) for o, answer in check.outcomes.items() if answer.band is None]
        yield from _few("few_outcome_phrases", said, FEWEST_OF_OUTCOME)
        yield from _shared("phrase_of_two_outcomes", answers)


def _few(rule: str, said: Iterable[tuple[Trail, tuple[str, ...]]], fewest: int) -> Iterator[Remark]:
    for trail, phrases in said:
        count = len({normalised(phrase) for phrase in phrases})
        if count < fewest:
            yield remark(rule, *trail, count=count, fewest=fewest).weighing(fewest - count)


def _shared(rule: str, said: Iterable[tuple[Trail, tuple[str, ...]]]) -> Iterator[Remark]:
    """Yield a remark for every phrase that stands at two places, told at the later one."""
    at: dict[str, list[Trail]] = defaultdict(list)
    for trail, phrases in said:
        for phrase in dict.fromkeys(normalised(phrase) for phrase in phrases):
            at[phrase].append(trail)
    for phrase, trails in at.items():
        for trail in trails[1:]:
            yield remark(rule, *trail, "say", phrase=phrase, other=str(trails[0][-1]))
