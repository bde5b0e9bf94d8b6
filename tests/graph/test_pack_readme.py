"""The worked example of the pack's README does what it says, step by step, on a copy of the pack."""

from __future__ import annotations

import io
import re
import shutil
from importlib.resources import as_file
from pathlib import Path

import pytest

from assistant.cli import run
from assistant.world import World
from graph.load import shipped
from graph.pack import Chapter

README = Path(str(shipped())) / "README.md"
BLOCK = re.compile(r"^```(yaml|text)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
FAULT = "counter.window.sun_on_barrels"
MOST_LINES = 40


@pytest.fixture(scope="module")
def blocks():
    """Return the YAML that is added, and what the check says after each addition."""
    found = BLOCK.findall(README.read_text(encoding="utf-8"))
    return [text for kind, text in found if kind == "yaml"], [text for kind, text in found if kind == "text"]


@pytest.fixture
def copy(tmp_path):
    with as_file(shipped()) as folder:
        return Path(shutil.copytree(folder, tmp_path / "pack"))


def checked(folder):
    out = io.StringIO()
    world = World({}, io.StringIO(), out, out)
    return run(["pack", "check", "--pack", str(folder), "--profile", "two_barrel"], world), out.getvalue()


def list_fault(file, *places):
    """Add the fault to the list that opens behind these lines, each looked for behind the one before."""
    text = file.read_text(encoding="utf-8")
    at = 0
    for place in places:
        at = text.index(f"\n{place}", at)
    opening = text.index("[", at) + 1
    file.write_text(f"{text[:opening]}{FAULT}, {text[opening:]}", encoding="utf-8")


def test_every_step_of_the_example_ends_in_what_the_readme_shows(blocks, copy):
    added, said = blocks
    assert len(added) == len(said) == 3

    for count, expected in enumerate(said, start=1):
        (copy / "counter.yaml").write_text("".join(added[:count]), encoding="utf-8")
        code, output = checked(copy)

        assert (code == 0) == (count == 3), output
        for part in expected.split("\n\n"):
            assert part.strip("\n") in output


def test_the_whole_example_leaves_nothing_to_say(blocks, copy):
    added, _ = blocks
    (copy / "counter.yaml").write_text("".join(added), encoding="utf-8")
    list_fault(copy / "refrigeration.yaml", "  product.runny_all:", "    sometimes:")
    list_fault(copy / "scope.yaml", "  scope.time_of_day:", "      afternoons:", "        usually:")
    code, output = checked(copy)

    assert code == 0
    assert "counter.yaml" not in output


def test_the_example_is_as_short_as_it_says(blocks):
    lines = "".join(blocks[0]).splitlines()

    assert len(lines) < MOST_LINES
    assert f"{len(lines)} lines, one fault" in README.read_text(encoding="utf-8")


def test_every_kind_of_a_chapter_is_explained():
    text = README.read_text(encoding="utf-8")

    assert [kind for kind in Chapter.model_fields if kind != "title" and f"`{kind}`" not in text] == []
