"""What a demo plays: a file of `tests/demos/`, read into plain values.

    shows      one sentence: what the session is to show
    site, unit, profile, role, person, others, trained, started
    earlier    sessions at the same machine before: days ago, outcome, cause
    cause      ids of the faults that are there, or `not in this graph`
    answers    question -> what is typed; a list is typed one by one, whenever that question is open

A question goes by its id, its ref, or what it is about (complaint, remedy, gone, note, closed, ...). What
has no answer here gets the most probable one of a machine with these faults.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from assistant.conversation import Setup
from assistant.engine.events import Began
from graph.yaml_text import read

FOLDER = Path(__file__).parent / "demos"
DEMOS = Path(__file__).parent.parent / "demo_sessions"
UNKNOWN = "not in this graph"


@dataclass(frozen=True, slots=True)
class Typed:
    """One line of a person; `later` minutes pass before it."""

    text: str
    later: float = 0.0


@dataclass(frozen=True, slots=True)
class Scenario:
    """One demo; `cause` is empty where nothing in the graph is the cause."""

    name: str
    started: datetime
    setup: Setup
    began: Began
    cause: tuple[str, ...]
    answers: dict[str, tuple[Typed, ...]]

    @property
    def record(self) -> Path:
        """Where its record is kept."""
        return DEMOS / f"{self.name}.jsonl"

    @property
    def text(self) -> Path:
        """Where its transcript is kept."""
        return DEMOS / f"{self.name}.txt"


def scenarios() -> tuple[Scenario, ...]:
    """Return every demo, by name."""
    return tuple(scenario(path) for path in sorted(FOLDER.glob("*.yaml")))


def scenario(path: Path) -> Scenario:
    """Return the demo in one file."""
    document = read(path.name, path.read_text(encoding="utf-8"))
    assert not document.problems, document.problems
    told = document.value
    began = Began(
        told["site"],
        told["unit"],
        told.get("person", ""),
        told["role"],
        told.get("others", ""),
        told.get("trained", False),
        tuple(told.get("repeats", ())),
    )
    cause = () if told["cause"] == UNKNOWN else tuple(told["cause"])
    answers = {str(key): _lines(value) for key, value in told.get("answers", {}).items()}
    started = datetime.fromisoformat(told["started"])
    return Scenario(path.stem, started, Setup(profile=told["profile"]), began, cause, answers)


def _lines(value):
    entries = value if isinstance(value, tuple) else (value,)
    return tuple(_typed(entry) for entry in entries)


def _typed(entry):
    if isinstance(entry, dict):
        return Typed(str(entry["type"]), float(entry["later"]))
    return Typed(str(entry))
