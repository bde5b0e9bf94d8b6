"""Quantities that are differences, told by the numbers that they lie between: common practice of speech, no source."""

import pytest
from hearing import shorts

from assistant.hear.differences import difference
from assistant.hear.numbers import numbers_in
from assistant.hear.words import words_of


def between(said, how):
    words = words_of(said)
    found = difference(words, numbers_in(words), how)
    return None if found is None else found.value


@pytest.mark.parametrize(
    ("said", "how", "expected"),
    [
        ("71 before, 58 after", "fall", 13),
        ("58 now, it was 71", "fall", 13),
        ("from 66 down to 60", "fall", 6),
        ("66 to 70", "fall", -4),
        ("27 in, 39 out", "rise", 12),
        ("31 to 36", "rise", 5),
        ("12.1 and the card says 13", "above", -0.9),
        ("it is on 12.1, card says 13", "above", -0.9),
        ("should be 13, reads 14", "above", 1),
        ("probe shows -1, mine shows 2", "apart", 3),
        ("13.0 13.4 12.9", "spread", 0.5),
        ("rock solid at 68", "fall", 0),
        ("same, 68", "fall", 0),
    ],
)
def test_two_numbers_make_the_difference(said, how, expected):
    assert between(said, how) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("said", ["lost 3 in 15", "down 4", "it is 5, same as last time", "about 2"])
def test_a_lone_number_is_the_difference_itself(said):
    assert between(said, "fall") is None


def test_what_is_lost_and_what_is_left_are_not_mixed_up_in_a_reply():
    assert shorts("70 before and 62 after", "K118") == ["reading gas_decay 8"]
    assert shorts("12.2, card says 13", "K147")[0] == "reading brix_offset -0.8"
