"""Faults that the pack cannot see, or cannot tell from one another."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

import numpy as np

from graph.audit.remark import remark

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from graph.audit.remark import Fact, Remark
    from graph.audit.view import View
    from graph.machine import Fault

FEWEST_CHECKS = 2  # that can raise a fault


def apart_remarks(views: Sequence[View]) -> Iterator[Remark]:
    """Yield remarks about faults without symptom or checks, and about faults with the same rows.

    Whatever holds for one instance of a repeated fault is told of the fault as written.
    """
    yield from _unseen(views)
    yield from _alike(views)


def _unseen(views: Sequence[View]) -> Iterator[Remark]:
    symptoms: dict[str, int] = {}
    checks: dict[str, int] = {}
    for view in views:
        spoken = view.member != view.tables.class_start[:-1]  # (N, C)
        noticed = np.array(view.is_symptom)
        narrowing = np.array([c.kind == "check" and c.phase != "proving" for c in view.machine.checks])
        for fault, row in zip(view.machine.faults, spoken, strict=True):
            symptoms[fault.base] = max(symptoms.get(fault.base, 0), int((row & noticed).sum()))
            checks[fault.base] = max(checks.get(fault.base, 0), int((row & narrowing).sum()))
    for base, count in symptoms.items():
        if not count:
            yield remark("fault_without_symptom", "faults", base)
    for base, count in checks.items():
        if count < FEWEST_CHECKS:
            found = remark("fault_with_few_checks", "faults", base, count=count, fewest=FEWEST_CHECKS)
            yield found.weighing(FEWEST_CHECKS - count)


def _alike(views: Sequence[View]) -> Iterator[Remark]:
    """Yield a remark for each group of faults with equal classes everywhere and unequal remedies."""
    told: dict[tuple[str, ...], tuple[Fault, ...]] = {}
    for view in views:
        for group in alike(view):
            names = tuple(dict.fromkeys(fault.base for fault in group))
            told.setdefault(names, group)
    for names, group in told.items():
        remedies = tuple(dict.fromkeys(fault.remedy for fault in group))
        rate = sum(sorted((fault.rate for fault in group), reverse=True)[1:])
        facts: dict[str, Fact] = {
            "faults": ", ".join(names if len(names) > 1 else (fault.id for fault in group)),
            "remedies": ", ".join(remedies),
            "rate": round(rate, 3),
        }
        yield remark("faults_alike", "faults", group[0].base, **facts).weighing(rate)


def alike(view: View) -> tuple[tuple[Fault, ...], ...]:
    """Return the groups of faults that no check and no symptom tells apart although remedies differ.

    Two instances of one fault at different places are such a group too.
    """
    groups: Mapping[bytes, list[Fault]] = defaultdict(list)
    for fault, row in zip(view.machine.faults, view.member, strict=True):
        groups[row.tobytes()].append(fault)
    return tuple(tuple(group) for group in groups.values() if len({fault.remedy for fault in group}) > 1)
