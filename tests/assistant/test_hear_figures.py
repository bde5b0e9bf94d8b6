"""Numbers in reply: which of several is meant, in what unit, and what is no reading.

The expectations are our own.
"""

import pytest
from hearing import firsts, shorts


@pytest.mark.parametrize(
    ("said", "asked", "fact"),
    [
        ("nowhere near that, 28", "K102", "reading barrel 28"),
        ("44 and i stood back like you said", "K102", "reading barrel 44"),
        ("double six", "K097", "reading gas_supply 66"),
        ("two thousand two hundred psi", "K036", "reading cylinder_contents 2200 psi"),
        ("just about a thousand", "K036", "reading cylinder_contents 1000"),
        ("4.8, the small print says bar", "K035", "reading gas_low_dial 4.8 bar"),
        ("it is on seventy, psi it says", "K035", "reading gas_low_dial 70 psi"),
        ("4.9v at the plug", "K157", "reading sensor_supply_volts 4.9 V"),
        ("2.9", "K158", "reading signal_volts 2.9"),
        ("getting 1.2, by my sum it should be 3.5", "K158", "reading signal_volts 1.2"),
        ("was 240 yesterday, 221 right now", "K170", "reading mains_volts 221"),
        ("four point nine eight", "K161", "reading rail_volts 4.98"),
        ("4.2 on the rail with everything unplugged", "K161", "reading rail_volts 4.2"),
        ("well that took two of us, 31 kilos", "K113", "reading bottle_weight 31 kg"),
    ],
)
def test_the_number_that_was_asked_for(said, asked, fact):
    assert [each for each in firsts(said, asked) if each.startswith("reading")] == [fact]


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("the red one's 19, brown 64, blue 63", ["19 [2]", "64 [1]", "63 [3]"]),
        ("the brown one's nought, red 63 and the blue 65", ["0 [1]", "63 [2]", "65 [3]"]),
        ("4.5 bar, 4.6 bar and then 0.7 bar for the blue", ["4.5 bar [1]", "4.6 bar [2]", "0.7 bar [3]"]),
        ("66 64 63", ["66 [1]", "64 [2]", "63 [3]"]),
    ],
)
def test_each_number_goes_to_its_barrel(said, facts):
    assert firsts(said, "K099") == [f"reading syrup {fact}" for fact in facts]


@pytest.mark.parametrize(
    ("said", "asked"), [("barrel pressure dropped 4 psi", "K103"), ("lost eight, no drip", "K103")]
)
def test_a_number_is_no_reading_where_something_else_is_asked_of_it(said, asked):
    assert not [fact for fact in shorts(said, asked) if fact.startswith("reading")]


def test_the_barrels_across_which_something_is_level_are_not_measured():
    told = shorts("syrup pressures are level across the barrels, about 4.5 bar")

    assert not [fact for fact in told if fact.startswith("reading barrel")]


def test_a_barrel_named_twice_is_named_once():
    assert "reading syrup 6 [3]" in firsts("it says syrup out on the blue, blue syrup number is 6")


@pytest.mark.parametrize(
    ("said", "asked"),
    [("click and 24 volts, all good", "K127"), ("no 24 coming out, the rest are alright", "K169")],
)
def test_a_voltage_that_the_mains_cannot_have_is_no_mains_reading(said, asked):
    assert not [fact for fact in shorts(said, asked) if fact.startswith("reading")]


@pytest.mark.parametrize(
    "said", ["gas supply is at 70", "water pressure is 74 and gas is 70", "just read it, water says 76"]
)
def test_a_number_that_nothing_judges_is_no_trouble(said):
    assert not [fact for fact in shorts(said) if fact.startswith("symptom")]


def test_a_number_that_is_judged_is_a_trouble_too():
    told = shorts("gas is up at 84, way too much")

    assert "reading gas_supply 84" in told
    assert any(fact.startswith("symptom S31") for fact in told)


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("says 66 and has done for the last 20 mins", "K097"),
        ("someone got 44 earlier, im reading 47", "K096"),
    ],
)
def test_when_a_number_was_read_is_not_when_it_began(said, asked):
    assert not [fact for fact in shorts(said, asked) if fact.startswith("began")]
