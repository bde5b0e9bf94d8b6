"""The whole program with the shipped pack: every shell, from the first question to the last word."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from functools import cache
from pathlib import Path

import jsonschema
import pytest
from stand_in import Called, FakeClock

from assistant.cli import run
from assistant.lines_schema import LINES_SCHEMA
from assistant.record import read_record
from assistant.world import World, live

ROOT = Path(__file__).parents[2]
OUTPUT = jsonschema.Draft202012Validator({**LINES_SCHEMA, "anyOf": [{"$ref": "#/$defs/output"}]})
LOAD = cache(live)  # the phrases of a pack take a second or two to make ready
SCREENED = "no\nno\n1\n1\n"


def barrelside(*arguments, typed=""):
    """Call the command with the real conversation and streams in memory."""
    streams = [io.TextIOWrapper(io.BytesIO(data), encoding="utf-8") for data in (typed.encode(), b"", b"")]
    code = run(list(arguments), World({}, *streams, FakeClock(), LOAD))
    return Called(code, *(stream.buffer.getvalue().decode() for stream in streams[1:]))


@pytest.fixture
def records(tmp_path):
    return str(tmp_path / "records")


def the_record(records):
    (path,) = Path(records).glob("*.jsonl")
    return path


def test_a_call_is_held_kept_replayed_and_shown(records):
    begun = barrelside(
        "--role",
        "helpdesk",
        "--site",
        "Pier Lantern",
        "--records",
        records,
        typed=f"{SCREENED}barrel 2 runs warm\n/why\n",
    )
    path = the_record(records)
    again = barrelside("resume", "--records", records, typed="/facts\n/note called back\n")
    replayed = barrelside("replay", path.stem, "--records", records)
    shown = barrelside("show", path.stem, "--records", records)

    assert [each.code for each in (begun, again, replayed, shown)] == [0, 0, 0, 0]
    assert [each.err for each in (begun, again, replayed, shown)] == [""] * 4
    assert replayed.out.endswith("every line as recorded.\n")
    assert "\n> barrel 2 runs warm\n" in shown.out
    assert len(read_record(path).entries) == 9


@pytest.mark.parametrize("role", ["operator", "helpdesk", "technician", "refrigeration"])
def test_a_session_over_lines_ends_and_fits_the_schema(records, role):
    """Thirty questions are answered by their first outcome; whatever is still open then is stopped."""
    lines = '{"outcome": 1}\n' * 30 + '{"word": "stop"}\n'
    called = barrelside(
        "talk", "--lines", "--role", role, "--site", "Pier Lantern", "--records", records, typed=lines
    )
    said = [json.loads(line) for line in called.out.splitlines()]

    assert (called.code, called.err) == (0, "")
    assert "closed" in {each["kind"] for each in said}
    for each in said:
        OUTPUT.validate(each)
    assert barrelside("replay", the_record(records).stem, "--records", records).code == 0


def test_a_technician_takes_over_what_the_call_learnt(records):
    barrelside("--role", "helpdesk", "--site", "Pier Lantern", "--records", records, typed=SCREENED)
    called = barrelside("resume", "--role", "technician", "--records", records, typed="/facts\n")

    assert called.code == 0
    assert barrelside("replay", the_record(records).stem, "--records", records).code == 0


def test_a_stopped_session_is_taken_up_again(records):
    barrelside(
        "--role", "helpdesk", "--site", "Pier Lantern", "--records", records, typed=f"{SCREENED}/stop\n"
    )
    path = the_record(records)
    assert read_record(path).entries[-1].shown[-1].outcome == "stopped"

    called = barrelside("resume", path.stem, "--records", records, typed="/why\n")

    assert called.code == 0
    assert called.out.endswith(f"The session is kept. Go on with: barrelside resume {path}\n")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--profile", "nine_barrel"], "nine_barrel"),
        (["--pack", "/nowhere/pack"], "/nowhere/pack"),
        (["--switch", "vent=sideways"], "vent"),
        (["--role", "ghost"], "ghost"),
    ],
)
def test_a_wrong_machine_or_role_is_one_sentence_and_two(records, arguments, words):
    called = barrelside("talk", *arguments, "--records", records)

    assert called.code == 2
    assert words in called.err
    assert called.err.count("\n") == 1
    assert not Path(records).exists()


def test_the_first_question_needs_nothing_heavy(tmp_path):
    """With the compiled pack in the cache; the first call makes sure that it is there."""
    heavy = ("networkx", "yaml", "pydantic", "jinja2", "rich", "rapidfuzz")
    code = (
        "import sys, atexit\n"
        f"atexit.register(lambda: print([n for n in {heavy!r} if n in sys.modules], file=sys.stderr))\n"
        "from assistant.cli import main\nmain()"
    )
    command = [sys.executable, "-c", code, "--role", "operator", "--records", str(tmp_path)]
    environment = os.environ | {"BARRELSIDE_CACHE": str(tmp_path / "cache")}
    for _ in range(2):
        done = subprocess.run(  # noqa: S603 -- our own program
            command, cwd=ROOT, env=environment, input="", capture_output=True, text=True, check=True
        )

    assert done.stderr == "[]\n"
    assert "session is kept" in done.stdout
