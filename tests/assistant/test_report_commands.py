"""`barrelside report`, `brief` and `sheet`: what they print, their exit codes, one sentence where it fails."""

from __future__ import annotations

import io
import json

import pytest
from casts import PARLOUR
from reported import Held, cured

from assistant.cli import run
from assistant.world import World


class Call:
    """One call of the command with its streams."""

    def __init__(self, *arguments):
        out, err = io.StringIO(), io.StringIO()
        self.code = run([str(each) for each in arguments], World({}, io.StringIO(), out, err))
        self.out, self.err = out.getvalue(), err.getvalue()


@pytest.fixture
def path(tmp_path):
    return cured().write(tmp_path / "records")


def reported(path, *arguments):
    return Call("report", path, "--pack", PARLOUR, *arguments)


@pytest.mark.parametrize(
    ("form", "beginning"),
    [
        ("markdown", "# Service report: Pier Lantern"),
        ("html", "<!DOCTYPE html>"),
        ("json", '{\n  "kind": "report"'),
        ("note", "Put right.\n"),
    ],
)
def test_a_report_comes_in_every_form(path, form, beginning):
    called = reported(path, "--format", form)

    assert (called.code, called.err) == (0, "")
    assert called.out.startswith(beginning)


def test_a_report_is_markdown_unless_said(path):
    assert reported(path).out == reported(path, "--format", "markdown").out


def test_the_same_record_gives_the_same_bytes(path):
    for form in ("markdown", "html", "json", "note"):
        assert reported(path, "--format", form).out == reported(path, "--format", form).out


def test_a_report_is_found_by_the_beginning_of_its_name_and_written_to_a_file(path, tmp_path):
    out = tmp_path / "report.html"
    called = Call(
        "report", "2026-11-25", "--records", path.parent, "--pack", PARLOUR, "--format", "html", "--out", out
    )

    assert (called.code, called.out, called.err) == (0, "", f"Written to {out}.\n")
    assert out.read_bytes().endswith(b"</html>\n")
    assert b"\r" not in out.read_bytes()


def test_a_brief_fits_one_screen(path):
    called = Call("brief", path, "--pack", PARLOUR)

    assert called.code == 0
    assert len(called.out.rstrip("\n").split("\n")) <= 24


def test_a_sheet_is_that_of_the_session_or_of_a_remedy(path):
    of_session = Call("sheet", path, "--pack", PARLOUR)
    of_remedy = Call(
        "sheet", "gas.open_valve", "--pack", PARLOUR, "--profile", "two_barrel", "--records", path.parent
    )

    assert of_session.code == of_remedy.code == 0
    assert "Work sheet: Open the cylinder valve" in of_session.out
    assert "Complaint: the drinks are flat" in of_session.out
    assert "Complaint:" not in of_remedy.out
    assert "For: Counter staff" in of_session.out  # who did the repair
    assert "For: Field technician" in of_remedy.out


def test_a_record_that_was_cut_off_is_reported_with_a_sentence(path):
    whole = path.read_bytes()
    path.write_bytes(whole[:-40])
    called = reported(path, "--format", "json")

    assert called.code == 0
    assert called.err.startswith(f"The last line of {path.name}")
    assert json.loads(called.out)["remarks"] == [called.err.rstrip("\n")]
    assert path.read_bytes() == whole[:-40]


def test_a_record_under_a_changed_pack_says_so_in_one_line(path, tmp_path):
    folder = tmp_path / "changed"
    folder.mkdir()
    for each in PARLOUR.glob("*.yaml"):
        (folder / each.name).write_text(
            each.read_text(encoding="utf-8").replace("rate: 40", "rate: 4"), encoding="utf-8"
        )
    called = Call("report", path, "--pack", folder, "--format", "note")

    assert called.code == 0
    assert called.err.count("\n") == 1
    assert called.err.startswith("The session was recorded with pack parlour 1")


def failed(called, code, text):
    assert called.code == code
    assert called.out == ""
    assert called.err.count("\n") == 1
    assert "Traceback" not in called.err
    assert text in called.err


@pytest.mark.parametrize("command", ["report", "brief"])
def test_bad_input_is_one_sentence_and_the_code_that_fits(command, path, tmp_path):
    damaged = path.with_name("damaged.jsonl")
    damaged.write_bytes(path.read_bytes().replace(b'"n": 2', b'"n": 7'))
    other = tmp_path / "other.jsonl"
    other.write_bytes(path.read_bytes().replace(b'"pack": "parlour"', b'"pack": "elsewhere"'))
    nothing = tmp_path / "nothing.jsonl"
    nothing.write_bytes(b"")

    failed(Call(command, "none", "--records", path.parent), 2, 'No session record "none"')
    failed(Call(command, path, "--pack", tmp_path / "no-pack"), 2, "no-pack")
    failed(Call(command, other, "--pack", PARLOUR), 2, "belongs to pack elsewhere")
    failed(Call(command, damaged, "--pack", PARLOUR), 1, "damaged.jsonl:3: expected entry 2, found 7")
    failed(Call(command, nothing, "--pack", PARLOUR), 1, "is empty")


def test_wrong_use_of_a_report(path, tmp_path):
    failed(reported(path, "--format", "pdf"), 2, "'pdf' is not one of")
    failed(Call("report"), 2, "SESSION")
    failed(reported(path, "--out", tmp_path / "no" / "such" / "folder.md"), 1, "give another --out")


def test_a_sheet_that_may_not_be_printed_or_is_not_there(path):
    parlour = ("--pack", PARLOUR, "--profile", "two_barrel", "--records", path.parent)

    failed(
        Call("sheet", "barrel.recharge", *parlour),
        1,
        "is not for the field technician to do; send the refrigeration technician",
    )
    failed(Call("sheet", "R1", "--role", "operator", *parlour), 1, "for trained people only")
    failed(Call("sheet", "R1", "--role", "juggler", *parlour), 2, '--role "juggler" is nobody here')
    failed(Call("sheet", "gas.open_valv", *parlour), 2, "did you mean gas.open_valve")
    failed(Call("sheet", "R3", *parlour), 2, "name one of barrel.change_lead@1")
    failed(Call("sheet", "R1", "--pack", PARLOUR, "--profile", "nine_barrel"), 2, "nine_barrel")


def test_a_session_that_has_decided_nothing_has_no_sheet(tmp_path):
    path = Held().chose("none").write(tmp_path / "records")

    failed(Call("sheet", path, "--pack", PARLOUR), 2, "Nothing to be done is decided in")


def test_text_that_steers_terminals_is_made_visible(tmp_path):
    path = Held(site="Westhaven\x1b[2J\u202e").chose("none").write(tmp_path / "records")
    for command in (("report", path), ("report", path, "--format", "note"), ("brief", path)):
        called = Call(*command, "--pack", PARLOUR)
        assert called.code == 0
        assert "\x1b" not in called.out
        assert "\u202e" not in called.out
