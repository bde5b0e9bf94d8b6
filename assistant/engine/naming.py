"""From what a fact, a slash word or a person calls a thing to the instances of this machine."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import TypeVar

    from assistant.facts import Fact
    from graph import Case
    from graph.machine import Check, Component, Quantity

    Named = TypeVar("Named", Check, Component)


def checks_meant(case: Case, fact: Fact, kind: str) -> tuple[Check, ...]:
    """Return the checks or symptoms that a fact may mean, narrowed to the barrels it names."""
    pool = [check for check in case.machine.checks if check.kind == kind]
    found = [check for check in pool if check.id == fact.id] or _by_other_name(
        pool, fact.id, fact.ref or fact.id
    )
    if len(found) > 1 and fact.which:
        found = [check for check in found if check.barrel in fact.which] or found
    return tuple(found)


def quantities_meant(case: Case, name: str, which: tuple[int, ...]) -> tuple[Quantity, ...]:
    """Return the quantities of that id or base id, narrowed to the barrels named."""
    pool = case.machine.quantities
    found = [quantity for quantity in pool if quantity.id == name] or [
        quantity for quantity in pool if quantity.base == name
    ]
    if len(found) > 1 and which:
        found = [quantity for quantity in found if quantity.barrel in which] or found
    return tuple(found)


def named(pool: Iterable[Named], words: str) -> tuple[Named, ...]:
    """Return what is called so by id, base id or ref; else what has all these words in its title."""
    wanted = words.casefold().split()
    elements = tuple(pool)
    exact = [element for element in elements if element.id.casefold() == words.strip().casefold()]
    name, _, place = words.strip().partition("@")
    found = exact or [
        element
        for element in _by_other_name(elements, name, name.upper())
        if not place or element.id.endswith(f"@{place}")
    ]
    if found or not wanted:
        return tuple(found)
    return tuple(e for e in elements if all(word in e.title.casefold() for word in wanted))


def _by_other_name(pool: Iterable[Named], base: str, ref: str) -> list[Named]:
    """Return the elements of a base id or, if there are none, of a ref; an empty name means nothing."""
    elements = list(pool)
    found = [element for element in elements if base and element.base == base]
    return found or [element for element in elements if ref and element.ref == ref]
