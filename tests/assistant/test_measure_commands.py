"""`pack measure` and `pack faults` as typed: figures by policy and by fault, and a plain refusal."""

from __future__ import annotations

import io
import json

import pytest
from casts import PARLOUR, parlour_case

from assistant.cli import run
from assistant.world import World

HERE = ("--pack", str(PARLOUR), "--profile", "two_barrel", "--jobs", "1", "--json")


@pytest.fixture
def call(capsys):
    def called(*arguments):
        err = io.StringIO()
        code = run(["pack", *arguments], World({}, io.StringIO(""), io.StringIO(), err))
        return code, capsys.readouterr().out, err.getvalue()

    return called


@pytest.fixture(scope="module")
def common():
    return sorted(fault.rate for fault in parlour_case().machine.faults)[-3]


def test_every_common_fault_is_listed_worst_first(call, common):
    code, out, _ = call("faults", *HERE, "--each", "3", "--rate", str(common - 0.01))
    table = json.loads(out)["faults"]
    shares = [row["right_remedy"] for row in table]

    assert code == 0
    assert shares == sorted(shares)
    assert {row["cases"] for row in table} == {3}
    assert {row["fault"] for row in table} == {
        fault.base for fault in parlour_case().machine.faults if fault.rate > common - 0.01
    }


def test_no_fault_that_common_is_said_in_one_sentence(call):
    code, _, err = call("faults", *HERE, "--rate", "100000")

    assert code == 2
    assert "give a lower --rate" in err
    assert len(err.splitlines()) == 1


def test_the_measure_gives_both_figures_for_the_engine(call):
    code, out, _ = call("measure", *HERE, "--cases", "20", "--no-baselines")
    report = json.loads(out)

    assert code == 0
    assert report["cases"] == report["without_slips"]["cases"] == 20
    assert 0.0 < report["right_remedy"] <= 1.0


def test_whole_jobs_stand_beside_two_other_ways_of_working(call):
    code, out, _ = call("measure", *HERE, "--cases", "20", "--whole")
    ways = json.loads(out)["whole_jobs"]

    assert code == 0
    assert set(ways) == {"whole_engine", "whole_likeliest", "whole_chart"}
    assert ways["whole_engine"]["visits_mean"] < ways["whole_likeliest"]["visits_mean"]
