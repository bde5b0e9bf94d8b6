"""Fit how words that deny a trouble are told from words that tell one: weights for `assistant/hear/denial.py`.

    python tests/fit_denial.py

Reads the practice lines and the half of the test set that may be looked at; takes the runs of words of which one
reading is right and the other wrong. The printed errors are of weights fitted to the other groups of lines.
"""

from __future__ import annotations

import json
import sys
from dataclasses import astuple, fields
from pathlib import Path
from typing import Any

import numpy as np
import score_utterances as scoring
from logistic import fit, held_out, shown

from assistant.hear import denial, hear, unasked
from assistant.hear.shelf import phrasebook
from assistant.library import load_case

PRACTICE = Path(__file__).parent / "assistant" / "practice.jsonl"


def _runs() -> tuple[list[tuple[float, ...]], list[bool], list[str]]:
    """Return the signs of each run, whether it denies a trouble, and its group."""
    machine = load_case(None).machine
    book = phrasebook(machine)
    seen: list[denial.Readings] = []
    runs: list[tuple[denial.Readings, str, str]] = []
    judged, read = denial.probability, unasked._denial  # noqa: SLF001 -- both readings are known only there

    def probability(signs: denial.Readings) -> float:
        seen.append(signs)
        return judged(signs)

    def kin(ref: str) -> str:
        check = next(m.check for m in book.symptoms.meanings if m.ref == ref)
        return book.siblings.get(check, (check,))[0]

    def watched(found: Any, said: Any, *others: Any) -> Any:
        seen.clear()
        told = read(found, said, *others)
        turned = unasked._turned(said, *others) if seen else None  # noqa: SLF001
        if turned is not None:
            denied = unasked._best(book.symptoms.scores(turned), turned, book)  # noqa: SLF001
            runs.append((seen[0], kin(found.ranked[0][0].ref), kin(denied[0][0].ref)))
        return told

    denial.probability, unasked._denial = probability, watched  # noqa: SLF001
    rows, right, groups = [], [], []
    lines = [json.loads(line) for line in PRACTICE.read_text(encoding="utf-8").splitlines()]
    for line in [*lines, *scoring.read("tune")]:
        if line["asked"]:
            continue
        runs.clear()
        hear(machine, line["text"], None, book)
        told = {kin(fact["ref"]) for fact in line["facts"] if fact["kind"] == "symptom"}
        denied = {kin(fact["ref"]) for fact in line["facts"] if fact["kind"] == "not_symptom"}
        for signs, straight, other in dict.fromkeys(runs):
            if (straight in told) != (other in denied):
                rows.append(astuple(signs))
                right.append(other in denied)
                groups.append(line["id"].rstrip("0123456789"))
    denial.probability, unasked._denial = judged, read  # noqa: SLF001
    return rows, right, groups


def main() -> None:
    """Print the weights, and how often they are wrong on lines that they were not fitted to."""
    found = _runs()
    rows, denies, groups = np.array(found[0]), np.array(found[1]), np.array(found[2])
    odds = held_out(rows, denies, groups)
    sure = np.log(denial.SURE / (1.0 - denial.SURE))
    report = [
        f"{len(rows)} runs, {int(denies.sum())} deny; heard wrongly {int(((odds > 0) != denies).sum())}",
        f"surely so: {int(((odds >= sure) & ~denies).sum())} no denials, {int(((odds <= -sure) & denies).sum())} denials",
    ]
    report += shown([field.name for field in fields(denial.Readings)], fit(rows, denies))
    sys.stdout.write("\n".join(report) + "\n")


if __name__ == "__main__":
    main()
