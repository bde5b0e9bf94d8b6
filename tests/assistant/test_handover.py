"""A session goes on with somebody else on another machine: the record file is all that travels."""

from __future__ import annotations

import io
import shutil

import pytest
from rich.cells import cell_len
from sites_records import keep

from assistant.cli import run
from assistant.engine.candidates import candidates
from assistant.record import read_record
from assistant.report.told import tell
from assistant.world import World

HERE = (
    "--role",
    "operator",
    "--person",
    "Rosa",
    "--site",
    "Pier Lantern Cinemas, Westhaven",
    "--unit",
    "foyer",
)
CALL = "3\n1\n1\n1\n1\nthe drinks are flat\nyes\n/stop\n"


class Computer:
    """A machine with a records folder of its own and nothing else."""

    def __init__(self, folder):
        self.records = folder / "records"
        self.records.mkdir(parents=True)

    def call(self, *arguments, typed=""):
        stdin = io.TextIOWrapper(io.BytesIO(typed.encode()), encoding="utf-8")
        out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2))
        code = run([*arguments, "--records", str(self.records)], World({}, stdin, out, err))
        return code, out.buffer.getvalue().decode(), err.buffer.getvalue().decode()

    def record(self):
        (path,) = self.records.glob("*.jsonl")
        return read_record(path)


@pytest.fixture(scope="module")
def handed_over(tmp_path_factory):
    """Return both computers: a call held by an operator on one, its record copied to the other."""
    one, other = (Computer(tmp_path_factory.mktemp(name)) for name in ("counter", "van"))
    code, out, _ = one.call("talk", *HERE, typed=CALL)
    assert (code, "Stopped here" in out) == (0, True)
    shutil.copy(one.record().path, other.records)
    return one, other


def test_the_brief_on_the_other_machine_fits_one_screen(handed_over):
    _, other = handed_over
    code, out, err = other.call("brief", other.record().path.stem)
    lines = out.splitlines()

    assert (code, err) == (0, "")
    assert len(lines) <= 24
    assert max(map(cell_len, lines)) <= 80
    assert "So far: Rosa, site operator" in " ".join(out.split())
    assert [line.split(" ")[0] for line in lines if line[:1].isupper()][1:] == [
        "Said",
        "Stands",
        "Known",
        "Left",
        "Next",
    ]


@pytest.fixture(scope="module")
def gone_on(handed_over):
    """Return both computers after a technician went on from the copy, without naming it."""
    one, other = handed_over
    before = one.record().path.read_bytes()
    code, out, err = other.call("resume", "--role", "technician", typed="1\n" * 4 + "/unsure\n" * 2)
    assert (code, err) == (0, "")
    return one, other, before, out


def test_somebody_else_goes_on_there_from_what_is_known(gone_on):
    _, other, _, out = gone_on
    record = other.record()
    roles = [entry.event for entry in record.entries if getattr(entry.event, "word", "") == "handover"]

    assert [event.argument for event in roles] == ["technician"]
    assert "the drinks are flat" in out or "flat, no fizz" in out
    assert "Tell me in your own words" not in out


def test_checks_that_only_the_newcomer_can_do_open_up(gone_on):
    _, other, _, _ = gone_on
    told = tell(str(other.record().path), None, "")
    handed = next(each for each in told.moments if getattr(each.event, "word", "") == "handover")
    first, then = (set(candidates(told.case, state)) for state in (handed.before, handed.after))
    roles = {name: told.case.check(name).roles for name in then - first}

    assert len(roles) > 50
    assert all("operator" not in each and "technician" in each for each in roles.values())


def test_the_first_machine_keeps_its_record_as_it_was(gone_on):
    one, other, before, _ = gone_on

    assert one.record().path.read_bytes() == before
    assert other.record().path.read_bytes().startswith(before)


def test_the_report_names_both_and_what_each_of_them_said(gone_on):
    _, other, _, _ = gone_on
    code, out, _ = other.call("report", other.record().path.stem)

    assert code == 0
    assert "| Rosa | Site operator |" in out
    assert "| Field technician |" in out


def test_a_session_that_was_stopped_is_found_without_its_name_and_a_cured_one_is_not(handed_over, tmp_path):
    one, _ = handed_over
    alone = Computer(tmp_path)
    shutil.copy(one.record().path, alone.records)

    assert alone.call("resume")[0] == 0
    alone.record().path.unlink()
    keep(alone.records, 1, outcome="cured")
    code, _, err = alone.call("resume", "--role", "technician")
    assert (code, "no open session" in err) == (2, True)
