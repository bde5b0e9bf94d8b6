"""The elements of one machine by their ids."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from graph.machine import Caution, Check, Component, Fault, Gate, Machine, Place, Quantity, Remedy


class Elements:
    """Looks up what `machine` consists of."""

    def __init__(self, machine: Machine) -> None:
        self.machine = machine

    @cached_property
    def _check_at(self) -> Mapping[str, int]:
        return {check.id: index for index, check in enumerate(self.machine.checks)}

    @cached_property
    def _fault_at(self) -> Mapping[str, int]:
        return {fault.id: index for index, fault in enumerate(self.machine.faults)}

    @cached_property
    def _remedy_at(self) -> Mapping[str, int]:
        return {remedy.id: index for index, remedy in enumerate(self.machine.remedies)}

    @cached_property
    def _others(self) -> Mapping[str, Mapping[str, object]]:
        machine = self.machine
        kinds = ("components", "cautions", "gates", "quantities", "places")
        return {kind: {element.id: element for element in getattr(machine, kind)} for kind in kinds}

    def has_check(self, name: str) -> bool:
        """Return whether there is a check or symptom of that id."""
        return name in self._check_at

    def position(self, name: str) -> int:
        """Return where a check or symptom stands in the tables; KeyError when there is none."""
        return self._check_at[name]

    def check(self, name: str) -> Check:
        """Return a check or symptom; KeyError when there is none."""
        return self.machine.checks[self._check_at[name]]

    def fault(self, name: str) -> Fault:
        """Return a fault; KeyError when there is none."""
        return self.machine.faults[self._fault_at[name]]

    def remedy(self, name: str) -> Remedy:
        """Return a remedy; KeyError when there is none."""
        return self.machine.remedies[self._remedy_at[name]]

    def component(self, name: str) -> Component:
        """Return a component; KeyError when there is none."""
        return self._others["components"][name]  # type: ignore[return-value]

    def caution(self, name: str) -> Caution:
        """Return a caution; KeyError when there is none."""
        return self._others["cautions"][name]  # type: ignore[return-value]

    def gate(self, name: str) -> Gate:
        """Return a gate; KeyError when there is none."""
        return self._others["gates"][name]  # type: ignore[return-value]

    def quantity(self, name: str) -> Quantity:
        """Return a quantity; KeyError when there is none."""
        return self._others["quantities"][name]  # type: ignore[return-value]

    def place(self, name: str) -> Place:
        """Return a place; KeyError when there is none."""
        return self._others["places"][name]  # type: ignore[return-value]
