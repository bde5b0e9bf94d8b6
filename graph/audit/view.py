"""One expanded machine as the audit looks at it: which class every fault has in every check.

Array letters as in `tables`: N faults, C checks, K outcomes, J classes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from graph.compile import compile_tables, tree_of
from graph.evidence import slipped
from graph.expand import expand
from graph.tree import ancestors_true, joint_pairs

if TYPE_CHECKING:
    from graph.arrays import Floats, Ints
    from graph.machine import Check, Machine
    from graph.pack import Knowledge
    from graph.tables import Tables
    from graph.tree import FaultTree

ROLE = "technician"  # whose slips the audit reckons with: the most careful of those who may ask anything


@dataclass(frozen=True)
class View:
    """A machine, its arrays and its tree."""

    machine: Machine
    tables: Tables
    tree: FaultTree

    @cached_property
    def entry_check(self) -> Ints:
        """Return the check of every entry, shape (E,)."""
        found: Ints = np.repeat(np.arange(self.tables.checks), np.diff(self.tables.entry_start))
        return found

    @cached_property
    def member(self) -> Ints:
        """Return the class of every fault in every check, counted through all checks, shape (N, C)."""
        found: Ints = np.tile(self.tables.class_start[:-1], (self.tables.faults, 1))
        found[self.tables.entry_fault, self.entry_check] = self.tables.entry_class
        return found

    @cached_property
    def class_check(self) -> Ints:
        """Return the check of every class, shape (J,)."""
        found: Ints = np.repeat(np.arange(self.tables.checks), np.diff(self.tables.class_start))
        return found

    @cached_property
    def slips(self) -> Floats:
        """Return how often each check is answered wrongly, shape (C,)."""
        usual = self.machine.settings.slips.get(ROLE, 0.0)
        found: Floats = np.where(np.isnan(self.tables.slip_own), usual, self.tables.slip_own)
        return found

    @cached_property
    def seen(self) -> Floats:
        """Return the rows as answers show them, slips included, shape (J, K)."""
        return self._slipped(self.tables.rows, self.class_check)

    @cached_property
    def unknown_seen(self) -> Floats:
        """Return the rows of the unknown cause as answers show them, shape (C, K)."""
        return self._slipped(self.tables.unknown_rows, np.arange(self.tables.checks))

    def _slipped(self, rows: Floats, checks: Ints) -> Floats:
        found = np.array(rows)
        for index, check in enumerate(checks):
            outcomes = int(self.tables.outcomes[check])
            found[index] = slipped(rows[index], float(self.slips[check]), outcomes)
        return found

    @cached_property
    def above(self) -> dict[str, tuple[str, ...]]:
        """Return for every fault the events that it alone makes true, nearest first."""
        names = (fault.id for fault in self.machine.faults)
        return {name: tuple(event for event, _ in ancestors_true(self.tree, name)) for name in names}

    @cached_property
    def reached(self) -> dict[str, tuple[str, ...]]:
        """Return for every fault or event the faults that are it or alone make it true."""
        found: dict[str, list[str]] = {}
        for fault, events in self.above.items():
            for key in (fault, *events):
                found.setdefault(key, []).append(fault)
        return {key: tuple(faults) for key, faults in found.items()}

    @cached_property
    def together(self) -> frozenset[str]:
        """Return the events that some two faults make true and neither alone."""
        return frozenset(event for _, _, event in joint_pairs(self.tree))

    @cached_property
    def is_symptom(self) -> tuple[bool, ...]:
        """Return for every check whether it is a symptom."""
        return tuple(check.kind == "symptom" for check in self.machine.checks)

    def speaking(self, check: Check) -> frozenset[str]:
        """Return the keys of the rows of a check that some fault, alone or with another, makes apply.

        The rule is that of `compile`: a fault's own row, else that of the nearest event above it.
        """
        written = {row.key for row in check.rows}
        found = {key for key in written if key in self.together}
        for fault in {fault for key in written for fault in self.reached.get(key, ())}:
            found.add(fault if fault in written else next(e for e in self.above[fault] if e in written))
        return frozenset(found)


def view_of(knowledge: Knowledge, profile: str) -> View:
    """Return the view of one profile's machine. Cost: a second or so.

    Raises TreeInvalid for an unsound tree, PackMissing for an unknown profile.
    """
    return view_machine(expand(knowledge, profile, ""))


def view_machine(machine: Machine) -> View:
    """Return the view of a machine that is already expanded."""
    return View(machine, compile_tables(machine), tree_of(machine))
