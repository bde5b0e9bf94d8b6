"""The test set of utterances is well formed; `UTTERANCES.md` states its conventions."""

import hashlib
import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

UTTERANCES = Path(__file__).with_name("utterances.jsonl")
QUANTITIES = {
    "water",
    "gas_supply",
    "gas_regulated",
    "syrup",
    "barrel",
    "gas_low_dial",
    "cylinder_contents",
    "volts",
    "weight",
    "temperature",
    "brix",
    "voltage",
}
UNITS = {None, "psi", "bar", "kPa", "C", "F", "V", "kg", "lb", "brix"}
SYMPTOMS = {f"S{number:02d}" for number in range(1, 66)}
BARRELS = {1, 2, 3}
FIELDS = {
    "symptom": ({"ref"}, {"which"}),
    "not_symptom": ({"ref"}, set()),
    "answer": ({"ref", "outcome"}, set()),
    "reading": ({"ref", "value", "unit"}, {"high", "which"}),
    "which": ({"value"}, set()),
    "began": ({"value"}, set()),
    "fine": ({"value"}, set()),
    "unsure": (set(), set()),
    "cannot": (set(), set()),
    "ask": ({"value"}, {"ref"}),
    "yes": (set(), set()),
    "no": (set(), set()),
    "correct": (set(), set()),
    "danger": ({"ref", "outcome"}, set()),
}

Fact = dict[str, Any]


def is_check(ref: str) -> bool:
    return re.fullmatch(r"K\d{3}", ref) is not None and 1 <= int(ref[1:]) <= 200


def is_barrels(value: object) -> bool:
    if isinstance(value, list):
        return bool(value) and value == sorted(set(value)) and set(value) <= BARRELS
    return value in ("all", "both")


def is_fine(value: object) -> bool:
    return value in ("gas", "water", "syrup", "power", "taste") or (
        isinstance(value, list) and is_barrels(value)
    )


def is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def is_outcome_of(fact: Fact, last: int) -> bool:
    return is_check(fact["ref"]) and int(fact["ref"][1:]) <= last and fact["outcome"] in set("abcdef")


def is_reading(fact: Fact) -> bool:
    value = fact["value"]
    return (
        fact["ref"] in QUANTITIES
        and is_number(value)
        and fact["unit"] in UNITS
        and ("high" not in fact or (is_number(fact["high"]) and fact["high"] > value))
    )


def is_ask(fact: Fact) -> bool:
    component = fact.get("ref", "C01")
    return fact["value"] in ("why", "where", "what") and re.fullmatch(r"C\d{2}", component) is not None


RULES = {
    "symptom": lambda fact: fact["ref"] in SYMPTOMS,
    "not_symptom": lambda fact: fact["ref"] in SYMPTOMS,
    "answer": lambda fact: is_outcome_of(fact, 200),
    "danger": lambda fact: is_outcome_of(fact, 5) and fact["outcome"] != "a",
    "reading": is_reading,
    "which": lambda fact: is_barrels(fact["value"]),
    "fine": lambda fact: is_fine(fact["value"]),
    "began": lambda fact: isinstance(fact["value"], str) and fact["value"] == fact["value"].strip().lower(),
    "ask": is_ask,
}


def fact_problem(fact: Fact) -> str | None:
    """Return what is wrong with one expected fact, or None."""
    kind = fact.get("kind")
    if kind not in FIELDS:
        return f"unknown kind {kind!r}"
    must, may = FIELDS[kind]
    given = set(fact) - {"kind"}
    if not must <= given <= must | may:
        return f"{kind} has fields {sorted(given)}"
    if "which" in given and not is_barrels(fact["which"]):
        return f"{kind} has which {fact['which']!r}"
    if kind in RULES and not RULES[kind](fact):
        return f"{kind} is malformed: {fact}"
    return None


def facts_of(lines: list[dict[str, Any]], kind: str) -> list[Fact]:
    return [fact for line in lines for fact in line["facts"] if fact["kind"] == kind]


