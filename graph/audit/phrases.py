"""The ways people say things: enough of them, and each meaning one thing only."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from graph.audit.remark import Remark, Trail
    from graph.pack import Knowledge

    Meaning = tuple[str, Trail, tuple[str, ...]]  # name, where its phrases stand, the phrases

FEWEST_OF_OUTCOME = 4
FEWEST_OF_SYMPTOM = 10
_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")


def normalised(phrase: str) -> str:
    """Return a phrase without case, punctuation and doubled spaces."""
    return " ".join(_WORD.findall(phrase.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")))


def phrase_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about too few phrases, and about phrases with two meanings.

    Outcomes that are the band of a reading are said with a number and need no phrases. What was only heard
    counts as no phrase of the author's.
    """
    symptoms = [
        (name, ("symptoms", name, "say"), symptom.say) for name, symptom in knowledge.symptoms.items()
    ]
    heard = [(name, ("symptoms", name), lines) for name, lines in knowledge.heard.symptoms.items()]
    yield from _few("few_symptom_phrases", symptoms, FEWEST_OF_SYMPTOM)
    yield from _shared("phrase_of_two_symptoms", [*symptoms, *heard])
    for name, check in knowledge.checks.items():
        here = ("checks", name, "outcomes")
        answers = [(o, (*here, o, "say"), answer.say) for o, answer in check.outcomes.items()]
        said = [meaning for meaning in answers if check.outcomes[meaning[0]].band is None]
        lines = knowledge.heard.answers.get(name, {}).items()
        yield from _few("few_outcome_phrases", said, FEWEST_OF_OUTCOME)
        yield from _shared(
            "phrase_of_two_outcomes", [*answers, *((o, ("answers", name, o), found) for o, found in lines)]
        )


def _few(rule: str, said: Iterable[Meaning], fewest: int) -> Iterator[Remark]:
    for _, trail, phrases in said:
        count = len({normalised(phrase) for phrase in phrases})
        if count < fewest:
            yield remark(rule, *trail[:-1], count=count, fewest=fewest).weighing(fewest - count)


def _shared(rule: str, said: Iterable[Meaning]) -> Iterator[Remark]:
    """Yield a remark for every phrase that has two meanings, told where it stands the second time."""
    first: dict[str, str] = {}
    told: dict[tuple[str, str], Trail] = {}
    for name, trail, phrases in said:
        for place, phrase in enumerate(map(normalised, phrases)):
            if first.setdefault(phrase, name) != name:
                told.setdefault((phrase, name), (*trail, place))
    for (phrase, _), trail in told.items():
        yield remark(rule, *trail, phrase=phrase, other=first[phrase])
