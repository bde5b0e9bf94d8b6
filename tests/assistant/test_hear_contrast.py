"""What stands beside a denial, an event or a danger: common practice of speech, no source."""

import pytest
from hearing import firsts, heard, short

from assistant.hear.words import words_of


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("that isn't slush it's soup on every barrel", {"symptom S01"}),
        ("it isn't frozen solid, it just won't come out of the blue", {"not_symptom S03", "symptom S08 [3]"}),
        ("it isn't too sweet if anything it's weak", {"not_symptom S14", "symptom S13"}),
        ("the bubbles have gone in all of them", {"symptom S10"}),
        ("it tastes as if somebody rinsed it with hand sanitiser", {"symptom S16"}),
    ],
)
def test_what_is_the_case_is_told_from_what_is_not(said, facts):
    assert facts <= set(firsts(said))


def test_a_doubtful_denial_has_the_plain_statement_among_its_rivals():
    facts, _ = heard("no noise")

    assert not any(fact.certain for fact in facts)
    assert {"not_symptom", "symptom"} <= {fact.kind for fact in facts if fact.words == facts[0].words}


@pytest.mark.parametrize(
    ("said", "symptom", "danger"),
    [
        ("I'm getting a small shock off the body of it", "symptom S51", "K004"),
        ("we're short of breath in the store where the bottles are", "symptom S38", "K001"),
    ],
)
def test_a_danger_leaves_the_trouble_that_it_agrees_with(said, symptom, danger):
    facts, _ = heard(said)

    assert symptom in {short(fact) for fact in facts}
    assert danger in {fact.ref for fact in facts if fact.kind == "danger"}


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("the gas guy came by with a tank, trouble ever since", {"began delivery", "symptom S60"}),
        ("it has been wrong since we gave it a good clean", {"began cleaning", "symptom S59"}),
    ],
)
def test_an_event_is_the_symptom_that_tells_of_it(said, facts):
    assert facts <= set(firsts(said))


def test_all_names_in_a_row_are_every_barrel():
    assert "symptom S23" in firsts("cola, cherry, blue, all of them showing sold out together")


@pytest.mark.parametrize(
    ("said", "joins"), [("cola an cherry are flat", True), ("not an iota of fizz", False)]
)
def test_an_is_a_short_and_before_a_consonant_only(said, joins):
    assert ("and" in {word.text for word in words_of(said)}) is joins


def test_a_barrel_of_what_is_told_beside_is_not_that_of_the_rest():
    line = (
        "theres no bubbles and the left one's gone like soup, gauge on the bottle says about 300, "
        "been like it since the delivery"
    )

    told = {"symptom S10", "symptom S02 [1]", "reading cylinder_contents 300", "began delivery"}
    assert told <= set(firsts(line))
