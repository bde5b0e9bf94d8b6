"""What can be asked about a machine: checks and symptoms with their likelihood rows."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from graph.expand.frame import Frame, conditions, reading_of, titled
from graph.likelihood import LIKELIHOOD_WORDS, otherwise_row, row_from_anchors
from graph.machine import Check, Outcome, Row

if TYPE_CHECKING:
    from graph import pack as written
    from graph.places import Spot


SYMPTOM_OUTCOMES = (("present", "Yes"), ("absent", "No"))


def checks_of(frame: Frame) -> tuple[Check, ...]:
    """Return the checks, one for every place where they are repeated."""
    return tuple(
        _check(frame, base, check, spot)
        for base, check in frame.knowledge.checks.items()
        for spot in frame.layout.spots(check.each)
    )


def _check(frame: Frame, base: str, check: written.Check, spot: Spot) -> Check:
    names = tuple(check.outcomes)
    usual = names.index(check.usual) if check.usual else -1
    belief = frame.knowledge.pack.belief
    asked = {role: frame.words(text, spot) for role, text in check.ask.model_dump().items() if text}
    return Check(
        id=spot.name(base),
        base=base,
        kind="check",
        ref=check.ref,
        title=titled(frame, check.title, spot),
        component=_component_instance(frame, check.component, spot),
        barrel=spot.barrel,
        channel=spot.channel,
        ask=asked,
        why=check.why,
        roles=check.roles,
        minutes=check.minutes,
        place=check.place,
        tools=check.tools,
        cautions=check.cautions,
        gates=check.gates,
        needs=conditions(frame, check.needs, spot),
        unless=conditions(frame, check.unless, spot),
        reading=reading_of(frame, check.reading, spot),
        work_out=check.work_out or "",
        displayed=check.displayed,
        usual=usual,
        otherwise=otherwise_row(len(names), usual, check.otherwise or belief.otherwise),
        slip=check.slip,
        phase=check.phase,
        outcomes=tuple(_outcome(frame, base, name, spot) for name in check.outcomes),
        rows=_rows(frame, check, spot),
        say=(),
        source=check.source,
        chapter=frame.knowledge.chapter_of[base],
        undo=frame.words(check.undo, spot),
    )


def _component_instance(frame: Frame, component: str | None, spot: Spot) -> str:
    if component is None:
        return ""
    spots = frame.layout.spots(frame.knowledge.components[component].each)
    return next((s for s in spots if s.suffix == spot.suffix), spots[0]).name(component)


def _outcome(frame: Frame, check: str, name: str, spot: Spot) -> Outcome:
    outcome = frame.knowledge.checks[check].outcomes[name]
    return Outcome(
        id=name,
        ref=outcome.ref,
        label=frame.words(outcome.label, spot),
        say=(*outcome.say, *frame.knowledge.heard.answer(check, name)),
        band=outcome.band,
        danger=outcome.danger or "",
        then=frame.words(outcome.then, spot),
        confirm=frame.words(outcome.confirm, spot),
        affects=outcome.affects or "",
        covers=conditions(frame, outcome.covers, spot),
    )


def _of_symptom(frame: Frame, symptom: written.Symptom, spot: Spot, name: str, label: str) -> Outcome:
    """Return an answer to a symptom; only its presence says anything of danger, barrels or other answers."""
    if name != "present":
        return Outcome(name, "", label, (), None, "", "")
    danger, affects = symptom.danger or "", symptom.affects or ""
    covers = conditions(frame, symptom.covers, spot)
    then, confirm = frame.words(symptom.then, spot), frame.words(symptom.confirm, spot)
    return Outcome(name, "", label, (), None, danger, then, confirm, affects, covers)


def _rows(frame: Frame, check: written.Check, spot: Spot) -> tuple[Row, ...]:
    """Return one row for every fault or event that the check's author listed."""
    names = tuple(check.outcomes)
    words = frame.knowledge.pack.words
    anchors: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    for index, outcome in enumerate(check.outcomes.values()):
        for word in LIKELIHOOD_WORDS:
            for key in frame.ids(getattr(outcome, word), spot):
                anchors[key][index] += getattr(words, word)
    rows = {key: row_from_anchors(len(names), listed) for key, listed in anchors.items()}
    for ref, numbers in check.rows.items():
        for key in frame.ids((ref,), spot):
            rows[key] = tuple(numbers.get(name, 0.0) for name in names)
    return tuple(Row(key, row) for key, row in rows.items())


def symptoms_of(frame: Frame) -> tuple[Check, ...]:
    """Return the symptoms as checks with the outcomes present and absent."""
    return tuple(
        _symptom(frame, base, symptom, spot)
        for base, symptom in frame.knowledge.symptoms.items()
        for spot in frame.layout.spots(symptom.each)
    )


def _symptom(frame: Frame, base: str, symptom: written.Symptom, spot: Spot) -> Check:
    pack = frame.knowledge.pack
    share: dict[str, float] = {}
    for word in LIKELIHOOD_WORDS:
        for key in frame.ids(getattr(symptom, word), spot):
            share.setdefault(key, getattr(pack.words, word))
    rest = pack.belief.symptom_otherwise
    return Check(
        id=spot.name(base),
        base=base,
        kind="symptom",
        ref=symptom.ref,
        title=titled(frame, symptom.title, spot),
        component="",
        barrel=spot.barrel,
        channel=spot.channel,
        ask={"operator": frame.words(symptom.ask, spot)},
        why="",
        roles=symptom.roles,
        minutes=symptom.minutes,
        place=symptom.place,
        tools=(),
        cautions=(),
        gates=(),
        needs=(),
        unless=conditions(frame, symptom.unless, spot),
        reading="",
        work_out="",
        displayed=False,
        usual=1,
        otherwise=(rest, 1.0 - rest),
        slip=0.0,  # people may overlook a symptom, which its row says; they do not mistake it
        phase="narrowing",
        outcomes=tuple(_of_symptom(frame, symptom, spot, name, label) for name, label in SYMPTOM_OUTCOMES),
        rows=tuple(Row(key, (p, 1.0 - p)) for key, p in share.items()),
        say=(*symptom.say, *frame.knowledge.heard.symptoms.get(base, ())),
        source=symptom.source,
        chapter=frame.knowledge.chapter_of[base],
        history=symptom.history,
        recent=symptom.recent,
    )
