"""Slips, flavours that are not there, and what tells nothing: common practice of speech, no source."""

import pytest
from hearing import heard, shipped_machine, shorts

from assistant.hear.apart import fit
from assistant.hear.match import Index


@pytest.mark.parametrize(
    ("said", "asked", "facts"),
    [
        ("its 21 oh wait no 12", "K097", ["correct", "reading gas_supply 12"]),
        ("50, hold on, it's 45", "K097", ["correct", "reading gas_supply 45"]),
        ("empty. oh no wait, I checked the wrong box, it's heavy", "K057", ["correct", "answer K057 heavy"]),
        ("70, scratch that", "K097", ["correct"]),
    ],
)
def test_what_follows_a_turn_stands_instead_of_what_precedes_it(said, asked, facts):
    assert shorts(said, asked) == facts


@pytest.mark.parametrize("said", ["no sorry, 38", "sorry, 38", "oops 38"])
def test_a_lone_number_that_corrects_is_marked_so_whatever_is_asked(said):
    for asked in ("K097", "K001"):
        facts, _ = heard(said, asked)

        assert [(f.kind, f.value) for f in facts] == [("correct", "number"), ("reading", "38")]


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("people have to wait ages for a drink", None),
        ("no, sorry mate, nothing", "K001"),
        ("it's runny, I mean really runny", None),
        ("light, my mistake", "K057"),
    ],
)
def test_what_only_sounds_like_taking_back_takes_nothing_back(said, asked):
    assert "correct" not in shorts(said, asked)


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("cherry is in standby", "answer K032 off_or_standby?"),
        ("the cherry's on defrost", "symptom S56 [2]?"),
        ("the left one says standby", "answer K032 off_or_standby?"),
    ],
)
def test_a_mode_that_is_volunteered_is_offered_or_taken(said, fact):
    assert {fact, fact.removesuffix("?")} & set(shorts(said))


@pytest.mark.parametrize("said", ["the lemon is runny", "mango one won't freeze"])
def test_a_flavour_that_is_not_there_makes_it_one_barrel_and_doubtful(said):
    told = next(fact for fact in heard(said)[0] if fact.kind == "symptom")

    assert (told.ref, told.certain, told.which) == ("S02", False, ())


def test_a_flavour_that_is_not_there_is_not_silently_left_out_of_several():
    assert not heard("cola and lemon are flat")[0][0].certain


@pytest.mark.parametrize("said", ["all clear", "all good", "no, all quiet here"])
def test_all_clear_denies_a_danger(said):
    assert shorts(said, "K001") == ["answer K001 none"]


@pytest.mark.parametrize("asked", ["K057", "K097", "K079"])
def test_what_is_told_of_another_check_is_offered(asked):
    assert "answer K085 hot_weak?" in shorts("the filter is all furry with dust", asked)


@pytest.mark.parametrize("said", ["they want a new gas sensor", "the boss wants a new machine"])
def test_what_somebody_wants_bought_is_no_fact(said):
    assert shorts(said) == []


def test_nobody_touched_anything_is_no_reading():
    asked = [check.id for check in shipped_machine().checks if check.reading]

    assert not any(f.kind == "reading" for name in asked for f in heard("nobody touched anything", name)[0])


@pytest.mark.parametrize(
    ("said", "fact"), [("1 low", "-1"), ("2.5 under", "-2.5"), ("half a brix over", "0.5")]
)
def test_a_number_above_or_below_nothing_has_the_sign_that_is_said(said, fact):
    assert heard(said, "K147")[0][0].value == fact


def test_a_number_alone_is_the_outcome_whose_label_holds_it():
    assert shorts("0", "K153") == ["answer K153 zero"]


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("new cylinder put on and it's been wrong ever since", "delivery"),
        ("it was right as rain till monday", "monday"),
        ("weeks now it's been like this", "weeks"),
    ],
)
def test_when_it_began(said, value):
    assert value in [fact.value for fact in heard(said)[0] if fact.kind == "began"]


def test_how_long_a_bottle_lasts_is_not_when_it_began():
    assert not any(fact.kind == "began" for fact in heard("we get through a bottle in 2 days now")[0])


def test_barrels_praised_one_after_the_other_are_one_fact():
    assert "fine 1,3 [1,3]" in shorts("cherry is lumpy, cola ok, blue ok")


def test_one_good_cup_does_not_make_a_barrel_fine():
    assert not any(
        fact.kind == "fine" for fact in heard("one cup of cherry is perfect, the next is syrup")[0]
    )


def test_a_word_that_trails_a_line_is_asked_about():
    assert not any(f.certain for f in heard("it hums, drops out on overload, repeat")[0] if f.ref == "S58")


def test_ridge_weights_tell_two_outcomes_apart():
    # Kernel ridge regression with a linear kernel, solved by hand: K = I, so that each weight is 1 / (1 + 0.1)
    # (Hastie, Tibshirani and Friedman 2009, section 5.8.2).
    index = Index.of([{"a": 1.0}, {"b": 1.0}], [0, 1])
    weighed = fit(((index, 1.0),), [0, 1], [0, 0])

    assert weighed.shares(index.cosines({"a": 1.0}, 1.0), 0) == pytest.approx([1 / 1.1, 0.0])
