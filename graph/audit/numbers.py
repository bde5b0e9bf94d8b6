"""Numbers and bands that a field alone cannot judge: rows, bands, votes, units, windows."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from graph.audit.remark import remark
from graph.errors import OutOfRange, UnitUnknown
from graph.likelihood import LIKELIHOOD_WORDS
from graph.reading import Band, outcome_weights
from graph.units import canonical_unit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from graph.audit.remark import Fact, Remark
    from graph.pack import Check, Knowledge, Profile, Verification

WEAK = 2.0  # how many times less likely a seldom shown cause may make the usual outcome
ROUNDING = 1e-9  # how far a row may be from one


def number_remarks(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield a remark for every number that contradicts another one."""
    for name, quantity in knowledge.pack.quantities.items():
        yield from _unit(name, quantity.unit)
    for name, profile in knowledge.profiles.items():
        if profile.flavours and len(profile.flavours) != profile.barrels:
            facts = {"flavours": len(profile.flavours), "barrels": profile.barrels}
            yield remark("flavours_and_barrels", "profiles", name, "flavours", **facts)
    for name, event in knowledge.events.items():
        if event.gate == "at_least" and event.k is None:
            yield remark("vote_without_k", "events", name)
        if event.gate != "at_least" and event.k is not None:
            yield remark("k_without_vote", "events", name, "k", gate=event.gate)
    for name, check in knowledge.checks.items():
        yield from _rows(name, check)
        yield from _bands(name, check)
        yield from _weak_words(knowledge, name, check)
    yield from _windows(knowledge)
    yield from _intervals(knowledge)


def _intervals(knowledge: Knowledge) -> Iterator[Remark]:
    """Yield remarks about service that falls due after it is overdue, and switches that age without days."""
    for name, item in knowledge.service.items():
        if item.from_days is not None and item.from_days > item.days:
            facts: dict[str, Fact] = {"from_days": item.from_days, "days": item.days}
            yield remark("due_after_overdue", "service", name, "from_days", **facts)
    for name, switch in knowledge.pack.switches.items():
        if (switch.since is None) != (not switch.after):
            yield remark("ages_by_half", "switches", name)


def _unit(name: str, unit: str) -> Iterator[Remark]:
    trail = ("quantities", name, "unit")
    try:
        kept = canonical_unit(unit)
    except UnitUnknown as error:
        yield remark("unit_unknown", *trail, why=str(error))
        return
    if kept != unit:
        yield remark("unit_not_canonical", *trail, unit=unit, kept=kept)


def _rows(name: str, check: Check) -> Iterator[Remark]:
    for key, numbers in check.rows.items():
        total = math.fsum(numbers.values())
        if abs(total - 1.0) > ROUNDING:
            yield remark("row_sum", "checks", name, "rows", key, total=f"{total:.10g}")
    if check.usual is None and check.otherwise is not None:
        yield remark("otherwise_without_usual", "checks", name, "otherwise")
    if check.otherwise == 1.0:
        yield remark("otherwise_certain", "checks", name, "otherwise")


def _weak_words(knowledge: Knowledge, name: str, check: Check) -> Iterator[Remark]:
    """Yield a remark where a cause that seldom shows an outcome speaks loudly against the usual one.

    What its words leave over is parted evenly by the outcomes where it is not listed (`likelihood`), the
    usual one among them, so that "rarely" alone can weigh more than the author means.
    """
    words, otherwise = knowledge.pack.words, check.otherwise or knowledge.pack.belief.otherwise
    listed: dict[str, dict[str, float]] = {}
    for outcome, answer in check.outcomes.items():
        for word in LIKELIHOOD_WORDS:
            for key in getattr(answer, word):
                shares = listed.setdefault(key, {})
                shares[outcome] = shares.get(outcome, 0.0) + getattr(words, word)
    for key, shares in listed.items():
        total, rest = sum(shares.values()), len(check.outcomes) - len(shares)
        if check.usual is None or check.usual in shares or key in check.rows or total > words.sometimes:
            continue
        usual = (1.0 - total) / rest
        if usual < otherwise / WEAK:
            facts: dict[str, Fact] = {
                "key": key,
                "share": total,
                "usual": check.usual,
                "left": round(usual, 3),
            }
            found = remark(
                "weak_word", "checks", name, "outcomes", next(iter(shares)), otherwise=otherwise, **facts
            )
            yield found.weighing(otherwise / usual)


def _bands(name: str, check: Check) -> Iterator[Remark]:
    trail = ("checks", name, "outcomes")
    banded = {outcome: answer.band for outcome, answer in check.outcomes.items() if answer.band is not None}
    if not banded:
        if check.reading is not None:
            yield remark("reading_without_bands", *trail)
        return
    if check.reading is None and check.work_out is None:
        yield remark("bands_without_reading", *trail)
    try:
        alike = {band: outcome for outcome, band in banded.items()}  # one band may stand at several outcomes
        outcome_weights(0.0, 0.0, [Band(low, high, outcome) for (low, high), outcome in alike.items()])
    except OutOfRange as error:
        yield remark("bands_overlap", *trail, why=str(error))


def _windows(knowledge: Knowledge) -> Iterator[Remark]:
    for name, remedy in knowledge.remedies.items():
        for index, item in enumerate(remedy.verify):
            for profile_name, profile in knowledge.profiles.items():
                if _lacks_window(knowledge, profile, item):
                    facts = {"profile": profile_name, "window": str(item.window), "quantity": str(item.read)}
                    yield remark("window_missing", "remedies", name, "verify", index, **facts)


def _lacks_window(knowledge: Knowledge, profile: Profile, item: Verification) -> bool:
    """Return whether a verification reads against a window that the profile does not state."""
    if item.read is None or item.limits is not None:
        return False
    if item.window is None:
        return True
    channels = (channel.quantity for channel in knowledge.pack.channels.values())
    read = tuple(channels) if item.read == "channel" else (item.read,)
    return any(
        quantity not in profile.windows or getattr(profile.windows[quantity], item.window) is None
        for quantity in read
    )
