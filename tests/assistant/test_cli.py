"""The command: what each call prints, its exit code, and that nothing ends in a traceback."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from stand_in import FakeClock, StandIn, call

from assistant.cli import run
from assistant.record import read_record
from assistant.world import World

ROOT = Path(__file__).parents[2]
HEAVY = ("networkx", "yaml", "pydantic", "jinja2", "rich", "numpy", "prompt_toolkit", "rapidfuzz", "graph")


class Folder:
    """A folder of session records, and calls with it."""

    def __init__(self, path):
        self.path = path

    def call(self, *arguments, **more):
        return call(*arguments, "--records", str(self.path), **more)

    def begun(self, *typed, site="Harbour Street"):
        called = self.call("talk", "--role", "operator", "--site", site, typed="\n".join(typed))
        assert called.code == 0
        return self.newest()

    def newest(self):
        return max(self.path.glob("*.jsonl"), key=lambda path: (path.stat().st_mtime_ns, path.name))

    def events(self):
        return [type(entry.event).__name__ for entry in read_record(self.newest()).entries]


@pytest.fixture
def folder(tmp_path):
    return Folder(tmp_path / "records")


def test_options_without_a_command_are_for_talk(folder):
    called = folder.call("--role", "technician", typed="70 psi\n")

    assert called.code == 0
    assert "> 70 psi" in called.out
    assert folder.events() == ["Began", "Measured"]


def test_a_session_says_where_it_is_written_and_how_to_go_on(folder):
    called = folder.call("talk", "--role", "operator", "--site", "Harbour Street", typed="70\n")
    name = folder.newest().stem

    assert called.out.startswith(f"This session is written down in {folder.newest()}\n")
    assert called.out.endswith(f"> \nThe session is kept. Go on with: barrelside resume {folder.newest()}\n")
    assert name == "2026-11-25-091501-harbour-street"


def test_a_finished_session_says_how_to_read_it(folder):
    called = folder.call("talk", "--role", "operator", typed="70\nyes\n")

    assert called.out.endswith(f"The session is over. Read it with: barrelside show {folder.newest()}\n")


def test_a_stopped_session_says_how_to_go_on(folder):
    called = folder.call("talk", "--role", "operator", typed="70\n/stop\n")

    assert called.out.endswith(f"Go on with: barrelside resume {folder.newest()}\n")


def test_who_is_there_is_written_down(folder):
    folder.call(
        "talk", "--role", "operator", "--unit", "left", "--person", "Ada", "--others", "Ben", "--trained"
    )

    began = read_record(folder.newest()).entries[0].event

    assert (began.role, began.unit, began.person, began.others, began.trained) == (
        "operator",
        "left",
        "Ada",
        "Ben",
        True,
    )


def test_answers_come_from_a_file(folder, tmp_path):
    script = tmp_path / "answers.txt"
    script.write_text("# by phone\n70 psi\n\nno\n", encoding="utf-8")

    called = folder.call("talk", "--role", "operator", "--answers", str(script), typed="never read")

    assert called.code == 0
    assert folder.events() == ["Began", "Measured", "Chose"]


def test_answers_in_no_known_encoding_are_taken_as_far_as_they_go(folder):
    called = folder.call("talk", "--role", "operator", typed=b"\xff\xfe\x00 it drips\r\n")

    assert called.code == 0
    assert "\\x00" in called.out
    assert folder.events() == ["Began", "Said"]


def test_a_session_goes_on_where_it_was_left(folder):
    path = folder.begun("70")
    called = folder.call("resume", path.stem, typed="no\n")

    assert "Does the handle drip?" in called.out
    assert folder.events() == ["Began", "Measured", "Chose"]
    assert folder.call("replay", path.stem).code == 0


def test_what_was_not_understood_before_the_break_is_not_said_again(folder):
    path = folder.begun("70", "gobbledygook")
    called = folder.call("resume", path.stem)

    assert "Does the handle drip?" in called.out
    assert "gobbledygook" not in called.out


def test_without_a_name_the_newest_open_session_goes_on(folder):
    path = folder.begun("70")
    called = folder.call("resume", typed="no\n")

    assert called.code == 0
    assert len(read_record(path).entries) == 3


def test_with_no_open_session_resume_says_so(folder):
    folder.begun("70", "no")
    called = folder.call("resume")

    assert called.code == 2
    assert (
        called.err
        == f"barrelside: There is no open session in {folder.path}; begin one with: barrelside talk\n"
    )


def test_a_finished_session_is_not_taken_up_but_may_be_handed_over(folder):
    path = folder.begun("70", "no")

    assert folder.call("resume", path.stem).code == 2
    assert folder.call("resume", path.stem, "--role", "technician").code == 0
    assert folder.events()[-1] == "Asked"


def test_a_stopped_session_is_taken_up_with_the_word_for_it(folder):
    path = folder.begun("70", "/stop")
    folder.call("resume", path.stem)

    assert read_record(path).entries[-1].event.word == "resume"


def test_another_role_takes_over(folder):
    path = folder.begun("70")
    folder.call("resume", path.stem, "--role", "technician")
    event = read_record(path).entries[-1].event

    assert (event.word, event.argument) == ("handover", "technician")


def test_a_torn_record_goes_on_and_says_what_was_lost(folder):
    path = folder.begun("70")
    path.write_bytes(path.read_bytes()[:-40])

    called = folder.call("resume", path.stem, typed="70\n")

    assert called.code == 0
    assert "was cut off and is left out" in called.out
    assert folder.events() == ["Began", "Measured"]


def test_a_record_with_only_its_header_goes_on(folder):
    path = folder.begun()
    path.write_bytes(path.read_bytes().split(b"\n")[0] + b"\n")

    called = folder.call("resume", path.stem, typed="operator\n")

    assert called.code == 0
    assert folder.events() == ["Began", "Chose"]


def test_a_changed_pack_makes_a_new_record_that_replays(folder):
    path = folder.begun("70", site="Pier")
    before = path.read_bytes()
    changed = StandIn(digest="d2", prefix="Please: ")

    called = folder.call("resume", path.stem, typed="no\n", conversation=changed)
    new = folder.newest()

    assert called.code == 0
    assert "The session was recorded with pack stand_in 1 (d1), this is stand_in 1 (d2)." in called.out
    assert f"It goes on as a new record, {new.stem}, with 2 entries taken over." in called.out
    assert path.read_bytes() == before
    assert read_record(new).header.continues == path.name
    assert folder.call("replay", new.stem, conversation=changed).code == 0
    assert folder.call("sessions").out.splitlines()[0].split(maxsplit=3)[::3] == [
        path.stem,
        "gone on in a newer record",
    ]
    assert folder.call("resume", typed="no\n", conversation=changed).code == 2  # nothing is open any more


def test_a_changed_digest_with_the_same_words_goes_on_in_place(folder):
    path = folder.begun("70")

    called = folder.call("resume", path.stem, typed="no\n", conversation=StandIn(digest="d2"))

    assert "this is stand_in 1 (d2)" in called.out
    assert len(read_record(path).entries) == 3


def test_a_session_of_another_pack_asks_for_its_pack(folder):
    path = folder.begun("70")
    called = folder.call("resume", path.stem, conversation=StandIn(pack="other"))

    assert called.code == 2
    assert called.err == (
        f"barrelside: The session {path.stem} belongs to pack stand_in, this is other; "
        "name the folder of its pack with --pack.\n"
    )


def test_a_person_at_a_terminal_that_can_do_no_more_types_plainly(tmp_path):
    """A terminal of type dumb: no prompt-toolkit, nothing echoed, a paste is several answers."""

    class Typed(io.TextIOWrapper):
        def isatty(self):
            return True

    stdin = Typed(io.BytesIO(b"70 psi\n\n# no comment here\nno\n"), encoding="utf-8")
    out = Typed(io.BytesIO(), encoding="utf-8")
    world = World({"TERM": "dumb"}, stdin, out, io.StringIO(), FakeClock(), lambda _setup: StandIn())

    assert run(["--role", "operator", "--records", str(tmp_path)], world) == 0
    (path,) = tmp_path.glob("*.jsonl")
    assert [type(entry.event).__name__ for entry in read_record(path).entries] == [
        "Began",
        "Measured",
        "Said",
        "Chose",
    ]
    assert b"# no comment" not in out.buffer.getvalue().split(b"I made nothing", 1)[0]


def test_show_prints_the_session(folder):
    path = folder.begun("70 psi")
    called = folder.call("show", path.stem)

    assert called.code == 0
    assert called.out.startswith(
        "Session of 2026-11-25 09:15:01+00:00\nMachine: one_barrel. Pack: stand_in 1.\n"
    )
    assert "\n> 70 psi\nI take that as 70 psi.\n" in called.out


def test_replay_says_that_all_is_as_recorded(folder):
    path = folder.begun("70", "no")
    called = folder.call("replay", path.stem)

    assert (called.code, called.err) == (0, "")
    assert called.out == f"{path.name}: 3 events replayed, every line as recorded.\n"


def test_replay_shows_the_difference_and_ends_with_one(folder):
    path = folder.begun("70")
    called = folder.call("replay", path.stem, conversation=StandIn(prefix="Please: "))

    assert called.code == 1
    assert "+Please: What does the supply gauge show?" in called.out
    assert called.err == f"{path.name}: 2 of 2 events show something else than recorded, first event 1.\n"


def test_sessions_are_listed_with_how_they_stand(folder):
    assert folder.call("sessions").out == f"No session records in {folder.path}.\n"

    path = folder.begun("70", "no")
    (folder.path / "zz.jsonl").write_text("noise", encoding="utf-8")
    called = folder.call("sessions")

    assert called.out.split() == [path.stem, "3", "entries", "cured"]
    assert called.err == "zz.jsonl cannot be read; barrelside show zz.jsonl says why.\n"


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["tlak"], 'barrelside: No command "tlak"; did you mean talk? (see barrelside --help)'),
        (["--nonsense"], "barrelside: No such option"),
        (
            ["talk", "--by", "luck"],
            "barrelside: Invalid value for '--by': 'luck' is not one of 'minutes', 'bits'.",
        ),
        (
            ["talk", "--role", "ghost"],
            'barrelside: --role "ghost" is nobody here; it may be operator, technician.',
        ),
        (["talk", "--switch", "vent"], 'barrelside: --switch "vent" has no setting; write NAME=SETTING.'),
        (["talk", "--answers", "/nowhere/a.txt"], "barrelside: Invalid value for '--answers'"),
        (["show"], "barrelside: Missing argument 'SESSION'. (see barrelside show --help)"),
        (["show", "zebra"], 'barrelside: No session record "zebra" in'),
        (
            ["schema", "soup"],
            "barrelside: Invalid value for '{lines|pack|report}': 'soup' is not one of 'lines', 'pack', 'report'.",
        ),
    ],
)
def test_wrong_use_is_one_sentence_and_two(arguments, sentence, tmp_path):
    called = call(*arguments, *(["--records", str(tmp_path)] if "zebra" in arguments else []))

    assert called.code == 2
    assert called.err.startswith(sentence)
    assert called.err.count("\n") == 1


def test_a_failure_is_one_sentence_and_one(tmp_path):
    (tmp_path / "records").write_text("a file in the way", encoding="utf-8")
    called = call("talk", "--role", "operator", "--records", str(tmp_path / "records" / "inside"))

    assert called.code == 1
    assert called.err.startswith("barrelside: Cannot write the session record ")
    assert called.err.count("\n") == 1


def test_a_defect_saves_the_record_first_and_is_one_sentence(folder):
    called = folder.call("talk", "--role", "operator", typed="70\n/break\nnever reached\n")
    record = read_record(folder.newest())

    assert called.code == 1
    assert called.err.startswith(
        "barrelside broke on a defect of its own (ZeroDivisionError: a defect, on purpose; at stand_in.py:"
    )
    assert called.err.endswith(f"The session is kept. Go on with: barrelside resume {folder.newest()}\n")
    assert called.err.count("\n") == 1
    assert record.entries[-1].event.word == "break"
    assert record.entries[-1].failed.startswith("ZeroDivisionError at stand_in.py:")


def test_after_a_defect_the_session_goes_on(folder):
    path = folder.begun("70")
    folder.call("resume", path.stem, typed="/break\n")
    called = folder.call("resume", path.stem, typed="no\n")

    assert called.code == 0
    assert folder.events() == ["Began", "Measured", "Asked", "Chose"]
    assert folder.call("replay", path.stem).code == 0
    assert "(event 3 was left out: the program broke on it" in folder.call("show", path.stem).out


def test_a_defect_without_a_session_is_one_sentence_too():
    def load(_setup):
        raise ZeroDivisionError("a defect, on purpose")

    err = io.StringIO()

    assert run(["talk"], World({}, stderr=err, load=load)) == 1
    assert err.getvalue().startswith(
        "barrelside broke on a defect of its own (ZeroDivisionError: a defect, on purpose; at test_cli.py:"
    )


def test_help_lists_every_command(capsys):
    assert run(["--help"], World({})) == 0

    shown = capsys.readouterr().out
    for name in ("talk", "resume", "show", "replay", "sessions", "schema", "pack"):
        assert f"\n  {name}" in shown


@pytest.mark.parametrize("name", ["talk", "resume", "show", "replay", "sessions", "schema", "pack"])
def test_every_command_explains_itself(name, capsys):
    assert run([name, "--help"], World({})) == 0
    assert capsys.readouterr().out.startswith(f"Usage: barrelside {name} ")


def test_the_schema_of_lines_is_printed():
    called = call("schema", "lines")

    assert called.code == 0
    assert '"$schema": "https://json-schema.org/draft/2020-12/schema"' in called.out


def test_the_version_is_said_without_anything_heavy():
    """What has been imported by then stands in the interpreter's own list."""
    code = (
        "import sys; from assistant.cli import run; from assistant.world import World; import os\n"
        "assert run(['--version'], World(os.environ)) == 0\n"
        f"print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)  # noqa: S603 -- our own

    assert done.stdout.splitlines()[0].startswith("barrelside ")
    assert done.stdout.splitlines()[1] == "[]"


def started(*arguments, **streams):
    """Start the command in a process of its own."""
    command = [sys.executable, "-m", "assistant", *arguments]
    return subprocess.Popen(command, cwd=ROOT, stderr=subprocess.PIPE, **streams)  # noqa: S603 -- our own


def test_a_reader_who_has_seen_enough_is_no_failure():
    with started("schema", "lines", stdout=subprocess.PIPE) as process:
        process.stdout.close()
        error = process.stderr.read()

    assert (process.returncode, error) == (0, b"")


def test_what_is_piped_is_utf_8_whatever_the_locale_says(folder):
    path = folder.begun("caf\u00e9 \u51b7")
    with started(
        "show", str(path), stdout=subprocess.PIPE, env=os.environ | {"LC_ALL": "C", "PYTHONUTF8": "0"}
    ) as process:
        shown = process.stdout.read().decode("utf-8")
        error = process.stderr.read()

    assert error == b""
    assert "> caf\u00e9 \u51b7" in shown


def test_lines_and_a_script_do_not_go_together(folder, tmp_path):
    (tmp_path / "a.txt").touch()
    called = folder.call("talk", "--lines", "--answers", str(tmp_path / "a.txt"))

    assert (called.code, called.err) == (
        2,
        "barrelside: --lines reads standard input; leave --answers out.\n",
    )
    assert not folder.path.exists()


def test_what_the_system_refuses_is_one_sentence():
    def load(_setup):
        raise PermissionError(13, "Permission denied", "somewhere")

    err = io.StringIO()

    assert run(["talk"], World({}, stderr=err, load=load)) == 1
    assert err.getvalue() == "barrelside cannot go on: Permission denied (somewhere).\n"
