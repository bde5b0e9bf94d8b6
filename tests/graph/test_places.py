"""Where repeated elements stand, and how references find them."""

import pytest

from graph.places import SHARED, Layout, Spot, resolve, split_reference

LAYOUT = Layout(2, (("gas_supply", False), ("syrup", True), ("barrel", True)))
REPEATED = {"valve": None, "motor": "barrel", "sensor": "channel"}
BARREL_2 = Spot("2", 2)
SYRUP_1 = Spot("syrup1", 1, "syrup")
GAS = Spot("gas_supply", None, "gas_supply")


def found(text, here=SHARED):
    return resolve(text, here, LAYOUT, REPEATED)


def test_an_element_that_is_not_repeated_stands_once():
    assert LAYOUT.spots(None) == (SHARED,)
    assert SHARED.name("valve") == "valve"


def test_an_element_per_barrel_stands_once_in_each():
    assert [spot.name("motor") for spot in LAYOUT.spots("barrel")] == ["motor@1", "motor@2"]


def test_an_element_per_channel_stands_at_every_channel_in_pack_order():
    assert [spot.suffix for spot in LAYOUT.spots("channel")] == [
        "gas_supply",
        "syrup1",
        "syrup2",
        "barrel1",
        "barrel2",
    ]


def test_a_channel_that_belongs_to_a_barrel_knows_which():
    assert LAYOUT.channel("syrup", per_barrel=True) == (SYRUP_1, Spot("syrup2", 2, "syrup"))
    assert LAYOUT.channel("gas_supply", per_barrel=False) == (GAS,)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("valve", ("valve", "", "")),
        ("motor@2", ("motor", "2", "")),
        ("sensor@syrup if barrel", ("sensor", "syrup", "barrel")),
        ("  motor if syrup ", ("motor", "", "syrup")),
    ],
)
def test_a_reference_has_a_base_a_place_and_a_condition(text, parts):
    assert split_reference(text) == parts


@pytest.mark.parametrize(
    ("text", "here", "names"),
    [
        ("valve", SHARED, ("valve",)),
        ("valve", BARREL_2, ("valve",)),
        ("motor", BARREL_2, ("motor@2",)),  # the same barrel
        ("motor", SYRUP_1, ("motor@1",)),  # the barrel of the channel
        ("motor", SHARED, ("motor@1", "motor@2")),  # from outside: all
        ("motor", GAS, ("motor@1", "motor@2")),  # a channel of no barrel: all
        ("motor@*", BARREL_2, ("motor@1", "motor@2")),
        ("motor@1", BARREL_2, ("motor@1",)),
        ("sensor", SYRUP_1, ("sensor@syrup1",)),  # the same channel, not all of its barrel
        ("sensor", BARREL_2, ("sensor@syrup2", "sensor@barrel2")),
        ("sensor@syrup", BARREL_2, ("sensor@syrup2",)),  # a kind of channel, in the same barrel
        ("sensor@syrup", SHARED, ("sensor@syrup1", "sensor@syrup2")),
        ("sensor@gas_supply", BARREL_2, ("sensor@gas_supply",)),
        ("sensor@barrel1", SYRUP_1, ("sensor@barrel1",)),
        ("motor if syrup", SYRUP_1, ("motor@1",)),
        ("motor if syrup", GAS, ()),  # the condition does not hold here
        ("motor if syrup", SHARED, ()),
    ],
)
def test_a_reference_finds_the_instances_it_means(text, here, names):
    assert found(text, here) == names


def test_an_unknown_id_is_told_by_its_name():
    with pytest.raises(KeyError, match="engine"):
        found("engine@1")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("motor@3", "no instance"),
        ("sensor@water", "no instance"),
        ("valve@2", "stands once"),
        ("motor if water", "no sensor channel"),
    ],
)
def test_a_place_or_condition_that_fits_nothing_is_refused(text, words):
    with pytest.raises(ValueError, match=words):
        found(text, SYRUP_1)
