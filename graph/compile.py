"""A machine becomes frozen arrays: `compile_tables(machine) -> Tables`.

The rule of rows: under one fault its own row applies, else that of the nearest event that it makes
true (fewest steps up, then file order), else `otherwise`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from graph.arrays import frozen
from graph.likelihood import combine
from graph.tables import Tables
from graph.tree import EventSpec, ancestors_true, build_tree, joint_pairs
from graph.weigh import Shown, mixes_of, prior_of, unknown_rows

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from graph.arrays import Floats
    from graph.machine import Check, Machine
    from graph.prior import Prior
    from graph.tree import FaultTree, Gate

Row = tuple[float, ...]


@dataclass(frozen=True)
class Compiled:
    """One check as classes: `rows[0]` is `otherwise`; `member` gives each listed fault its class."""

    rows: tuple[Row, ...]
    masks: tuple[bool, ...]
    member: Mapping[int, int]
    joint: tuple[tuple[int, int, Row], ...]


def tree_of(machine: Machine) -> FaultTree:
    """Return the fault tree of a machine: its events, with the symptoms as top events."""
    specs = {event.id: EventSpec(_gate(event.gate), event.k, event.of) for event in machine.events}
    known = {fault.id for fault in machine.faults} | set(specs)
    for check in machine.checks:
        causes = tuple(dict.fromkeys(row.key for row in check.rows if row.key in known))
        if check.kind == "symptom" and causes:
            specs[check.id] = EventSpec("any", 1, causes)
    return build_tree(specs, [fault.id for fault in machine.faults])


def _gate(name: str) -> Gate:
    """Return a gate's name as the tree's own type."""
    return "all" if name == "all" else "at_least" if name == "at_least" else "any"


def compile_tables(machine: Machine) -> Tables:
    """Return the arrays of a machine. Cost: a second or so; the result is cached by its digest."""
    tree = tree_of(machine)
    position = {fault.id: index for index, fault in enumerate(machine.faults)}
    above = {name: tuple(event for event, _ in ancestors_true(tree, name)) for name in position}
    joint = tuple(
        (min(position[a], position[b]), max(position[a], position[b]), event)
        for a, b, event in joint_pairs(tree)
        if a in position and b in position
    )
    false_readings = {fault.id for fault in machine.faults if fault.falsifies_reading}
    reached: dict[str, list[str]] = {}  # fault or event -> the faults that are it or make it true, in order
    for name in position:
        for key in (name, *above[name]):
            reached.setdefault(key, []).append(name)
    reach = _Reach(position, above, reached, joint, false_readings)
    compiled = tuple(_check(check, reach) for check in machine.checks)
    return assemble(
        compiled,
        prior_of(machine),
        outcomes=[len(check.outcomes) for check in machine.checks],
        usual=[check.usual for check in machine.checks],
        slips=[np.nan if check.slip is None else check.slip for check in machine.checks],
        mixes=mixes_of(machine),
        remedy=_positions([fault.remedy for fault in machine.faults], [r.id for r in machine.remedies]),
        component=_positions([f.component for f in machine.faults], [c.id for c in machine.components]),
        remedies=len(machine.remedies),
        components=len(machine.components),
    )


def _positions(names: Sequence[str], order: Sequence[str]) -> list[int]:
    where = {name: index for index, name in enumerate(order)}
    return [where[name] for name in names]


class _Reach(NamedTuple):
    """What faults make true, by which every check finds the faults that its rows speak of."""

    position: Mapping[str, int]
    above: Mapping[str, tuple[str, ...]]
    reached: Mapping[str, Sequence[str]]
    joint: Sequence[tuple[int, int, str]]
    false_readings: set[str]


def _check(check: Check, reach: _Reach) -> Compiled:
    rows: dict[tuple[Row, bool], int] = {(check.otherwise, False): 0}
    written = {row.key: row.probabilities for row in check.rows}
    member = {}
    concerned = {name for key in written for name in reach.reached.get(key, ())}
    for name in sorted(concerned, key=reach.position.__getitem__):
        key = name if name in written else next(e for e in reach.above[name] if e in written)
        masked = check.displayed and name in reach.false_readings
        number = rows.setdefault((written[key], masked), len(rows))
        if number:
            member[reach.position[name]] = number
    table = tuple(row for row, _ in rows)
    masks = tuple(mask for _, mask in rows)
    pairs = tuple(
        (a, b, _joint_row(check, table, masks, (member.get(a, 0), member.get(b, 0)), written[event]))
        for a, b, event in reach.joint
        if event in written
    )
    return Compiled(table, masks, member, pairs)


def _joint_row(
    check: Check, rows: Sequence[Row], masks: Sequence[bool], classes: tuple[int, int], event: Row
) -> Row:
    """Return what a pair shows that makes `event` true together; the event draws like a cause."""
    drawing = [(rows[c], masks[c]) for c in classes if c] + [(event, False)]
    return combine([row for row, _ in drawing], check.usual, [mask for _, mask in drawing])


def pair_table(rows: Sequence[Row], masks: Sequence[bool], usual: int) -> Floats:
    """Return the row of every pair of classes, the second running fastest, shape (pairs, outcomes).

    Class 0 draws nothing, so beside it the other class shows its own row. Else it is what `combine` says of
    two causes, for all pairs at once.
    """
    shown, hides = np.array(rows), np.array(masks)
    first, second = (each.ravel() for each in np.indices((len(rows), len(rows))))
    calm = shown[:, usual] if usual >= 0 else np.zeros(len(rows))
    a, b, calm_a, calm_b = shown[first], shown[second], calm[first, None], calm[second, None]
    table = calm_b * a + calm_a * b + (1.0 - calm_b) / 2 * a + (1.0 - calm_a) / 2 * b
    if usual >= 0:
        table[:, usual] = calm[first] * calm[second]
    only_first = (second == 0) | ((first > 0) & hides[first] & ~hides[second])
    only_second = ~only_first & ((first == 0) | (hides[second] & ~hides[first]))
    table = np.where(only_first[:, None], a, np.where(only_second[:, None], b, table))
    found: Floats = table
    return found


def assemble(
    checks: Sequence[Compiled],
    weights: Prior,
    *,
    outcomes: Sequence[int],
    usual: Sequence[int],
    slips: Sequence[float],
    mixes: Sequence[float],
    remedy: Sequence[int],
    component: Sequence[int],
    remedies: int,
    components: int,
) -> Tables:
    """Return the arrays of compiled checks; the one place where padding and numbering happen."""
    width = max(outcomes)
    sizes = [len(check.rows) for check in checks]
    class_start = np.concatenate([[0], np.cumsum(sizes)])
    entries = [
        (fault, int(class_start[number]) + index)
        for number, check in enumerate(checks)
        for fault, index in sorted(check.member.items())
    ]
    joint = [(number, a, b, row) for number, check in enumerate(checks) for a, b, row in _merged(check.joint)]
    pairs = [
        row
        for check, plain in zip(checks, usual, strict=True)
        for row in pair_table(check.rows, check.masks, plain)
    ]
    rows = _padded([row for check in checks for row in check.rows], width)
    entry_fault = frozen([fault for fault, _ in entries], np.int64)
    entry_class = frozen([index for _, index in entries], np.int64)
    shown = Shown(rows, frozen(class_start, np.int64), entry_fault, entry_class, frozen(outcomes, np.int64))
    return Tables(
        odds=frozen(weights.odds),
        nothing=weights.nothing,
        unknown=weights.unknown,
        remedy=frozen(remedy, np.int64),
        component=frozen(component, np.int64),
        remedies=remedies,
        components=components,
        outcomes=shown.outcomes,
        usual=frozen(usual, np.int64),
        slip_own=frozen(slips),
        class_start=shown.class_start,
        rows=rows,
        masks=frozen([mask for check in checks for mask in check.masks], np.bool_),
        unknown_rows=unknown_rows(shown, weights.odds, np.array(mixes)),
        entry_start=frozen(np.concatenate([[0], np.cumsum([len(c.member) for c in checks])]), np.int64),
        entry_fault=entry_fault,
        entry_class=entry_class,
        pair_start=frozen(np.concatenate([[0], np.cumsum([size * size for size in sizes])]), np.int64),
        pair_rows=_padded(pairs, width),
        joint_check=frozen([number for number, *_ in joint], np.int64),
        joint_first=frozen([a for _, a, _, _ in joint], np.int64),
        joint_second=frozen([b for _, _, b, _ in joint], np.int64),
        joint_rows=_padded([row for *_, row in joint], width),
        tail_bound=weights.tail_bound,
    )


def _merged(joint: Sequence[tuple[int, int, Row]]) -> list[tuple[int, int, Row]]:
    """Return one row a pair: the first event in file order speaks where a pair makes several true."""
    first: dict[tuple[int, int], Row] = {}
    for a, b, row in joint:
        first.setdefault((a, b), row)
    return [(a, b, row) for (a, b), row in first.items()]


def _padded(rows: Sequence[Sequence[float]], width: int) -> Floats:
    table = np.zeros((len(rows), width))
    for index, row in enumerate(rows):
        table[index, : len(row)] = row
    padded: Floats = frozen(table)
    return padded
