"""The fault tree as one self-contained HTML page: every symptom with its causes, checks and remedies.

Texts of the pack reach the page only through the template's autoescape; the drawings are escaped where
they are made.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from typing import TYPE_CHECKING, TypeVar

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from graph.sketch import legend_svg, svg

if TYPE_CHECKING:
    from collections.abc import Iterable

    from graph.case import Case
    from graph.machine import Check, Fault, Remedy
    from graph.sketch import Node, Sketch, Subsystem

    T = TypeVar("T", Fault, Check, Remedy)

TEMPLATE = "fault_tree.html"
CHECKS_SHOWN = 8  # best checks listed for one symptom
ROLE = "technician"  # may do whatever anybody may do here


@dataclass(frozen=True, slots=True)
class Top:
    """One tree of the page: a symptom, or an event that no symptom names."""

    node: Node
    question: str
    phrases: tuple[str, ...]
    danger: str
    drawing: Markup
    causes: tuple[tuple[Node, float | None], ...]
    checks: tuple[tuple[str, str, float], ...]  # base id, title, bits about what to do
    remedies: tuple[tuple[str, str], ...]


def page(case: Case, sketch: Sketch) -> str:
    """Return the page of a sketch, which must draw repeated elements once."""
    machine = case.machine
    tops = tuple(_top(case, sketch, name) for name in sketch.tops)
    wanted = {node.id for node in sketch.nodes.values() if node.kind == "fault"}
    faults = tuple(f for f in _once(machine.faults) if f.base in wanted)
    remedies = {fault.remedy.partition("@")[0] for fault in faults}
    shown = {base for top in tops for base, _, _ in top.checks}
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    template = environment.from_string(
        files("assistant").joinpath("templates", TEMPLATE).read_text(encoding="utf-8")
    )
    return template.render(
        sketch=sketch,
        machine=machine,
        tops=tops,
        legend=Markup(legend_svg(sketch)),  # noqa: S704 - escaped where it is drawn
        groups=[(part, _of(part, tops)) for part in sketch.subsystems.values()],
        events=[n for n in sketch.nodes.values() if n.kind == "event" and n.id not in sketch.tops],
        faults=faults,
        effects={name: _effects(sketch, name) for name in sketch.nodes},
        components={part.id: part for part in machine.components},
        places={place.id: place.title for place in machine.places},
        sources={source.id: source for source in machine.sources},
        cautions={caution.id: caution.title for caution in machine.cautions},
        checks=[check for check in _once(machine.checks) if check.base in shown],
        remedies=[remedy for remedy in _once(machine.remedies) if remedy.base in remedies],
        titles={node.id: node.title for node in sketch.nodes.values()},
    )


def _of(part: Subsystem, tops: Iterable[Top]) -> tuple[Top, ...]:
    return tuple(top for top in tops if top.node.subsystem == part.id)


def _once(elements: Iterable[T]) -> tuple[T, ...]:
    """Return the first instance of every element."""
    first: dict[str, T] = {}
    for element in elements:
        first.setdefault(element.base, element)
    return tuple(first.values())


def _top(case: Case, sketch: Sketch, name: str) -> Top:
    node = sketch.nodes[name]
    check = next((c for c in case.machine.checks if c.kind == "symptom" and c.base == name), None)
    causes = _causes(sketch, name)
    wanted = {cause.id: None for cause, _ in causes}
    remedies = {f.remedy.partition("@")[0]: None for f in case.machine.faults if f.base in wanted}
    titles = {remedy.base: sketch_title(remedy.title, remedy.id) for remedy in _once(case.machine.remedies)}
    return Top(
        node=node,
        question=next(iter(check.ask.values())) if check else "",
        phrases=check.say if check else (),
        danger=check.outcomes[0].danger if check else "",
        drawing=Markup(svg(sketch, name, "#")),  # noqa: S704 - escaped where it is drawn
        causes=causes,
        checks=_best_checks(case, check) if check else (),
        remedies=tuple((base, titles[base]) for base in remedies),
    )


def sketch_title(title: str, name: str) -> str:
    """Return the title of a repeated element without its place."""
    return title.rpartition(", ")[0] or title if "@" in name else title


def _causes(sketch: Sketch, name: str) -> tuple[tuple[Node, float | None], ...]:
    """Return the faults below a node, those that a symptom names itself first, with its likelihood."""
    found: dict[str, float | None] = {}
    waiting = [(link.cause, link.share) for link in sketch.nodes[name].links]
    seen = set()
    while waiting:
        cause, share = waiting.pop(0)
        if cause in seen:
            continue
        seen.add(cause)
        node = sketch.nodes[cause]
        if node.gate:
            waiting += [(link.cause, share) for link in node.links]
        else:
            found[cause] = share
    order = sorted(found, key=lambda cause: -(found[cause] or 0.0))
    return tuple((sketch.nodes[cause], found[cause]) for cause in order)


def _best_checks(case: Case, symptom: Check) -> tuple[tuple[str, str, float], ...]:
    """Return the checks expected to tell most about what to do once the symptom is reported."""
    findings = (case.answer(symptom.id, "present", ROLE),)
    candidates = [c.id for c in case.machine.checks if c.kind == "check" and c.phase == "narrowing"]
    best: dict[str, tuple[str, str, float]] = {}
    for ranked in case.rank(findings, candidates, role=ROLE, by="bits"):
        check = case.check(ranked.check)
        best.setdefault(check.base, (check.base, sketch_title(check.title, check.id), ranked.bits_remedy))
        if len(best) == CHECKS_SHOWN:
            break
    return tuple(best.values())


def _effects(sketch: Sketch, name: str) -> tuple[Node, ...]:
    """Return the events and symptoms that a node feeds."""
    return tuple(node for node in sketch.nodes.values() if any(link.cause == name for link in node.links))
