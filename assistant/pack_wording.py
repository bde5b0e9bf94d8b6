"""Every sentence and table of the authors' commands, apart from what `graph` says of a pack itself."""

from __future__ import annotations

import textwrap
from itertools import groupby
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from graph.audit import Audit, Told
    from graph.dossier import Cell, Dossier, Section
    from graph.provenance import Resting

WIDTH = 80
CAP = 10  # remarks under one heading that are shown unless all are asked for


def wrapped(text: str, indent: int = 0, hang: int = 0) -> str:
    """Return a text in lines of at most WIDTH columns, the first indented, the others `hang` more."""
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + hang),
        break_on_hyphens=False,
        break_long_words=False,
    )


def table(rows: Sequence[Sequence[str]], left: int = 1) -> list[str]:
    """Return rows as aligned columns, the first `left` of them to the left, the others to the right."""
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return [
        "  ".join(
            cell.ljust(width) if column < left else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


def audit_text(audit: Audit, *, everything: bool) -> str:
    """Return an audit as text: counts, the bound, errors, warnings, grouped and worst first."""
    lines = [*_counts(audit), *_bounds(audit)]
    for name, told in (("error", audit.errors), ("warning", audit.warnings)):
        lines += ["", f"{len(told)} {name}{'' if len(told) == 1 else 's'}"]
        lines += _groups(told, len(told) if everything else CAP)
    return "\n".join(lines).strip("\n")


def _counts(audit: Audit) -> Iterator[str]:
    if not audit.written:
        return
    yield f"Pack {audit.pack}, version {audit.version}"
    head = ("", "written", *(machine.profile for machine in audit.machines))
    rows = [head]
    for kind, written in audit.written.items():
        rows.append((kind, str(written), *(str(machine.counts[kind]) for machine in audit.machines)))
    yield from table(rows)


def _bounds(audit: Audit) -> Iterator[str]:
    shares = ", ".join(f"{100 * machine.tail_bound:.3f} % ({machine.profile})" for machine in audit.machines)
    if shares:
        yield wrapped(f"Calls with more faults at once than are ever looked at, at most: {shares}.", hang=2)


def _groups(told: Iterable[Told], cap: int) -> Iterator[str]:
    for heading, group in groupby(told, key=lambda one: one.heading):
        members = list(group)
        yield f"\n{heading} ({len(members)})"
        for one in members[:cap]:
            yield wrapped(f"{one.file}:{one.line}  {one.where}", 2, 4)
            yield wrapped(f"{one.what} {one.remedy}".strip(), 6)
        if len(members) > cap:
            yield f"  and {len(members) - cap} more"


def dossier_text(dossier: Dossier) -> str:
    """Return what is known of one element as text: its facts, then its tables."""
    lines = [wrapped(f"{dossier.kind} {dossier.id}: {dossier.title}", hang=2)]
    lines += [wrapped(f"{label}: {_shown(value)}", 2, 2) for label, value in dossier.facts]
    for section in dossier.sections:
        lines += ["", f"{section.title} ({len(section.rows)})", *_section(section)]
    return "\n".join(lines)


def _section(section: Section) -> Iterator[str]:
    """Yield the rows of a table; where a row is too wide its later cells go on lines of their own."""
    rows = _gathered(tuple(_shown(cell) for cell in row) for row in section.rows)
    narrow = [f"  {line}" for line in table([section.columns, *rows], len(section.columns))]
    if max(len(line) for line in narrow) <= WIDTH:
        yield from narrow
        return
    for row in rows:
        cells = [cell for cell in row if cell]
        yield wrapped(cells[0], 2, 4)
        for column, cell in zip(section.columns[1:], row[1:], strict=True):
            if cell:
                yield wrapped(f"{column}: {cell}", 6, 2)


def _gathered(rows: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Return rows with those that differ only in the place put together: `x@1, @2, @3`."""
    places: dict[tuple[str, ...], list[str]] = {}
    for first, *rest in rows:
        base, _, place = first.partition("@")
        key = (base, *(cell.removesuffix(f"@{place}") if place else cell for cell in rest))
        places.setdefault(key, []).append(place)
    return [
        (base + ", ".join(f"@{place}" for place in where if place), *rest)
        for (base, *rest), where in places.items()
    ]


def _shown(cell: Cell) -> str:
    return cell if isinstance(cell, str) else f"{cell:g}"


def sources_text(resting: Iterable[Resting]) -> str:
    """Return all sources with what rests on each, published ones first."""
    lines: list[str] = []
    for kind, group in groupby(resting, key=lambda one: one.kind):
        members = list(group)
        lines += ["", f"{kind.replace('_', ' ').capitalize()} ({len(members)})"]
        for one in members:
            where = ", ".join(part for part in (one.title, one.edition, one.place) if part)
            lines.append(wrapped(f"{one.id}: {where}", 2, 4))
            if one.note:
                lines.append(wrapped(one.note, 6))
            count = sum(len(ids) for ids in one.ids.values())
            lines.append(f"      {count} elements rest on it" if count else "      nothing rests on it")
            for what, ids in one.ids.items():
                some = ", ".join(ids[:CAP]) + (f" and {len(ids) - CAP} more" if len(ids) > CAP else "")
                lines.append(wrapped(f"{len(ids)} {what}: {some}", 8, 2))
    return "\n".join(lines).strip("\n")
