"""`barrelside pack hear`, the kept phrases, and that a cache changes nothing."""

import io
import json

import numpy as np
import pytest
from hearing import heard, shipped_machine
from sample_packs import GOOD

from assistant.cli import run
from assistant.hear import Phrasebook, hear, store
from assistant.hear.phrasebook import compared
from assistant.hear.shelf import kept_file, phrasebook
from assistant.library import load_case
from assistant.world import World

LINE = "blue is runny, gas 45 psi since friday"


def call(*arguments, typed=""):
    world = World({}, io.StringIO(typed), io.StringIO(), io.StringIO())
    code = run(["pack", "hear", *arguments], world)
    return code, world.stdout.getvalue(), world.stderr.getvalue()


def test_json_is_a_list_of_facts_with_kind_id_ref_and_outcome():
    code, out, _ = call("--json", "--asked", "K025", "just the cherry")
    facts = json.loads(out)

    assert code == 0
    assert [fact["kind"] for fact in facts] == ["answer", "which"]
    assert (facts[0]["ref"], facts[0]["value"], facts[0]["outcome_ref"]) == ("K025", "one", "b")
    assert facts[1]["which"] == [2]


def test_every_line_of_standard_input_is_heard():
    code, out, _ = call("--json", typed="gas is fine\n\ndunno\n")

    assert code == 0
    assert [[fact["kind"] for fact in json.loads(row)] for row in out.splitlines()] == [
        ["fine"],
        [],
        ["unsure"],
    ]


def test_without_json_the_facts_are_shown_in_words_and_the_rest_is_said():
    code, out, _ = call("the gas is fine and my cousin plays the trombone")

    assert code == 0
    assert "fine  gas" in out
    assert "not understood: and my cousin plays the trombone" in out


@pytest.mark.parametrize("arguments", [("--asked", "K999", "x"), ("--nothing", "x")])
def test_wrong_use_is_one_sentence_and_exit_2(arguments):
    code, out, err = call(*arguments)

    assert (code, out) == (2, "")
    assert len(err.strip().splitlines()) == 1


def test_an_unknown_profile_is_a_failure_in_one_sentence():
    code, _, err = call("--profile", "no_such_machine", "x")

    assert code in {1, 2}
    assert len(err.strip().splitlines()) == 1


def test_kept_phrases_come_back_equal():
    made = compared(shipped_machine())
    back = store.load(store.dump(made), shipped_machine())

    assert back.vocabulary == made.vocabulary
    for name in store.TABLES:
        one, other = getattr(made, name), getattr(back, name)
        assert one.meanings == other.meanings
        for space in store.SPACES:
            assert getattr(one, space).spans == getattr(other, space).spans
            assert np.array_equal(getattr(one, space).weights, getattr(other, space).weights)
    assert np.array_equal(made.symptoms.regression.weights, back.symptoms.regression.weights)
    for kept in (made, back):
        book = Phrasebook.of(shipped_machine(), kept)
        assert hear(shipped_machine(), LINE, None, book) == heard(LINE)


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04 not ours", b"\x80\x04pickled"])
def test_bytes_that_are_not_ours_are_refused(data):
    with pytest.raises(ValueError, match="kept phrases"):
        store.load(data, shipped_machine())


def test_the_shelf_makes_keeps_and_mends_its_file(tmp_path, monkeypatch):
    monkeypatch.setenv("BARRELSIDE_CACHE", str(tmp_path))
    machine = load_case(GOOD, "two_barrel", cache=False).machine  # few phrases, soon made
    kept = kept_file(machine)
    first = phrasebook(machine)
    whole = kept.read_bytes()
    again = phrasebook(machine)
    kept.write_bytes(b"torn")
    mended = phrasebook(machine)

    assert kept.parent == tmp_path
    assert kept.read_bytes() == whole
    understood = hear(machine, "drinks are flat, gas 45 psi", None, Phrasebook.of(machine))
    assert [fact.kind for fact in understood[0]] == ["symptom", "reading"]
    for book in (first, again, mended):
        assert hear(machine, "drinks are flat, gas 45 psi", None, book) == understood
