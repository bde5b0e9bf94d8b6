"""Which checks may be asked now: pure rules over a machine, used by the engine and by the measure."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from graph.machine import Check, Machine

# A role may ask what the roles beside it may do: a helpdesk agent through the operator on the phone.
REACH: Mapping[str, tuple[str, ...]] = {
    "operator": ("operator",),
    "helpdesk": ("helpdesk", "operator"),
    "technician": ("technician", "operator"),
    "refrigeration": ("refrigeration", "technician", "operator"),
    "electrician": ("electrician", "operator"),
    "plumber": ("plumber", "operator"),
    "gas_supplier": ("gas_supplier", "operator"),
    "supervisor": ("supervisor", "operator"),
}


def may_do(role: str, roles: Collection[str]) -> bool:
    """Return whether `role` may do, or have done, what `roles` may do."""
    return any(reached in roles for reached in REACH.get(role, (role,)))


def conditions_hold(check: Check, settled: Mapping[str, str]) -> bool:
    """Return whether the check's preconditions hold.

    `settled` maps each answered check to the id of its outcome. A need that nobody has asked about
    yet is not met; an `unless` that nobody has asked about stands in nobody's way.
    """
    needed = all(settled.get(name) in outcomes for name, outcomes in check.needs)
    return needed and not any(settled.get(name) in outcomes for name, outcomes in check.unless)


def within_reach(machine: Machine, role: str, lacking: Collection[str] = ()) -> tuple[Check, ...]:
    """Return the checks and symptoms that `role` may ever ask while narrowing, in pack order.

    `lacking` are tools that are not at hand.
    """
    return tuple(
        check
        for check in machine.checks
        if check.phase == "narrowing"
        and may_do(role, check.roles)
        and not any(tool in lacking for tool in check.tools)
    )


def still_open(
    checks: Sequence[Check], settled: Mapping[str, str], closed: Collection[str] = ()
) -> tuple[str, ...]:
    """Return the ids of those checks that may be asked now.

    `closed` are checks that cannot be done or were waved aside.
    """
    return tuple(
        check.id
        for check in checks
        if check.id not in settled and check.id not in closed and _stands(check, settled)
    )


def _stands(check: Check, settled: Mapping[str, str]) -> bool:
    return not (check.needs or check.unless) or conditions_hold(check, settled)


def open_checks(
    machine: Machine,
    role: str,
    settled: Mapping[str, str],
    closed: Collection[str] = (),
    lacking: Collection[str] = (),
) -> tuple[str, ...]:
    """Return the checks and symptoms that may be asked now, in pack order."""
    return still_open(within_reach(machine, role, lacking), settled, closed)
