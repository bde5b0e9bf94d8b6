"""Hearing beside plain string matching: `python tests/bench/bench_hear.py`, run by hand.

Speed: a line through `hear`, and through rapidfuzz's `process.extractOne` over the same phrases of symptoms. Scores: how
often the symptom of a line with exactly one comes first, or among three, on the half of the test set that may be
looked at (`tune`); sisters that only the barrels named tell apart count as one.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).parents[2]))  # the checkout itself, not what is installed

from rapidfuzz import fuzz, process

from assistant.hear import Phrasebook, hear
from assistant.hear.line import Line
from assistant.hear.phrasebook import first_instances
from assistant.hear.table import comparable
from assistant.library import load_case

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence


UTTERANCES = Path(__file__).parents[1] / "assistant" / "utterances.jsonl"
SCORERS = {
    "ratio": fuzz.ratio,
    "token_set_ratio": fuzz.token_set_ratio,
    "token_sort_ratio": fuzz.token_sort_ratio,
    "partial_ratio": fuzz.partial_ratio,
    "WRatio": fuzz.WRatio,
}


def lines(half: str) -> list[dict[str, object]]:
    """Return the lines of one half that report exactly one symptom, unasked."""
    with UTTERANCES.open(encoding="utf-8") as file:
        found = [json.loads(row) for row in file]
    return [line for line in found if line["half"] == half and not line["asked"] and _symptom(line)]


def _symptom(line: dict[str, object]) -> str:
    facts = line["facts"]
    told = [fact["ref"] for fact in facts if fact["kind"] == "symptom"]  # type: ignore[attr-defined]
    mixed = any(fact["kind"] in {"not_symptom", "fine", "correct"} for fact in facts)  # type: ignore[attr-defined]
    return told[0] if len(told) == 1 and not mixed else ""


def timed(work: Callable[[str], object], texts: Sequence[str]) -> tuple[float, float]:
    """Return the median and the 95th percentile of the time for a text, in ms."""
    spent = []
    for text in texts:
        started = perf_counter()
        work(text)
        spent.append(1000 * (perf_counter() - started))
    return median(spent), sorted(spent)[int(0.95 * len(spent))]


def main() -> None:
    """Print the speed and the scores."""
    machine = load_case().machine
    started = perf_counter()
    book = Phrasebook.of(machine)
    built = perf_counter() - started
    phrases = [
        (text, check.ref)
        for check in first_instances(machine)
        if check.kind == "symptom"
        for text in check.say
    ]
    out = [
        f"{len(phrases)} phrases of symptoms, {len(book.outcomes.owners)} of outcomes; made in {built:.2f} s"
    ]
    half = lines("tune")
    texts = [str(line["text"]) for line in half]
    out.append(_speed("hear", *timed(lambda text: hear(machine, text, None, book), texts)))
    choices = [text for text, _ in phrases]
    for name, scorer in SCORERS.items():
        found = timed(lambda text, scorer=scorer: process.extractOne(text, choices, scorer=scorer), texts)
        out.append(_speed(f"rapidfuzz extractOne {name}", *found))
    out.append(f"{len(half)} lines with one symptom:")
    family = {name: book.meaning_of(pair[0]).ref for name, pair in book.siblings.items()}
    heads = {meaning.ref: family.get(meaning.check, meaning.ref) for meaning in book.symptoms.meanings}
    out.append(_score("likeness and regression", half, heads, lambda text: _ranked(text, book)))
    for name, scorer in SCORERS.items():
        out.append(_score(f"rapidfuzz {name}", half, heads, _by_string(phrases, scorer)))
    sys.stdout.write("\n".join(out) + "\n")


def _speed(name: str, middle: float, tail: float) -> str:
    return f"{name}: {middle:.2f} ms a line (95 %: {tail:.2f} ms)"


def _ranked(text: str, book: Phrasebook) -> list[str]:
    words = comparable(Line.of(text, book).words, book.barrels)
    scores = book.symptoms.scores(words)
    return [book.symptoms.meanings[row].ref for row in (-scores).argsort(kind="stable")]


def _by_string(
    phrases: Sequence[tuple[str, str]], scorer: Callable[..., float]
) -> Callable[[str], list[str]]:
    choices = [text for text, _ in phrases]

    def rank(text: str) -> list[str]:
        found = process.extract(text.lower(), choices, scorer=scorer, limit=60)
        return [phrases[place][1] for _, _, place in found]

    return rank


def _score(
    name: str, half: Sequence[dict[str, object]], heads: dict[str, str], rank: Callable[[str], list[str]]
) -> str:
    first = three = 0
    for line in half:
        wanted = heads[_symptom(line)]
        order = list(dict.fromkeys(heads[ref] for ref in rank(str(line["text"]))))[:3]
        first += order[:1] == [wanted]
        three += wanted in order
    return f"{name}: first {first / len(half):.1%}, among three {three / len(half):.1%}"


if __name__ == "__main__":
    main()
