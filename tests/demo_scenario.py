"""What a demo plays: a file of `tests/demos/`, read into plain values.

    shows      one sentence: what the session is to show
    site, unit, role, person, others, trained, started; the machine is the one of the address book
    cause      ids of the faults that are there, or `not_in_graph`
    earlier    sessions about the same machine: days ago, outcome, cause
    seen       check -> the outcome that is seen, where it is not the most probable one under the cause;
               a list: before the first repair, after it, after the next
    answers    question -> what is typed; a list is typed one by one, whenever that question is open

A question goes by its id, its ref, or what it is about (complaint, gone, note, closed, confirm ID, ...). What
has no answer here gets the most probable one of a machine with these faults, in words of the pack.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from assistant.conversation import Setup
from assistant.engine.events import Began
from assistant.history import Past
from assistant.place import find_place, setup_at
from assistant.sites import read_book
from graph.yaml_text import read

FOLDER = Path(__file__).parent / "demos"
DEMOS = Path(__file__).parent.parent / "demo_sessions"
PACK = "frozen_drinks"
UNKNOWN = "not_in_graph"


@dataclass(frozen=True, slots=True)
class Typed:
    """One line of a person; `later` minutes pass before it."""

    text: str
    later: float = 0.0


@dataclass(frozen=True, slots=True)
class Scenario:
    """One demo; `faults` are there, in the order in which they are to be found."""

    name: str
    started: datetime
    setup: Setup
    began: Began
    faults: tuple[str, ...]
    earlier: tuple[Past, ...]
    seen: dict[str, tuple[str, ...]]
    answers: dict[str, tuple[Typed, ...]]

    @property
    def cause(self) -> str:
        """The true cause, as the head of a record states it."""
        return ", ".join(self.faults) or UNKNOWN

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
    )
    started = datetime.fromisoformat(told["started"])
    faults = () if told["cause"] == UNKNOWN else tuple(told["cause"])
    earlier = tuple(_past(each, started) for each in told.get("earlier", ()))
    seen = {
        key: value if isinstance(value, tuple) else (value,) for key, value in told.get("seen", {}).items()
    }
    answers = {str(key): _lines(value) for key, value in told.get("answers", {}).items()}
    place = find_place(read_book(DEMOS / "sites.yaml"), began.site, began.unit)
    return Scenario(path.stem, started, setup_at(place, Setup()), began, faults, earlier, seen, answers)


def _past(told, started):
    days = float(told["days"])
    causes = (told["cause"],) if "cause" in told else ()
    outcome = told["outcome"]
    return Past("earlier", PACK, started - timedelta(days=days), days, outcome, causes, outcome == "cured")


def _lines(value):
    entries = value if isinstance(value, tuple) else (value,)
    return tuple(_typed(entry) for entry in entries)


def _typed(entry):
    if isinstance(entry, dict):
        return Typed(str(entry["type"]), float(entry["later"]))
    return Typed(str(entry))
