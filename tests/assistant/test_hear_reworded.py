"""What is told in a roundabout way, or behind an event: common practice of speech, no source."""

import pytest
from hearing import firsts, heard, shipped_machine

from assistant.hear.line import Line
from assistant.hear.reworded import crossed
from assistant.hear.shelf import phrasebook


def offered(said):
    return {fact.ref for fact in heard(said)[0] if fact.kind == "symptom"}


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("i push the cherry and it gives me cola", "symptom S15 [2]"),
        ("wanted cola, it gave me something red", "symptom S15 [1]"),
        ("the cherry is coming out brown", "symptom S15 [2]"),
    ],
)
def test_a_drink_where_another_should_come_is_of_the_barrel_named_first(said, fact):
    assert fact in firsts(said)


def test_a_drink_in_its_own_colour_is_not_crossed():
    book = phrasebook(shipped_machine())
    called = book.barrels.called

    assert crossed(Line.of("the cola pours brown", book), called) is None
    assert crossed(Line.of("the cola pours red", book), called) is not None


@pytest.mark.parametrize(
    ("said", "ref"),
    [
        ("regulated is 36, flagged low", "S20"),
        ("barrel 3 at 58, far too high", "S32"),
    ],
)
def test_words_that_judge_a_number_are_heard_of_its_quantity(said, ref):
    facts = heard(said)[0]

    assert any(fact.kind == "reading" for fact in facts)
    assert ref in offered(said)
    assert not any(fact.certain for fact in facts if fact.kind == "symptom")


@pytest.mark.parametrize("said", ["regulated gas is at 55 psi", "barrel 1 is sitting at 30 right now"])
def test_a_number_alone_tells_no_symptom(said):
    assert offered(said) == set()


def test_a_trouble_behind_an_event_is_heard_with_the_event():
    facts = heard("after the new cylinder was fitted the regulator iced up")[0]

    assert "delivery" in {fact.value for fact in facts if fact.kind == "began"}
    assert "S52" in {fact.ref for fact in facts}


@pytest.mark.parametrize("said", ["bluraspberry is runny", "blu raspbery is runny"])
def test_a_name_with_slips_is_the_barrel(said):
    assert "symptom S02 [3]" in firsts(said)


def test_what_is_nearest_at_a_low_bar_is_never_certain():
    facts = heard("blue barely trickles")[0]

    assert "S07" in {fact.ref for fact in facts}
    assert not any(fact.certain for fact in facts)
