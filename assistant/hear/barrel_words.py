"""The words by which people point at a barrel: numbers, sides, flavours, colours, all of them."""

from __future__ import annotations

from assistant.hear.english import listed

# What drinks of a flavour look like, as far as people call them by it.
COLOURS = {
    "cola": "brown",
    "cherry": "red",
    "strawberry": "red",
    "blue": "blue",
    "raspberry": "red",
    "orange": "orange",
    "lemon": "yellow",
    "lime": "green",
    "apple": "green",
    "grape": "purple",
    "blackcurrant": "purple",
    "mango": "orange",
    "watermelon": "pink",
}
COLOUR_WORDS = frozenset(COLOURS.values()) | {"pink", "white", "black"}
FLAVOURS = frozenset(COLOURS) - {"blue"}
NAMES_ASKED = ("flavour", "label", "trace")  # in a question whose answer may name any flavour
ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "1st": 1, "2nd": 2, "3rd": 3, "4th": 4}
CARDINALS = {"one": 1, "two": 2, "three": 3, "four": 4, "1": 1, "2": 2, "3": 3, "4": 4}
NUMBERED = listed("number no num nr barrel side tub head tap # bowl drum handle lever nozzle spout")
SIDES = listed(
    """
    cylinder chamber tank bank nozzle spout lever flavour hand one ones side barrel tub head tap bowl
    handle most drum fella fellow lad guy
    """
)
AFTER = listed("on in of from with for")
OPENERS = (
    frozenset(ORDINALS)
    | NUMBERED
    | AFTER
    | {"left", "right", "lh", "rh", "middle", "centre", "mid", "all", "both", "everything", "lot", "one"}
    | {"nr", "barrels", "numbers", "sides", "tubs", "taps", "heads", "bowls", "drums"}
    | {
        "1",
        "2",
        "3",
        "4",
        "two",
        "three",
        "four",
        "whole",
        "full",
        "entire",
        "anything",
        "everywhere",
        "everyone",
        "last",
        "outer",
        "outside",
        "end",
        "pair",
        "ones",
        "timeout",
        "low",
        "empty",
        "fault",
        "failed",
        "out",
        "except",
        "excluding",
        "bar",
        "every",
        "each",
        "none",
        "any",
        "whichever",
        "either",
        "x",
        "clean",
        "straight",
    }
)
TOTAL = listed("all every each none any whichever either")
NOT_ALL = listed(
    """
    up down along round around through right different day over night i ok that this we it is there you time
    """
)
LENGTHS = listed("way time while day night week month morning afternoon evening shift weekend summer season")
BEFORE_SIDE = listed("the far on my just meant mean")
# What has sides that are no barrels: "the left side panel", "jammed against the left side".
HOUSING = listed(
    """
    panel panels vent vents wall cover door grille grilles leg legs casing bottle bottles switch switches
    breaker breakers dial dials gauge gauges regulator valve
    """
)
AGAINST = listed("against touching")
PRONOUNS = listed("it is that this be")
ADVERBIAL = listed(
    """
    is out gone it was went goes go come comes got gets there look looks looking taste tastes sit sits turned
    turns feels up down along round around
    """
)
EXCEPT = listed("bar except but apart excluding save aside")
OF_ALL = listed("row set bank lot rank")  # "the whole row"
TWO_FIGURES = 2  # "syrup 1 15" is 15 of barrel 1
JOINS = listed("and & , / or plus also the both then")
LISTS = JOINS | listed("just only . one along it is this time today now again ones barrel barrels side sides")
PLURALS = listed("barrels numbers sides tubs taps heads bowls drums")
TUBS = listed("barrel side tub head tap bowl drum")
SIDE_WORDS = listed("left right middle centre mid lh rh")
OUT_OF = listed("out from")
COUNTED = listed(
    """
    last our your my of the them these em one single two three four 2 3 4 sides side barrels barrel heads head
    tubs taps tap flavour ones handle handles tub bowl bowls flavours spout spouts nozzle
    nozzles
    """
)
AUXILIARY = listed("do does did have can")
ZONES = listed("red green yellow")
DIAL = listed(
    "it is the needle dial gauge pointer reading number pressure gas water still just well right bit part"
)
