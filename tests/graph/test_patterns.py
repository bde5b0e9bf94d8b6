"""Readings that go together lead to the causes that the trade brief lists for them.

The patterns stand in `patterns.yaml`: numbers read with nothing pouring, the extra facts, and the causes, most
likely first. A pattern holds where the first cause leads, or stands among the first three while the causes
listed hold most of what the pattern speaks for: of the belief in faults that it has made likelier.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
import yaml

from assistant.library import load_case

PATTERNS = yaml.safe_load((Path(__file__).parent / "patterns.yaml").read_text(encoding="utf-8"))
PLAIN_SITE = {"gas_source": "cylinder", "booster": "gas", "gas_shared": "alone"}
LEADING = 3
MOST = 0.5
ROLE = "technician"
CHANNELS = {"W": "water", "G": "gas_supply", "R": "gas_regulated", "S": "syrup1", "B": "barrel1"}
NORMAL = {"water": 78.0, "gas_supply": 70.0, "gas_regulated": 60.0, "syrup": 65.0, "barrel": 28.0}
CHECKS = {
    "water": "site_water.reading_at_rest",
    "gas_supply": "gas_supply.reading_at_rest",
    "gas_regulated": "gas_regulated.reading_at_rest",
    "syrup": "syrup.number_at_rest",
    "barrel": "barrel.number_at_rest",
}


@cache
def case_at(site):
    return load_case(switches=PLAIN_SITE | dict(site), cache=False)


def findings_of(case, pattern):
    """Return the pattern's numbers, symptoms and facts as findings."""
    water, supply, regulated, first, others, barrel = pattern["readings"]
    barrels = range(1, case.machine.barrels + 1)
    numbers = [("water", "", water), ("gas_supply", "", supply), ("gas_regulated", "", regulated)]
    numbers += [("syrup", f"@{n}", first if n == 1 else others) for n in barrels]
    numbers += [("barrel", f"@{n}", barrel if n == 1 else "N") for n in barrels]
    read = [
        case.read(CHECKS[kind] + at, NORMAL[kind] if value == "N" else float(value), "psi", ROLE)
        for kind, at, value in numbers
        if value is not None
    ]
    told = [case.answer(symptom, "present", ROLE) for symptom in pattern.get("told", ())]
    facts = [
        case.answer(check, answer, ROLE) if isinstance(answer, str) else case.read(check, answer, "", ROLE)
        for check, answer in pattern.get("facts", {}).items()
    ]
    return (*read, *told, *facts)


def faults_of(case, ref):
    """Return the ids that a ref of the table means: one channel's, `*` every one, else the first barrel's."""
    base, _, channel = ref.partition(".")
    named = [fault.id for fault in case.machine.faults if fault.ref == base]
    if channel == "*":
        return named
    where = CHANNELS[channel] if channel else "1"
    return [name for name in named if name.partition("@")[2] == where or (not channel and "@" not in name)]


def judged(pattern):
    """Return the causes of the pattern's first ref, the three leading ones, and the listed causes' share."""
    case = case_at(tuple(sorted(pattern.get("site", {}).items())))
    before = dict(case.believe(()).causes)
    after = case.believe(findings_of(case, pattern)).causes
    listed = [faults_of(case, ref) for ref in pattern["likely"]]
    raised = {name: p for name, p in after if p > before[name]}
    share = sum(raised.get(name, 0.0) for names in listed for name in names) / sum(raised.values())
    first = next(names for names in listed if names)
    return set(first), [name for name, _ in after[:LEADING]], share


def test_there_are_all_the_patterns():
    assert [pattern["n"] for pattern in PATTERNS] == list(range(1, 65))


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: str(pattern["n"]))
def test_a_pattern_of_readings_leads_to_its_causes(pattern):
    first, leading, share = judged(pattern)

    assert leading[0] in first or (first & set(leading) and share >= MOST), (pattern, leading, share)
