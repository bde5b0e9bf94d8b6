"""Which barrel is meant, in all the ways people point at one: common practice of speech, no source."""

import pytest
from hearing import firsts, heard, shipped_machine, shorts

from assistant.hear.others import with_others
from assistant.hear.which import Barrels
from assistant.hear.words import words_of


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("the left-hand barrel", "which 1 [1]"),
        ("no. 2", "which 2 [2]"),
        ("B2", "which 2 [2]"),
        ("red", "which 2 [2]"),
        ("lhs", "which 1 [1]"),
        ("lefty", "which 1 [1]"),
        ("middle and right", "which 2,3 [2,3]"),
        ("1 & 3", "which 1,3 [1,3]"),
        ("barrels 1 and 3", "which 1,3 [1,3]"),
        ("first and third", "which 1,3 [1,3]"),
        ("the two on the ends", "which 1,3 [1,3]"),
        ("the two right hand ones", "which 2,3 [2,3]"),
        ("not the cherry, the cola", "which 1 [1]"),
        ("it's number three that's the problem", "which 3 [3]"),
        ("every last one of them", "which all [1,2,3]"),
    ],
)
def test_a_line_that_only_names_barrels(said, fact):
    assert shorts(said) == [fact]


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("left and middle", ["answer K025 some", "which 1,2 [1,2]"]),
        ("every single one", ["answer K025 all", "which all [1,2,3]"]),
        ("barrels one and two", ["answer K025 some", "which 1,2 [1,2]"]),
        ("cola and blue, cherry's grand", ["answer K025 some", "which 1,3 [1,3]", "fine 2 [2]"]),
    ],
)
def test_barrels_named_answer_how_many_are_affected(said, facts):
    assert sorted(shorts(said, "K025")) == sorted(facts)


def test_the_barrel_that_gives_nothing_is_meant_not_those_that_pour():
    assert firsts("cola and cherry pour, blue gives nothing", "K030") == [
        "answer K030 one_nothing",
        "which 3 [3]",
    ]


@pytest.mark.parametrize(
    "said",
    [
        "no, barrel 1 is pale",
        "no, its barrel 1 that is pale",
        "barrel 1 is pale, not barrel 2",
        "barrel 1 is pale, barrel 2 is fine",
    ],
)
def test_another_barrel_than_the_one_asked_about_is_no_yes(said):
    facts = shorts(said, "product.pale@2")

    assert "answer S13 absent" in facts
    assert "answer S13 present" not in facts


def test_the_other_barrel_named_instead_has_the_trouble():
    assert "symptom S13 [1]" in firsts("no, barrel 1 is pale", "product.pale@2")


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("it's all froth when i pour", "symptom S06"),
        ("cherry comes out of the cola tap", "symptom S15 [1]"),
        ("just weak, the blue", "symptom S13 [3]"),
        ("the cherry is coming out pale", "symptom S13 [2]"),
        ("dasher 3 stopped", "symptom S45 [3]"),
        ("middle cylinder stays liquid", "symptom S02 [2]"),
    ],
)
def test_whose_trouble_it_is(said, fact):
    assert firsts(said) == [fact]


@pytest.mark.parametrize(
    ("said", "asked", "barrels"),
    [
        ("cherry is 12, the others are at 65", None, [(2,), (1, 3)]),
        ("the others are at 65", 1, [(2, 3)]),
        ("the other two are at 65", 3, [(1, 2)]),
        ("the others are at 65", None, []),
    ],
)
def test_the_others_are_those_not_named_and_not_asked_about(said, asked, barrels):
    words = words_of(said)
    mentions = with_others(words, Barrels.of(shipped_machine()).mentions(words), 3, asked)

    assert [mention.barrels for mention in mentions if mention.barrels] == barrels


@pytest.mark.parametrize("said", ["we only fill 2 cups", "syrup 3 psi", "it is all froth", "gas 2"])
def test_counts_and_values_name_no_barrel(said):
    assert Barrels.of(shipped_machine()).mentions(words_of(said)) == ()


def test_a_colour_names_a_barrel_as_the_subject_of_a_clause():
    assert shorts("blue's fine, red's fine") == ["fine 2,3 [2,3]"]


@pytest.mark.parametrize("said", ["no its the cherry", "no, cherry"])
def test_the_same_of_another_barrel_is_taken_from_a_denial_that_names_it(said):
    facts = {(fact.kind, fact.id, fact.value) for fact in heard(said, "warning.syrup_low_one@1")[0]}

    assert ("answer", "warning.syrup_low_one@1", "absent") in facts
    assert ("symptom", "warning.syrup_low_one@2", "") in facts


