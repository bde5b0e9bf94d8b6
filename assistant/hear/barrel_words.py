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
SEVERAL = tuple(
    (said.split(), which)
    for which, ways in {
        "left": (
            "left two",
            "left hand two",
            "first two",
            "two on the left",
            "two left hand ones",
            "two left ones",
            "two to the left",
        ),
        "right": (
            "right two",
            "right hand two",
            "last two",
            "two on the right",
            "two right hand ones",
            "two right ones",
        ),
        "ends": (
            "outer two",
            "outside two",
            "outside ones",
            "outer ones",
            "two outside ones",
            "two ends",
            "end ones",
            "both ends",
            "two on the ends",
            "two on the end",
            "two at the ends",
            "ones on the ends",
            "ones at the ends",
            "end two",
            "two on the outside",
            "ones on the outside",
        ),
    }.items()
    for said in ways
)
OPENERS = (
    frozenset(said[0] for said, _ in SEVERAL)
    | frozenset(ORDINALS)
    | NUMBERED
    | AFTER
    | {"left", "right", "lh", "rh", "middle", "centre", "all", "both", "everything", "lot", "one"}
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
        "every",
        "each",
        "none",
        "any",
        "whichever",
        "either",
    }
)
TOTAL = listed("all every each none any whichever either")
NOT_ALL = listed("right different day over night i ok that this we it is there you along time")
PRONOUNS = listed("it is that this be")
ADVERBIAL = listed("is out gone it was went goes go come comes got gets")
EXCEPT = listed("bar except but apart excluding")
TWO_FIGURES = 2  # "syrup 1 15" is 15 of barrel 1
JOINS = listed("and & , or plus also the both then")
LISTS = JOINS | listed("just only . one along it is ones barrel barrels side sides")
PLURALS = listed("barrels numbers sides tubs taps heads bowls drums")
TUBS = listed("barrel side tub head tap bowl drum")
SIDE_WORDS = listed("left right middle centre lh rh")
OUT_OF = listed("out from")
COUNTED = listed(
    """
    last our your my of the them these em one single two three four 2 3 4 sides side barrels barrel heads head
    tubs taps tap flavour ones handle handles tub bowl bowls flavours
    """
)
AUXILIARY = listed("do does did have can")
ZONES = listed("red green yellow")
DIAL = listed(
    "it is the needle dial gauge pointer reading number pressure gas water still just well right bit part"
)
