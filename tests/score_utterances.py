"""Score what is understood against `utterances.jsonl`.

    python tests/score_utterances.py tune|aside|FILE.jsonl [PACK] [-v]

A FILE holds lines of the same form, without halves.

How facts are compared (`UTTERANCES.md` states what is expected):
- Doubtful facts of the same words are rivals: one guess, the first; the others count only for "among those offered".
- What was asked for as a reading may come as the outcome whose band holds the number, and the other way round.
- An outcome of the safety screen may come as a danger or an answer where the pack attaches no caution to it.
- Quantities of the test set that the pack names otherwise are listed in `SAME_QUANTITY`.
"""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING, Any

sys.path.insert(0, str(Path(__file__).parents[1]))  # the checkout itself, not what is installed

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from assistant.facts import Fact
    from graph.machine import Machine, Outcome

UTTERANCES = Path(__file__).parent / "assistant" / "utterances.jsonl"
HALVES = ("tune", "aside")
SAME_QUANTITY = {
    "sensor_supply_volts": "volts",
    "rail_volts": "volts",
    "signal_volts": "volts",
    "room_temperature": "temperature",
    "drink_temperature": "temperature",
    "cylinder_left": "weight",
    "bottle_weight": "weight",
    "brix_offset": "brix",
    "drink_brix": "brix",
    "mains_volts": "voltage",
}
EVIDENCE = {"symptom", "not_symptom", "answer", "danger", "reading"}

Key = tuple[Any, ...]


@dataclass
class Score:
    """Counts over some lines."""

    lines: int = 0
    expected: int = 0
    taken: int = 0
    taken_right: int = 0
    guessed: int = 0  # taken, or first of the rivals that are offered to be confirmed
    guessed_right: int = 0
    offered_right: int = 0  # taken, first guess or another rival
    symptoms: int = 0
    symptoms_first: int = 0
    symptoms_offered: int = 0
    wrong_unasked: int = 0  # lines in which a wrong fact was taken that nobody asked for
    seconds: list[float] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def figures(self) -> dict[str, float]:
        """Return the shares that are reported, 0 to 1, and the median time of a line in ms."""
        return {
            "precision of facts taken": self.taken_right / max(self.taken, 1),
            "precision with first guesses": self.guessed_right / max(self.guessed, 1),
            "recall of facts taken": self.taken_right / max(self.expected, 1),
            "recall with first guesses": self.guessed_right / max(self.expected, 1),
            "recall with all that is offered": self.offered_right / max(self.expected, 1),
            "symptom first": self.symptoms_first / max(self.symptoms, 1),
            "symptom among three": self.symptoms_offered / max(self.symptoms, 1),
            "lines with a wrong fact taken unasked": self.wrong_unasked / max(self.lines, 1),
            "median ms a line": 1000 * median(self.seconds or [0.0]),
        }


class Judge:
    """Compares facts as heard with facts as expected, for one machine."""

    def __init__(self, machine: Machine) -> None:
        self.barrels = machine.barrels
        self.checks = {check.ref: check for check in reversed(machine.checks) if check.ref}
        self.bases = {check.base: check for check in reversed(machine.checks)}

    def wanted(self, fact: dict[str, Any]) -> Key:
        """Return an expected fact as a key."""
        kind, which = fact["kind"], self._barrels(fact.get("which", []))
        value = fact.get("value", "")
        if kind in {"answer", "danger"}:
            return self._outcome(kind, fact["ref"], fact["outcome"])
        if kind == "reading":
            high = float(fact.get("high", value))
            return kind, fact["ref"], float(value), high, fact["unit"], which
        keys: dict[str, Key] = {
            "symptom": (fact.get("ref"), which),
            "which": (self._barrels(value),),
            "fine": (self._barrels(value) if value in ("all", "both") or isinstance(value, list) else value,),
            "ask": (value, fact.get("ref", "")),
            "began": (value,),
        }
        return kind, *keys.get(kind, (fact.get("ref", ""),))

    def heard(self, fact: Fact) -> Key:
        """Return a fact as heard as a key of the same form."""
        kind, which = fact.kind, self._barrels(list(fact.which))
        if kind in {"answer", "danger"}:
            return self._outcome(kind, fact.ref, self._letter(fact))
        if kind == "reading":
            name, high = fact.id.partition("@")[0], float(fact.high or fact.value)
            return kind, SAME_QUANTITY.get(name, name), float(fact.value), high, fact.unit or None, which
        keys: dict[str, Key] = {
            "symptom": (fact.ref, self._barrels(fact.value) if fact.value else which),
            "which": (which or self._barrels(fact.value),),
            "fine": (which or fact.value,),
            "ask": (fact.value, fact.ref),
            "began": (fact.value,),
        }
        return kind, *keys.get(kind, (fact.ref,))

    def same(self, wanted: Key, heard: Key, asked: str | None) -> bool:
        """Tell whether two keys say the same, given what was asked."""
        if wanted == heard:
            return True
        pair = {wanted[0], heard[0]}
        if "reading" in pair and pair & {"answer", "danger"}:
            answer, reading = (wanted, heard) if heard[0] == "reading" else (heard, wanted)
            return asked == answer[1] and self._holds(answer, reading)
        return False

    def _outcome(self, kind: str, ref: str, letter: str) -> Key:
        outcome = self._find(ref, letter)
        plain = outcome is not None and not outcome.danger
        return ("answer" if plain else kind), ref, letter

    def _find(self, ref: str, letter: str) -> Outcome | None:
        check = self.checks.get(ref)
        return next((o for o in check.outcomes if o.ref == letter), None) if check else None

    def _letter(self, fact: Fact) -> str:
        check = self.checks.get(fact.ref)
        return next((o.ref for o in check.outcomes if o.id == fact.value), "") if check else ""

    def _holds(self, answer: Key, reading: Key) -> bool:
        outcome = self._find(answer[1], answer[2])
        if outcome is None or outcome.band is None:
            return False
        low, high = outcome.band
        return (low is None or reading[2] >= low) and (high is None or reading[2] < high)

    def _barrels(self, value: object) -> Key | str:
        if value in ("both", "one"):
            return str(value)
        if value == "all":
            return tuple(range(1, self.barrels + 1))
        return tuple(sorted(value)) if isinstance(value, list) else str(value)