@pytest.mark.parametrize(
    ("said", "barrels"),
    [
        ("the one beside the cola", (2,)),
        ("not the cola, its neighbour", (2,)),
        ("the cola and the one next to it", (1, 2)),
        ("left of the middle one", (1,)),
        ("the one right of cherry", (3,)),
        ("whichever sits between cola and blue", (2,)),
        ("sandwiched between the other two", (2,)),
        ("the one with a barrel either side", (2,)),
        ("the two on the left hand side", (1, 2)),
        ("both on the right hand side", (2, 3)),
        ("right hand pair", (2, 3)),
        ("both outside barrels", (1, 3)),
        ("the ones at either end", (1, 3)),
        ("first and last", (1, 3)),
        ("any but the cherry", (1, 3)),
        ("all save the red", (1, 3)),
        ("neither cola nor cherry, just the blue", (3,)),
        ("1 and 3, not 2", (1, 3)),
        ("not 1 or 2, its 3", (3,)),
        ("one and two", (1, 2)),
        ("mid one", (2,)),
        ("cola/cherry", (1, 2)),
        ("the other two, so not the blue", (1, 2)),
        ("the whole row", ()),
    ],
)
def test_barrels_told_by_their_place_or_by_what_they_are_not(said, barrels):
    which = [fact.which for fact in heard(said, "K025")[0] if fact.kind == "which"]

    assert which == [barrels or (1, 2, 3)]


@pytest.mark.parametrize(
    ("said", "asked", "barrels"),
    [
        ("SYRUP OUT 3", "K009", (3,)),
        ("syrup out blue and syrup out cola", "K009", (1, 3)),
        ("syrup out on the blue, also on the cola", "K026", (1, 3)),
        ("nothing from the left one, the cherry and blue both pour", "K030", (1,)),
        ("all finished bar the cherry, that did not", "K191", (2,)),
    ],
)
def test_which_barrels_an_answer_is_about(said, asked, barrels):
    assert [fact.which for fact in heard(said, asked)[0] if fact.kind == "which"] == [barrels]


@pytest.mark.parametrize(
    "said",
    [
        "left 64 mid 63 right 12",
        "1st 64 2nd 63 3rd 12",
        "first one 64, second 63, third 12",
        "no 1 64, no 2 63, no 3 12",
        "one 64, two 63, three 12",
        "64/63/12 l to r",
        "right to left 12 63 64",
        "12, 63, 64 r to l",
        "blue raz 12 cherry 63 cola 64",
    ],
)
def test_numbers_in_a_row_are_of_the_barrels_named_or_counted(said):
    found = {fact.which: float(fact.value) for fact in heard(said, "K099")[0] if fact.kind == "reading"}

    assert found == {(1,): 64, (2,): 63, (3,): 12}


@pytest.mark.parametrize(
    "said",
    ["the cup next to the cola", "mid 60s", "none left of it", "out 2 times", "the whole set of numbers"],
)
def test_what_stands_beside_or_counts_is_no_barrel(said):
    words = words_of(said)
    mentions = Barrels.of(shipped_machine()).mentions(words)

    assert not [m for m in mentions if m.scope == "all" or (m.barrels and "cola" not in said)]
    assert not [m for m in mentions if m.barrels == (2,)]


@pytest.mark.parametrize(
    ("said", "asked", "barrel"),
    [
        ("they are all fizzy but the red", "K104", "which 2 [2]"),
        ("red and brown are going round, the blue is not", "K079", "which 3 [3]"),
        ("brown gives drink, blue gives drink, red gives none at all", "K030", "which 2 [2]"),
    ],
)
def test_the_barrel_of_the_trouble_is_meant_not_those_that_are_well(said, asked, barrel):
    assert barrel in shorts(said, asked)


@pytest.mark.parametrize(
    ("said", "asked"),
    [("bubbles in all except the red", "K104"), ("red and brown spin, blue does not", "K079")],
)
def test_what_is_usual_of_all_but_one_is_not_taken_for_all(said, asked):
    assert not any(fact.startswith("answer") and not fact.endswith("?") for fact in shorts(said, asked))


@pytest.mark.parametrize(
    "said", ["all water", "all flat but the red", "red is flat, brown and blue are fine"]
)
def test_barrels_named_in_reply_to_a_question_about_a_symptom_break_nothing(said):
    assert shorts(said, "S02") is not None
