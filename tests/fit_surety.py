"""Fit how far the answer that a reply comes closest to is to be trusted: weights for `assistant/hear/surety.py`.

    python tests/fit_surety.py

Reads the replies among the practice lines and in the half of the test set that may be looked at. The printed
counts are of weights fitted to the other groups of lines.
"""

from __future__ import annotations

import json
import sys
from dataclasses import astuple, fields
from pathlib import Path
from typing import Any

import numpy as np
import score_utterances as scoring
from logistic import fit, held_out, shown, taken_rightly

from assistant.hear import hear, surety
from assistant.hear.shelf import phrasebook
from assistant.library import load_case

PRACTICE = Path(__file__).parent / "assistant" / "practice.jsonl"
WRONG = (3, 5, 8, 12, 20, 30)


def _replies() -> tuple[list[tuple[float, ...]], list[bool], list[str]]:
    """Return the signs of each reply that was taken for an answer, whether rightly so, and its group."""
    machine = load_case(None).machine
    book, judge = phrasebook(machine), scoring.Judge(machine)
    seen: list[surety.Signs] = []
    judged = surety.probability

    def watched(signs: surety.Signs) -> float:
        seen.append(signs)
        return judged(signs)

    surety.probability = watched
    rows, right, groups = [], [], []
    lines = [json.loads(line) for line in PRACTICE.read_text(encoding="utf-8").splitlines()]
    for line in [*lines, *scoring.read("tune")]:
        if not line["asked"]:
            continue
        seen.clear()
        facts: Any = hear(machine, line["text"], line["asked"], book)[0]
        told = next((f for f in facts if f.ref == line["asked"] and f.kind in {"answer", "danger"}), None)
        if seen and told is not None:
            wanted = [judge.wanted(fact) for fact in line["facts"]]
            rows.append(astuple(seen[-1]))
            right.append(any(judge.same(want, judge.heard(told), line["asked"]) for want in wanted))
            groups.append(line["id"].rstrip("0123456789"))
    surety.probability = judged
    return rows, right, groups


def main() -> None:
    """Print the weights, and how many would be taken rightly where so many are taken wrongly."""
    found = _replies()
    rows, right, groups = np.array(found[0]), np.array(found[1]), np.array(found[2])
    odds = held_out(rows, right, groups)
    report = [f"{len(rows)} answers, {int(right.sum())} right", *taken_rightly(odds, right, WRONG)]
    report += shown([field.name for field in fields(surety.Signs)], fit(rows, right))
    sys.stdout.write("\n".join(report) + "\n")


if __name__ == "__main__":
    main()