def groups_of(facts: Iterable[Fact]) -> list[list[Fact]]:
    """Return the facts as guesses: each certain one alone, doubtful ones of the same words together."""
    found: dict[str, list[Fact]] = {}
    for number, fact in enumerate(facts):
        doubtful = not fact.certain and fact.kind in EVIDENCE
        found.setdefault(f"doubt {fact.words}" if doubtful else f"{number}", []).append(fact)
    return list(found.values())


def score(lines: Sequence[dict[str, Any]], machine: Machine, hear: Any) -> Score:
    """Return the counts over some lines; `hear` takes the text and what was asked."""
    judge, total = Judge(machine), Score()
    for line in lines:
        started = perf_counter()
        facts, _ = hear(line["text"], line["asked"])
        total.seconds.append(perf_counter() - started)
        _count(total, judge, line, groups_of(facts))
    return total


def _count(total: Score, judge: Judge, line: dict[str, Any], groups: list[list[Fact]]) -> None:
    asked = line["asked"]
    wanted = [judge.wanted(fact) for fact in line["facts"]]
    left = list(wanted)
    total.lines += 1
    total.expected += len(wanted)
    wrong: list[str] = []
    unasked = False
    for group in groups:
        hits = [next((w for w in left if judge.same(w, judge.heard(fact), asked)), None) for fact in group]
        certain = group[0].certain
        total.guessed += 1
        total.taken += certain
        hit = next((h for h in hits if h is not None), None)
        if hit is not None:
            left.remove(hit)
            total.offered_right += 1
        total.guessed_right += hits[0] is not None
        total.taken_right += certain and hits[0] is not None
        if hits[0] is None:
            wrong.append(f"{'TAKEN' if certain else 'guess'} {judge.heard(group[0])} {group[0].score}")
            unasked |= certain and group[0].kind in EVIDENCE and not (asked and group[0].ref == asked)
    total.wrong_unasked += unasked
    _count_symptoms(total, line, groups)
    if wrong or left:
        total.faults.append(f"{asked or '-'} | {line['text']} | missed {left} | {'; '.join(wrong)}")


def _count_symptoms(total: Score, line: dict[str, Any], groups: list[list[Fact]]) -> None:
    first = {group[0].ref for group in groups if group[0].kind == "symptom"}
    offered = {fact.ref for group in groups for fact in group if fact.kind == "symptom"}
    for fact in line["facts"]:
        if fact["kind"] == "symptom":
            total.symptoms += 1
            total.symptoms_first += fact["ref"] in first
            total.symptoms_offered += fact["ref"] in offered


def read(half: str) -> list[dict[str, Any]]:
    """Return the lines of one half of the test set, "tune" or "aside", or all lines of another file."""
    path = UTTERANCES if half in HALVES else Path(half)
    with path.open(encoding="utf-8") as file:
        return [line for line in map(json.loads, file) if half not in HALVES or line["half"] == half]


def main(arguments: Sequence[str]) -> None:
    """Print the figures of one half; with -v also every line that is not as expected (never of `aside`)."""
    from assistant.hear import Phrasebook, hear  # noqa: PLC0415 -- the module is also imported without them
    from assistant.library import load_case  # noqa: PLC0415 -- likewise

    named = [argument for argument in arguments if argument in HALVES or argument.endswith(".jsonl")]
    half = named[0] if named else "tune"
    packs = [argument for argument in arguments if argument not in {*named, "-v"}]
    machine = load_case(packs[0] if packs else None).machine
    book = Phrasebook.of(machine)
    total = score(read(half), machine, lambda text, asked: hear(machine, text, asked, book))
    report = [f"{name}: {value:.4g}" for name, value in total.figures().items()]
    shown = total.faults if "-v" in arguments and half != "aside" else []
    head = f"{half}: {total.lines} lines, {total.expected} facts"
    sys.stdout.write("\n".join([head, *report, *shown]) + "\n")


if __name__ == "__main__":
    main(sys.argv[1:])
