"""Which of several numbers was read, and how numbers are spoken: common practice of speech, no source."""

import pytest
from hearing import shorts

from assistant.hear.meant import meant
from assistant.hear.numbers import numbers_in
from assistant.hear.words import words_of


def chosen(said, typical=None):
    words = words_of(said)
    return [number.value for number in meant(words, numbers_in(words), typical)]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("it was 71 an hour back and is 44 now", 44),
        ("normally 60, today 38", 38),
        ("should be 60, reads 38", 38),
        ("38 (usually 60)", 38),
        ("dial goes up to 160, needle on 66", 66),
        ("not 70, more like 55", 55),
        ("six, then five, so 65", 65),
        ("I am 19 and it says 66 psi", 66),
        ("48 now, it was 60 at breakfast", 48),
    ],
)
def test_the_number_meant_is_what_it_is_now(said, expected):
    assert chosen(said) == [expected]


def test_a_number_that_the_quantity_cannot_have_is_not_the_one_meant():
    assert chosen("812 and 67") == [812]
    assert chosen("812 and 67", (0.0, 160.0)) == [67]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("fiftyish psi", (50.0, None, "psi")),
        ("45ish bar", (45.0, None, "bar")),
        ("thirty something", (30.0, 39.0, "")),
        ("62 or 63", (62.0, 63.0, "")),
        ("6o psi", (60.0, None, "psi")),
        ("point three brix", (0.3, None, "brix")),
        ("3 1/2 bar", (3.5, None, "bar")),
        ("a hundred and five", (105.0, None, "")),
        ("hundred and five", (105.0, None, "")),
        ("19 and a bit kilos", (19.0, None, "kg")),
    ],
)
def test_numbers_as_they_are_spoken(said, expected):
    (number,) = numbers_in(words_of(said))

    assert (number.value, number.high, number.unit) == expected


@pytest.mark.parametrize("said", ["8 in the morning", "10 at night"])
def test_a_time_of_day_is_no_reading(said):
    assert all(number.counts for number in numbers_in(words_of(said)))


def test_numbers_far_apart_are_no_range():
    assert [number.high for number in numbers_in(words_of("20 or 70"))] == [None, None]


def test_a_dial_whose_name_may_mean_two_is_the_one_that_was_asked_for():
    said = "other one 210, little dial 61 psi"

    assert shorts(said, "K035")[0].startswith("reading gas_low_dial 61")
    assert shorts("little dial 58", "K063")[0].startswith("reading pump_gas_dial 58")


def test_a_temperature_needs_no_more_than_its_place():
    assert shorts("31F at the spout") == ["reading drink_temperature 31 F"]
    assert not any(fact.startswith("reading") for fact in shorts("12 in the cup"))
