"""How symptoms and checks relate, as far as hearing needs it: sisters, dangers, what is told unasked."""

from __future__ import annotations

from math import log1p
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear.began import beginnings
from assistant.hear.features import tokens
from assistant.hear.joined import Joined
from assistant.hear.match import Index
from assistant.hear.table import Table, comparable
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from numpy.typing import NDArray

    from assistant.hear.which import Barrels
    from assistant.hear.words import Word
    from graph.machine import Check, Machine, Outcome

ENOUGH = 40  # ways of saying a symptom that tell what they have in common
SAME_DANGER = 0.45  # how close the title of a symptom comes to an outcome that it amounts to


def siblings(checks: Iterable[Check]) -> dict[str, tuple[str, str]]:
    """Return the pairs of symptoms of the same trouble on every barrel and on one: `x_all` and `x_one`."""
    names = {check.base for check in checks if check.kind == "symptom"}
    every = [name for name in sorted(names) if name.endswith("_all") and f"{name[:-4]}_one" in names]
    pairs = [(name, f"{name[:-4]}_one") for name in every]
    return {name: pair for pair in pairs for name in pair}


def is_timed(check: Check, read: Callable[[str], tuple[Word, ...]]) -> bool:
    """Tell whether most ways of saying a symptom name an event after which it began; the first will do."""
    named = [any(found.event for found in beginnings(Joined.of(read(text)))) for text in check.say[:ENOUGH]]
    return sum(named) * 2 > len(named)


def safety(machine: Machine, checks: Iterable[Check]) -> tuple[str, ...]:
    """Return the checks that look for danger, in the order in which they are asked."""
    screen = {name: place for place, name in enumerate(machine.safety)}
    asked = [check for check in checks if check.kind != "symptom"]
    chapters = {check.chapter for check in asked if check.id in screen}
    found = [
        c for c in asked if (c.id in screen or c.chapter in chapters) and any(o.danger for o in c.outcomes)
    ]
    return tuple(c.base for c in sorted(found, key=lambda check: screen.get(check.id, len(screen))))


def is_usual(check: Check, outcome: str) -> bool:
    """Tell whether an outcome is the usual one of its check."""
    return check.usual >= 0 and check.outcomes[check.usual].id == outcome


def dangers(
    checks: Iterable[Check], screen: Sequence[str], table: Table, barrels: Barrels
) -> dict[str, tuple[int, ...]]:
    """Return for symptoms the rows of outcomes of the safety screen that they amount to.

    A symptom with a caution answers the first check of the screen that has an outcome with the same caution;
    one without answers an outcome that is called nearly the same.
    """
    by_base = {check.base: check for check in checks}
    rows = {(meaning.check, meaning.outcome): row for row, meaning in enumerate(table.meanings)}
    unusual = [
        (by_base[name], outcome)
        for name in screen
        for outcome in by_base[name].outcomes
        if not is_usual(by_base[name], outcome.id)
    ]
    found: dict[str, tuple[int, ...]] = {}
    for symptom in by_base.values():
        if symptom.kind == "symptom":
            same = _same_caution(symptom, unusual) or _same_name(symptom, unusual, table, barrels)
            found.update({symptom.base: tuple(rows[c.base, o.id] for c, o in same)} if same else {})
    return found


def _same_caution(symptom: Check, unusual: Sequence[tuple[Check, Outcome]]) -> list[tuple[Check, Outcome]]:
    caution = symptom.outcomes[0].danger
    same = [(check, outcome) for check, outcome in unusual if caution and outcome.danger == caution]
    return [(check, outcome) for check, outcome in same if check is same[0][0]]


def _same_name(
    symptom: Check, unusual: Sequence[tuple[Check, Outcome]], table: Table, barrels: Barrels
) -> list[tuple[Check, Outcome]]:
    if symptom.outcomes[0].danger:
        return []
    rows = {(meaning.check, meaning.outcome): row for row, meaning in enumerate(table.meanings)}
    scores = table.scores(comparable(words_of(symptom.title), barrels))
    near = [(scores[rows[c.base, o.id]], c, o) for c, o in unusual]
    best = max(near, key=lambda item: item[0], default=None)
    return [best[1:]] if best is not None and best[0] >= SAME_DANGER else []


def feared(checks: Iterable[Check], table: Table, screen: Sequence[str]) -> NDArray[np.intp]:
    """Return the rows of outcomes that are dangers of the safety screen."""
    by_base = {check.base: check for check in checks}
    rows = []
    for row, meaning in enumerate(table.meanings):
        check = by_base[meaning.check]
        danger = check.outcomes[check.outcome_index(meaning.outcome)].danger
        if meaning.check in screen and danger and not is_usual(check, meaning.outcome):
            rows.append(row)
    return np.array(rows, dtype=np.intp)


def tellable(checks: Iterable[Check], table: Table, screen: Sequence[str]) -> NDArray[np.intp]:
    """Return the rows of outcomes that people may tell unasked: what shows at the machine or on site."""
    told = {c.base for c in checks if c.phase == "narrowing" and c.base not in screen}
    return np.array([row for row, m in enumerate(table.meanings) if m.check in told], dtype=np.intp)


def topics(checks: Iterable[Check], table: Table, barrels: Barrels) -> tuple[Index, NDArray[np.intp]]:
    """Return what the check of each row is about, by its title and questions, and the row of that."""
    by_base = {check.base: check for check in checks}
    names = list(dict.fromkeys(meaning.check for meaning in table.meanings))
    texts = (" . ".join((by_base[name].title, *by_base[name].ask.values())) for name in names)
    vectors = [tokens(comparable(words_of(text), barrels), table.concepts) for text in texts]
    dampened = [{name: log1p(count) for name, count in vector.items()} for vector in vectors]
    places = {name: place for place, name in enumerate(names)}
    return Index.of(dampened, range(len(names))), np.array([places[m.check] for m in table.meanings])


def skilled(checks: Iterable[Check], table: Table) -> NDArray[np.bool_]:
    """Return for each outcome whether its check takes somebody trained."""
    trained = {check.base for check in checks if "operator" not in check.roles}
    return np.array([meaning.check in trained for meaning in table.meanings], dtype=np.bool_)


def sided(machine: Machine) -> frozenset[str]:
    """Return the chapters in which a side of the machine is a barrel: they have checks of single barrels."""
    parts = ((check, {part for o in check.outcomes for part in o.id.split("_")}) for check in machine.checks)
    return frozenset(c.chapter for c, told in parts if c.barrel is not None or {"one", "all"} <= told)
