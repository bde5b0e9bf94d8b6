"""Fit how far an answer that nobody asked for is to be trusted: weights for `assistant/hear/volunteered.py`.

    python tests/fit_volunteered.py

Reads the practice lines and the half of the test set that may be looked at. The printed counts are of weights
fitted to the other groups of lines.
"""

from __future__ import annotations

import json
import sys
from dataclasses import astuple, fields
from pathlib import Path

import numpy as np
import score_utterances as scoring
from logistic import fit, held_out, shown, taken_rightly

from assistant.hear import volunteered
from assistant.hear.line import Line
from assistant.hear.shelf import phrasebook
from assistant.library import load_case

PRACTICE = Path(__file__).parent / "assistant" / "practice.jsonl"
WRONG = (3, 5, 8, 12, 20, 30)


def _candidates() -> tuple[list[tuple[float, ...]], list[bool], list[str]]:
    """Return the signs of each candidate, whether it is right, and its group."""
    machine = load_case(None).machine
    book = phrasebook(machine)
    rows, right, groups = [], [], []
    lines = [json.loads(line) for line in PRACTICE.read_text(encoding="utf-8").splitlines()]
    for told in [*lines, *scoring.read("tune")]:
        wanted = {(fact["ref"], fact["outcome"]) for fact in told["facts"] if fact["kind"] == "answer"}
        if told["asked"] and not any(ref != told["asked"] for ref, _ in wanted):
            continue
        line = Line.of(told["text"], book)
        asked = book.check(told["asked"]) if told["asked"] else None
        base = asked.base if asked is not None and asked.kind != "symptom" else ""
        for answer in volunteered.candidates(line, line.segments(), book, base):
            best = answer.ranked[0][0]
            rows.append(astuple(answer.signs))
            right.append((best.ref, best.outcome_ref) in wanted)
            groups.append(told["id"].rstrip("0123456789"))
    return rows, right, groups


def main() -> None:
    """Print the weights, and how many would be taken rightly where so many are taken wrongly."""
    found = _candidates()
    rows, right, groups = np.array(found[0]), np.array(found[1]), np.array(found[2])
    odds = held_out(rows, right, groups)
    report = [f"{len(rows)} candidates, {int(right.sum())} right", *taken_rightly(odds, right, WRONG)]
    report += shown([field.name for field in fields(volunteered.Signs)], fit(rows, right))
    sys.stdout.write("\n".join(report) + "\n")


if __name__ == "__main__":
    main()
