"""Likelihood rows as people read them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from graph.audit.view import View
    from graph.machine import Check

SHOWN = 0.005  # a probability below this is left out of a sentence


def spread(check: Check, row: Sequence[float]) -> str:
    """Return a row as "low 0.90, in_window 0.10", the likeliest outcome first."""
    pairs = sorted(zip(check.outcomes, row, strict=True), key=lambda pair: -round(pair[1], 9))
    return ", ".join(f"{outcome.id} {p:.2f}" for outcome, p in pairs if p >= SHOWN)


def speaking_row(view: View, check: Check, fault: str) -> tuple[str, tuple[float, ...]] | None:
    """Return the key and the row by which a check speaks of a fault, None where it does not.

    The fault's own row, else that of the nearest event above it, as `compile` has it.
    """
    written = {row.key: row.probabilities for row in check.rows}
    key = next((name for name in (fault, *view.above[fault]) if name in written), None)
    return None if key is None else (key, written[key])


def rows_of(view: View, fault: str, *, symptoms: bool) -> tuple[tuple[str, str | float, str], ...]:
    """Return for every symptom, or every check, that speaks of a fault: id, what it shows, the row's key."""
    found: list[tuple[str, str | float, str]] = []
    for check in view.machine.checks:
        if (check.kind == "symptom") != symptoms:
            continue
        speaks = speaking_row(view, check, fault)
        if speaks is not None:
            key, row = speaks
            found.append((check.id, round(row[0], 4) if symptoms else spread(check, row), _by(key, fault)))
    return tuple(sorted(found, key=lambda row: -row[1]) if symptoms else found)  # type: ignore[operator]


def _by(key: str, fault: str) -> str:
    return "its own" if key == fault else key
