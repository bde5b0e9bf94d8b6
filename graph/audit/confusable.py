"""Faults that a truthful interview takes for something else.

Every check that is asked is answered as the fault most likely answers it, then the belief is looked at.
Hypotheses are the single faults, nothing wrong and a cause outside the graph; pairs are left out,
since a question about one fault is asked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from graph.arrays import Bools, Floats, Ints
    from graph.audit.remark import Fact, Remark
    from graph.audit.view import View

WRONG_SHARE = 0.4  # belief in something else above which a fault counts as confusable
LEAST = 1e-12  # in place of a probability of zero, which would leave no belief at all
NOTHING, UNKNOWN = "nothing is wrong", "not in this graph"


@dataclass(frozen=True, slots=True)
class Confusion:
    """What is believed instead of a fault that answered every check truthfully."""

    fault: str
    other: str  # a fault's id, NOTHING or UNKNOWN
    believed: float  # probability of the other
    own: float  # probability of the fault itself
    same_remedy: bool


def confusions(view: View) -> tuple[Confusion, ...]:
    """Return every fault whose truthful interview leaves something else above WRONG_SHARE."""
    faults = view.machine.faults
    belief = truthful(view)
    own = np.diagonal(belief)
    others = belief.copy()
    np.fill_diagonal(others[:, : len(faults)], 0.0)
    worst = others.argmax(axis=1)
    found = []
    for index, fault in enumerate(faults):
        at = int(worst[index])
        if others[index, at] <= WRONG_SHARE:
            continue
        name = faults[at].id if at < len(faults) else (NOTHING, UNKNOWN)[at - len(faults)]
        same = at < len(faults) and faults[at].remedy == fault.remedy
        found.append(Confusion(fault.id, name, float(others[index, at]), float(own[index]), same))
    return tuple(found)


def truthful(view: View) -> Floats:
    """Return the belief after the truthful interview of each fault, shape (N, N + 2).

    The last two columns are nothing wrong and a cause outside the graph. Reckoned from the `otherwise`
    rows outwards: only entries, faults with a row of their own, change a sum.
    """
    tables = view.tables
    logs = np.log(np.maximum(view.seen, LEAST))
    unknown_logs = np.log(np.maximum(view.unknown_seen, LEAST))
    start = tables.class_start[:-1]
    answers, asked = _interview(view)
    prior = np.log(np.concatenate([tables.odds, [tables.nothing, tables.unknown]]))
    belief = np.empty((tables.faults, tables.faults + 2))
    for fault in range(tables.faults):
        said, heard = answers[fault], asked[fault]
        calm = logs[start, said]  # (C,)
        at = heard[view.entry_check]
        check = view.entry_check[at]
        shift = logs[tables.entry_class[at], said[check]] - calm[check]
        score = prior.copy()
        score[: tables.faults] += np.bincount(tables.entry_fault[at], shift, tables.faults)
        outside = unknown_logs[np.arange(tables.checks), said] - calm
        score[-1] += float(outside[heard].sum())
        weight = np.exp(score - score.max())
        belief[fault] = weight / weight.sum()
    return belief


def _interview(view: View) -> tuple[Ints, Bools]:
    """Return each fault's likeliest answer to every check and whether it is asked, both (N, C).

    A check that only proves a repair is not asked, nor one whose conditions the earlier answers break.
    """
    answers: Ints = view.tables.rows.argmax(axis=1)[view.member]
    checks = view.machine.checks
    position = {check.id: index for index, check in enumerate(checks)}
    asked = np.ones(answers.shape, dtype=np.bool_)
    asked[:, [check.phase == "proving" for check in checks]] = False
    for index, check in enumerate(checks):
        for holds, conditions in ((True, check.needs), (False, check.unless)):
            for other, outcomes in conditions:
                at = position[other]
                wanted = [checks[at].outcome_index(outcome) for outcome in outcomes]
                asked[:, index] &= np.isin(answers[:, at], wanted) == holds
    return answers, asked


def confusion_remarks(views: Sequence[View]) -> Iterator[Remark]:
    """Yield one remark per pair as written, with the worst of its instances; other remedies weigh most."""
    worst: dict[tuple[str, str], Confusion] = {}
    count: dict[tuple[str, str], int] = {}
    for view in views:
        here: dict[tuple[str, str], int] = {}
        for found in confusions(view):
            key = (found.fault.partition("@")[0], found.other.partition("@")[0])
            here[key] = here.get(key, 0) + 1
            if key not in worst or found.believed > worst[key].believed:
                worst[key] = found
        for key, number in here.items():
            count[key] = max(count.get(key, 0), number)
    for (base, _), found in worst.items():
        facts: dict[str, Fact] = {
            "fault": found.fault,
            "other": found.other,
            "believed": round(found.believed, 4),
            "own": round(found.own, 4),
            "instances": count[base, found.other.partition("@")[0]],
        }
        rule = "confusable_same_remedy" if found.same_remedy else "confusable"
        yield remark(rule, "faults", base, **facts).weighing(found.believed)
