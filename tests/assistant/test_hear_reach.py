"""Asked which barrels are affected, every number and side names one; who is well is not meant.

The expectations are our own.
"""

import pytest
from hearing import shorts


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("just the cola and the blue", {"answer K025 some", "which 1,3 [1,3]"}),
        ("only the furthest right", {"answer K025 one", "which 3 [3]"}),
        ("middle by itself, cola and blue are fine", {"answer K025 one", "which 2 [2]", "fine 1,3 [1,3]"}),
        ("just 3, one and two are perfect", {"answer K025 one", "which 3 [3]", "fine 1,2 [1,2]"}),
        ("1 and 2 both, 3's fine", {"answer K025 some", "which 1,2 [1,2]", "fine 3 [3]"}),
        (
            "only the cherry, cola's ok and so's the blue",
            {"answer K025 one", "which 2 [2]", "fine 1,3 [1,3]"},
        ),
        ("everything apart from the middle", {"answer K025 some", "which 1,3 [1,3]"}),
        ("not the blue, the other two", {"answer K025 some", "which 1,2 [1,2]"}),
        ("two of the three, the red and the brown", {"answer K025 some", "which 1,2 [1,2]"}),
        ("the whole lot, left middle and right", {"answer K025 all", "which all [1,2,3]"}),
        ("one, two and three", {"answer K025 all", "which all [1,2,3]"}),
        ("just the one, the red", {"answer K025 one", "which 2 [2]"}),
        ("raspberry and nothing else", {"answer K025 one", "which 3 [3]"}),
        ("all of them, since saturday", {"answer K025 all", "which all [1,2,3]", "began saturday"}),
    ],
)
def test_how_many_barrels_and_which(said, facts):
    assert set(shorts(said, "K025")) == facts


def test_who_tells_a_trouble_besides_is_listened_to_further():
    assert not [
        fact for fact in shorts("cherry spits and cola is stuck", "K025") if fact == "answer K025 all"
    ]


@pytest.mark.parametrize("asked", ["K096", "K037"])
def test_other_questions_do_not_make_numbers_into_barrels(asked):
    assert not [fact for fact in shorts("1 and 3", asked) if fact.startswith("answer K025")]