@pytest.fixture(scope="module")
def lines() -> list[dict[str, Any]]:
    with UTTERANCES.open(encoding="utf-8") as file:
        return [json.loads(row) for row in file]


def test_every_line_has_exactly_the_fields_of_the_format(lines):
    wrong = [line["id"] for line in lines if set(line) != {"id", "text", "asked", "facts", "half"}]

    assert wrong == []


def test_ids_and_texts_are_unique_and_no_text_is_blank(lines):
    ids = Counter(line["id"] for line in lines)
    said = Counter((re.sub(r"\W+", " ", line["text"].lower()).strip(), line["asked"]) for line in lines)

    assert [name for name, count in ids.items() if count > 1] == []
    assert [words for words, count in said.items() if count > 1 or not words[0]] == []


def test_there_are_enough_utterances(lines):
    assert len(lines) >= 440


def test_every_expected_fact_is_well_formed(lines):
    problems = [(line["id"], fact_problem(fact)) for line in lines for fact in line["facts"]]

    assert [problem for problem in problems if problem[1]] == []


@pytest.mark.parametrize(
    "fact",
    [
        {"kind": "guess"},
        {"kind": "symptom"},
        {"kind": "symptom", "ref": "S66"},
        {"kind": "symptom", "ref": "S02", "which": [4]},
        {"kind": "answer", "ref": "K035", "outcome": "z"},
        {"kind": "danger", "ref": "K001", "outcome": "a"},
        {"kind": "reading", "ref": "water", "value": "60", "unit": None},
        {"kind": "reading", "ref": "water", "value": 60, "high": 50, "unit": None},
        {"kind": "ask", "value": "when"},
        {"kind": "yes", "value": True},
    ],
)
def test_a_malformed_fact_is_found(fact):
    assert fact_problem(fact) is not None


def test_what_was_asked_is_a_check_or_nothing(lines):
    assert [line["id"] for line in lines if line["asked"] is not None and not is_check(line["asked"])] == []


def test_no_line_expects_the_same_fact_twice(lines):
    twice = [
        line["id"]
        for line in lines
        if len({json.dumps(fact, sort_keys=True) for fact in line["facts"]}) != len(line["facts"])
    ]

    assert twice == []


def test_every_symptom_is_said_at_least_three_times_and_in_both_halves(lines):
    said = Counter(fact["ref"] for fact in facts_of(lines, "symptom"))
    halves = {
        half: {fact["ref"] for fact in facts_of([x for x in lines if x["half"] == half], "symptom")}
        for half in ("tune", "aside")
    }

    assert {ref for ref in SYMPTOMS if said[ref] < 3} == set()
    assert halves["tune"] == halves["aside"] == SYMPTOMS


def test_at_least_a_hundred_checks_are_answered_when_asked(lines):
    answered = {
        fact["ref"]
        for line in lines
        for fact in line["facts"]
        if fact["kind"] == "answer" and fact["ref"] == line["asked"]
    }

    assert len(answered) >= 100


def test_every_kind_and_every_quantity_occurs_and_some_lines_expect_nothing(lines):
    kinds = {fact["kind"] for line in lines for fact in line["facts"]}
    quantities = {fact["ref"] for fact in facts_of(lines, "reading")}

    assert kinds == set(FIELDS)
    assert quantities == QUANTITIES
    assert sum(not line["facts"] for line in lines) >= 15


def test_a_danger_is_never_also_an_answer_to_the_same_check(lines):
    both = [
        line["id"]
        for line in lines
        if {fact["ref"] for fact in facts_of([line], "danger")}
        & {fact["ref"] for fact in facts_of([line], "answer")}
    ]

    assert both == []


def test_the_halves_follow_the_fixed_rule_and_are_near_equal(lines):
    def half(name: str) -> str:
        return "aside" if hashlib.sha256(name.encode()).digest()[-1] % 2 else "tune"

    share = sum(line["half"] == "tune" for line in lines) / len(lines)

    assert [line["id"] for line in lines if line["half"] != half(line["id"])] == []
    assert 0.45 <= share <= 0.55
