"""Two faults that hide one another are both found; and each of a pair that looks alike is found by itself.

The pairs are the trade brief's. Every check is answered with what the faults make likeliest, and the engine's own
policy asks. Of two faults it must first reach the remedy of one, then, the complaint still there, the other's.
"""

from __future__ import annotations

from functools import cache

import pytest
from look_alikes import PAIRS
from truthful import Job, clearest_symptom, fault_at

from assistant.library import load_case

DOUBLE_FAULTS = (
    ("DD1", "GS01", "SE2.G", "warning.syrup_low_all"),
    ("DD2", "GS01", "LD2.S", "warning.gas_low"),
    ("DD3", "GS12", "SE3.R", "reading.gas_high"),
    ("DD4", "UW05", "UW14", "warning.water_low"),
    ("DD5", "SY01", "SY04", "warning.syrup_low_one@1"),
    ("DD6", "RF01", "RF07", "product.runny_all"),
    ("DD7", "BL05", "RF13", "product.solid@1"),
    ("DD8", "BA01", "LD4.B", "leak.front@1"),
    ("DD9", "EL03", "UW01", "reading.all_silly"),
    ("DD10", "LD5.G", "SE1.G", "reading.stuck_zero@gas_supply"),
    ("DD11", "GS02", "HU04", "warning.gas_low"),
    ("DD12", "GR11", "BA11", "reading.barrel_high@1"),
    ("DD13", "UP03", "RF04", "noise.compressor_clicks"),
    ("DD14", "EL13", "SE3.G", "reading.disagrees@gas_supply"),
    ("DD15", "GS16", "GS10", "reading.disagrees@gas_supply"),
    ("DD16", "SY15", "LD5.S", "product.wrong_flavour@1"),
)
ALIKE = tuple(dict.fromkeys(ref for pair in PAIRS for ref in pair[1:3]))


@cache
def case_with_bottles():
    return load_case(switches={"gas_source": "cylinder"}, cache=False)


@pytest.mark.parametrize(
    ("first", "second", "complaint"),
    [pair[1:] for pair in DOUBLE_FAULTS],
    ids=[pair[0] for pair in DOUBLE_FAULTS],
)
def test_of_two_faults_both_are_found_one_after_the_other(first, second, complaint):
    case = case_with_bottles()
    faults = frozenset(fault_at(case.machine, ref) for ref in (first, second))
    wanted = {case.machine.faults[fault].remedy for fault in faults}
    one, job = Job(case, faults).told(complaint).advised()

    assert one in wanted

    other, job = job.repaired(one).advised()

    assert {one, other} == wanted
    assert not job.repaired(other).left


@pytest.mark.parametrize("ref", ALIKE)
def test_each_of_two_that_look_alike_is_found_by_truthful_answers(ref):
    case = case_with_bottles()
    fault = fault_at(case.machine, ref)
    remedy, _ = Job(case, frozenset({fault})).told(clearest_symptom(case, (fault,))).advised()

    assert remedy == case.machine.faults[fault].remedy
