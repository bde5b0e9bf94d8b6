"""Fit how far a symptom that was heard is to be trusted: prints the weights for `assistant/hear/trust.py`.

    python tests/fit_trust.py

Reads the practice lines and the half of the test set that may be looked at. Each group of lines is also
judged by weights fitted to the other groups, and the printed counts are of that.
"""

from __future__ import annotations

import json
import sys
from dataclasses import fields
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import score_utterances as scoring
from logistic import fit, held_out, shown, taken_rightly

from assistant.hear import hear, making, trust
from assistant.hear.shelf import phrasebook
from assistant.library import load_case

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from assistant.hear.phrasebook import Phrasebook
    from graph.machine import Machine

PRACTICE = Path(__file__).parent / "assistant" / "practice.jsonl"
WRONG = (3, 5, 8, 12, 20)


def _heard(machine: Machine, book: Phrasebook) -> tuple[NDArray[Any], NDArray[Any], NDArray[Any]]:
    """Return the signs of every first guess at a symptom, whether it was right, and its group."""
    judge = scoring.Judge(machine)
    seen: list[tuple[str, str, trust.Signs]] = []
    told = making.Maker.symptoms

    def watched(self: Any, found: Any, *others: Any, **how: Any) -> Any:
        facts, barrels = told(self, found, *others, **how)
        seen.extend((f.kind, f.ref, trust.signs(found, self.line, book)) for f in facts[:1])
        return facts, barrels

    making.Maker.symptoms = watched  # type: ignore[method-assign]
    offered, trust.OFFERED = trust.OFFERED, 0.0  # also what would be left out teaches
    rows, right, groups = [], [], []
    lines = [json.loads(line) for line in PRACTICE.read_text(encoding="utf-8").splitlines()]
    for line in [*lines, *scoring.read("tune")]:
        if line["asked"]:
            continue
        seen.clear()
        facts, _ = hear(machine, line["text"], None, book)
        left = [judge.wanted(fact) for fact in line["facts"]]
        for group in scoring.groups_of(facts):
            first = group[0]
            hit = next((want for want in left if judge.same(want, judge.heard(first), None)), None)
            if hit is not None:
                left.remove(hit)
            of = [found for kind, ref, found in seen if (kind, ref) == (first.kind, first.ref)]
            if of and first.kind in {"symptom", "not_symptom"}:
                rows.append([getattr(of[-1], field.name) for field in fields(trust.Signs)])
                right.append(hit is not None)
                groups.append(line["id"].rstrip("0123456789"))
    making.Maker.symptoms, trust.OFFERED = told, offered  # type: ignore[method-assign]
    return np.array(rows), np.array(right), np.array(groups)


def main() -> None:
    """Print the weights, and how many would be taken rightly where so many are taken wrongly."""
    machine = load_case(None).machine
    rows, right, groups = _heard(machine, phrasebook(machine))
    odds = held_out(rows, right, groups)
    report = [f"{len(rows)} first guesses, {int(right.sum())} right", *taken_rightly(odds, right, WRONG)]
    report += shown([field.name for field in fields(trust.Signs)], fit(rows, right))
    sys.stdout.write("\n".join(report) + "\n")


if __name__ == "__main__":
    main()
