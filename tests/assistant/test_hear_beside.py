"""What is told beside an answer: when it began, what is fine, what is denied. Common practice of speech, no source."""

import pytest
from hearing import firsts


@pytest.mark.parametrize(
    ("said", "asked", "expected"),
    [
        ("none of them turns, since the storm", "K079", "began storm"),
        ("sticky, has been there since tuesday", "K076", "began tuesday"),
        ("68, but the water is fine", "K035", "fine water"),
        ("dead level with the others, gas is fine by the way", "K081", "fine gas"),
        ("its dry. no more banging in the pipes", "K076", "not_symptom S64"),
    ],
)
def test_what_stands_beside_an_answer_is_taken_too(said, asked, expected):
    facts = firsts(said, asked)

    assert expected in facts
    assert facts[0].split()[0] in {"answer", "reading"}


def test_what_is_the_answer_itself_is_not_told_beside_it():
    assert [fact.split()[0] for fact in firsts("after the service", "K013")] == ["answer"]
    assert [fact.split()[0] for fact in firsts("the water is fine", "K052")] != ["answer", "fine"]


def test_a_story_told_to_a_safety_question_is_no_answer_to_it():
    facts = firsts("there's no bubbles at all, it has been so since the delivery", "K001")

    assert "symptom S10" in facts
    assert not any(fact.split()[0] in {"answer", "danger"} for fact in facts)
