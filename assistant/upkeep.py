"""How long ago things were done to a machine, by the address book and by its earlier sessions.

The rule: the later of two dates holds. A session counts as service where the repair that cured it is one
that the pack says so of; a date that lies ahead, from a clock that was wrong, counts as today.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from graph.service import aged_switches, done_by, visited

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from assistant.history import Past
    from assistant.sites import SiteMachine
    from graph.machine import Machine

INSTALLED = "installed"


@dataclass(frozen=True, slots=True)
class Upkeep:
    """What dates say of a machine: switches that follow from them, and days since each piece of service."""

    switches: tuple[tuple[str, str], ...] = ()
    serviced: tuple[tuple[str, float], ...] = ()


def booked(machine: SiteMachine, today: date) -> dict[str, float]:
    """Return how many days ago each date of the address book was, by service or `installed`."""
    dates = {INSTALLED: machine.installed} if machine.installed else {}
    return {
        name: float(max(0, (today - date.fromisoformat(text)).days))
        for name, text in {**dates, **machine.serviced}.items()
    }


def upkeep(machine: Machine, ages: Mapping[str, float], past: Iterable[Past]) -> Upkeep:
    """Return what ages in days and earlier sessions say of a machine.

    Switches are named only where they differ from how the machine is set already.
    """
    known = dict(ages)
    for name, days in _by_sessions(machine, past):
        known[name] = min(days, known.get(name, days))
    switches = aged_switches(machine.ageing, {**known, **visited(machine.services, known)})
    return Upkeep(
        tuple(pair for pair in switches if machine.switches.get(pair[0]) != pair[1]),
        tuple((item.id, known[item.id]) for item in machine.services if item.id in known),
    )


def _by_sessions(machine: Machine, past: Iterable[Past]) -> Iterable[tuple[str, float]]:
    """Yield the service that repairs of earlier sessions have done, with how long ago."""
    bases = {remedy.id: remedy.base for remedy in machine.remedies}
    cured_by = {fault.id: bases.get(fault.remedy, "") for fault in machine.faults}
    for each in past:
        if each.pack == machine.pack and each.cured:
            remedies = (cured_by.get(cause, "") for cause in each.causes)
            yield from ((name, each.days) for name in done_by(machine.services, remedies))
