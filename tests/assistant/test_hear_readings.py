"""Numbers that are readings, and what they are readings of: common practice of speech, no source."""

import pytest
from hearing import heard, short, shorts

from assistant.hear.numbers import numbers_in
from assistant.hear.words import words_of


def readings(said, asked=None):
    return [fact for fact in shorts(said, asked) if fact.startswith("reading")]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("syrup 1 is 15", ["reading syrup 15 [1]"]),
        ("wait, syrup 1 is 15 not 51", ["reading syrup 15 [1]"]),
        ("syrup 1 reads 99", ["reading syrup 99 [1]"]),
        ("syrup on the cherry side reads 0", ["reading syrup 0 [2]"]),
        (
            "syrup 1 at 65, 2 at 66, 3 at 12",
            ["reading syrup 65 [1]", "reading syrup 66 [2]", "reading syrup 12 [3]"],
        ),
        (
            "barrel pressures are 28 left, 29 middle, 27 right",
            ["reading barrel 28 [1]", "reading barrel 29 [2]", "reading barrel 27 [3]"],
        ),
        ("barrel 1 pressure 30, barrel 2 31", ["reading barrel 30 [1]", "reading barrel 31 [2]"]),
        ("bbls 24/27/31", ["reading barrel 24 [1]", "reading barrel 27 [2]", "reading barrel 31 [3]"]),
    ],
)
def test_which_barrel_a_reading_is_of(said, expected):
    assert readings(said) == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("71 on the water and 69 on the gas", ["reading water 71", "reading gas_supply 69"]),
        ("seventy on supply, fifty eight regulated", ["reading gas_supply 70", "reading gas_regulated 58"]),
        (
            "it says 70 for gas and 58 for the inside one",
            ["reading gas_supply 70", "reading gas_regulated 58"],
        ),
        ("reading 66 on all the syrups", ["reading syrup 66 [1,2,3]"]),
        ("230V at the socket", ["reading mains_volts 230 V"]),
        ("it's 31 degrees in here", ["reading room_temperature 31"]),
    ],
)
def test_a_number_may_come_before_its_name(said, expected):
    assert readings(said) == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("gas has dropped from 70 to 45", ["reading gas_supply 45"]),
        ("water number never leaves zero", ["reading water 0"]),
        ("gas supply in the mid sixties", ["reading gas_supply 64..66"]),
        ("reg gas is sixty-one", ["reading gas_regulated 61"]),
        ("water sensor pegged at 99", ["reading water 99"]),
        ("we had four gas bottles in a week", []),
        ("my water bill was 40 pounds", []),
    ],
)
def test_how_people_put_a_reading(said, expected):
    assert readings(said) == expected


@pytest.mark.parametrize(
    ("said", "value", "high", "unit"),
    [
        ("mid sixties", 64, 66, ""),
        ("low fifties", 50, 53, ""),
        ("high seventies psi", 77, 79, "psi"),
        ("sixties", 60, 69, ""),
        ("half a pound", 0.5, None, "lb"),
        ("fifty to fifty-five", 50, 55, ""),
    ],
)
def test_decades_and_halves(said, value, high, unit):
    found = numbers_in(words_of(said))

    assert [(number.value, number.high, number.unit) for number in found] == [(value, high, unit)]


def test_a_figure_after_in_is_a_time_when_another_stands_before_it():
    assert [number.counts for number in numbers_in(words_of("lost half a pound in fifteen"))] == [False, True]


def test_a_reading_beside_a_trouble_leaves_both():
    assert "reading barrel 62 [2]" in readings("pressure in barrel 2 has shot up to 62")
    assert any("S32" in fact for fact in shorts("pressure in barrel 2 has shot up to 62"))


def test_an_ordinary_reading_is_no_certain_trouble():
    for said in (
        "barrel pressures are 28 left, 29 middle, 27 right",
        "it says 70 for gas",
        "water 64 static",
    ):
        assert [fact for fact in shorts(said) if "symptom" in fact and not fact.endswith("?")] == []


def test_what_a_technician_measures_is_the_answer_and_no_reading_besides():
    assert readings("primary stays put, secondary crept up about 9", "K111") == []


@pytest.mark.parametrize(
    ("said", "expected"), [("in the red", ["answer K035 high"]), ("in the green", ["answer K035 in_window"])]
)
def test_the_colours_of_a_dial_name_no_barrel(said, expected):
    assert shorts(said, "K035") == expected


def test_what_was_wrong_goes_with_what_is_right():
    facts, rest = heard("wait, syrup 1 is 15 not 51", "K099")

    assert [short(fact) for fact in facts] == ["correct", "reading syrup 15 [1]"]
    assert rest == ""


def test_a_reading_of_something_else_is_no_answer_to_the_reading_asked_for():
    said = "drinks pour and taste fine on both, only the syrup 1 number is 0"
    facts, _ = heard(said, "gas_supply.reading_at_rest")

    told = [(fact.kind, fact.id) for fact in facts if fact.certain and fact.kind != "fine"]
    assert told == [("reading", "syrup@1")]


def test_the_reading_asked_for_is_taken_beside_another():
    facts, _ = heard("syrup 1 is 0 and gas is 69", "gas_supply.reading_at_rest")

    assert {(fact.id, fact.value) for fact in facts if fact.kind == "reading"} == {
        ("syrup@1", "0"),
        ("gas_supply", "69"),
    }


@pytest.mark.parametrize(
    ("said", "values"),
    [
        ("62 for cola 64 for cherry 61 blue", {1: "62", 2: "64", 3: "61"}),
        ("62 on the blue, 64 on the cola, 61 on cherry", {3: "62", 1: "64", 2: "61"}),
        ("1-62 2-64 3-61", {1: "62", 2: "64", 3: "61"}),
        ("1) 62 2) 64 3) 61", {1: "62", 2: "64", 3: "61"}),
    ],
)
def test_each_number_goes_to_the_barrel_that_is_named_behind_it_or_numbered(said, values):
    facts, _ = heard(said, "K099")

    assert {fact.which[0]: fact.value for fact in facts if fact.kind == "reading"} == values


def test_the_others_are_those_not_named():
    facts, _ = heard("cola 62, other two zero", "K099")

    assert [(fact.which, fact.value) for fact in facts] == [((1,), "62"), ((2, 3), "0")]


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("dropped from 70 to 45", "45"),
        ("one ten", "110"),
        ("i make it 67", "67"),
        ("67 according to the screen", "67"),
    ],
)
def test_a_number_in_a_reply_is_the_reading_as_it_is_now(said, value):
    assert [(fact.kind, fact.value) for fact in heard(said, "K097")[0]] == [("reading", value)]


def test_two_numbers_in_a_reply_go_to_the_quantities_named():
    facts, _ = heard("supply 68 reg 59", "K097")

    assert [(fact.ref, fact.value) for fact in facts] == [("gas_supply", "68"), ("gas_regulated", "59")]


def test_nearly_empty_is_not_zero():
    assert not [fact for fact in heard("nearly empty", "K036")[0] if fact.kind == "reading"]


@pytest.mark.parametrize(
    "said",
    ["since about ten past two", "since 10 past 2", "at quarter to three", "the gas one and the other one"],
)
def test_a_time_or_a_pronoun_is_no_reading(said):
    assert not [fact for fact in heard(said, "K099")[0] if fact.kind == "reading"]
