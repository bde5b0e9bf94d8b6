"""The next check, and when to stop asking."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from graph.repair import batch_costs, expected_cost, repair_order

if TYPE_CHECKING:
    from collections.abc import Sequence

    from graph.arrays import Floats, Ints
    from graph.gain import Gains

By = Literal["minutes", "bits"]
Reason = Literal["certain", "cheaper", "no_check_changes_it", "unknown_leads", "nothing_wrong", "ask"]

LOOK_AHEAD = 5  # how many of the best checks the stop rule prices


@dataclass(frozen=True)
class Stop:
    """When to act: the thresholds and prices of the stop rule, all from the pack."""

    certain: float  # act at this probability of the leading remedy, without asking on
    try_at: float  # below this no repair is tried while a check can still tell something
    leftover: float  # cost of ending with a cause that no repair of ours meets
    minute: float  # cost of a minute of asking
    unknown: float  # hand over when `not in this graph` holds at least this much
    humble: float  # and the leading remedy less than this
    tells_nothing: float  # bits about what to do below which a check cannot change it


@dataclass(frozen=True)
class Verdict:
    """Act or ask, with the sums behind it, in the pack's currency."""

    reason: Reason
    remedy: int  # the leading remedy, or the one with the best p / c where acting now is cheaper
    cost_act: float
    cost_ask: float


def rank(gains: Gains, minutes: Floats, names: Ints, by: By = "minutes") -> Ints:
    """Return the positions of the checks in `gains`, best check first.

    The score is the gain about what to do per minute (moving included), or the gain alone by bits;
    ties go by the gain about the hypothesis, then by `names`, their order in the pack. Scores are
    rounded so that noise in the last digits never decides.
    """
    score = gains.remedy_bits / minutes if by == "minutes" else gains.remedy_bits
    order = np.lexsort((names, -np.round(gains.fault_bits, 9), -np.round(score, 9)))
    ranked: Ints = order.astype(np.int64)
    return ranked


def verdict(gains: Gains, ranked: Sequence[int], minutes: Floats, costs: Floats, stop: Stop) -> Verdict:
    """Return whether to act now or to ask the best check.

    `costs[r]` is what trying remedy r costs, `minutes` what each check of the plan takes. A cheap
    repair that may well help is tried early: the expected cost of repair now is compared with that of
    the best of the leading checks, its own cost included.
    """
    mass = gains.remedy_mass
    repairs = np.where(np.isfinite(costs), mass[: len(costs)], 0.0)
    lead = int(np.argmax(repairs))
    now = expected_cost(repairs, costs, stop.leftover)
    told = [check for check in ranked if gains.remedy_bits[check] > stop.tells_nothing]
    later = _best_ask(gains, told[:LOOK_AHEAD], minutes, costs, stop)
    if mass[-1] >= stop.unknown and repairs[lead] < stop.humble:
        return Verdict("unknown_leads", lead, now, later)
    if mass[-2] >= stop.certain:
        return Verdict("nothing_wrong", lead, now, later)
    if repairs[lead] >= stop.certain:
        return Verdict("certain", lead, now, later)
    if now <= later and told:
        first = int(repair_order(repairs, costs)[0])
        tried = first if repairs[first] >= stop.try_at else lead
        if repairs[tried] >= stop.try_at:
            return Verdict("cheaper", tried, now, later)
    if not told:
        reason: Reason = "unknown_leads" if mass[-1] > repairs[lead] else "no_check_changes_it"
        return Verdict(reason, lead, now, later)
    return Verdict("ask", lead, now, later)


def _best_ask(gains: Gains, checks: Sequence[int], minutes: Floats, costs: Floats, stop: Stop) -> float:
    """Return the least expected cost of asking one of `checks` first and acting then."""
    if gains.joint is None or not checks:
        return float("inf")
    picked = list(checks)
    joint = gains.joint[:, picked]
    after = batch_costs(joint.reshape(len(joint), -1), costs, stop.leftover)
    total = stop.minute * minutes[picked] + after.reshape(len(picked), -1).sum(axis=1)
    return float(total.min())
