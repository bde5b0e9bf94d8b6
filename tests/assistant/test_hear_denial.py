"""What is denied, and what is asserted that a trouble denies: common practice of speech, no source."""

import pytest
from hearing import firsts, shipped_book, shorts

from assistant.hear.lean import Leans, signs
from assistant.hear.polarity import negated
from assistant.hear.words import words_of


def denied(said):
    words = words_of(said)
    return [word.text for word, flag in zip(words, negated(words), strict=True) if flag]


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("not fizzy", ["fizzy"]),
        ("hardly any fizz", ["any", "fizz"]),
        ("lost the bubbles", ["the", "bubbles"]),
        ("the fizz has gone", ["fizz"]),
        ("stopped turning", ["turning"]),
        ("nowhere near the plug", ["near", "the", "plug"]),
        ("away from the plug", ["from", "the", "plug"]),
        ("will not stop dripping", []),
        ("never stops ticking", []),
        ("it has gone flat", []),
        ("no still slow", []),
    ],
)
def test_what_a_negation_reaches(said, words):
    assert denied(said) == words


def test_a_meaning_leans_against_what_its_phrases_deny():
    said = ["no fizz", "not fizzy", "fizz everywhere", "fizz over the edge", "fizz"]
    leans = Leans.learnt([0, 0, 1, 1, 1], [words_of(text) for text in said])

    assert leans.of["fizz"][0] < 0 < leans.of["fizz"][1]
    assert leans.agreement(words_of("lots of fizz"), 0) < 0 < leans.agreement(words_of("lots of fizz"), 1)
    assert leans.agreement(words_of("no fizz at all"), 0) > 0 > leans.agreement(words_of("no fizz at all"), 1)
    assert leans.agreement(words_of("water"), 0) == 0


def test_signs_are_those_of_the_words_that_carry_meaning():
    assert signs(words_of("the paddle is not turning")) == {"paddl": 1, "turn": -1}


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("all fizzy", "not_symptom S10"),
        ("the drinks are fizzy", "not_symptom S10"),
        ("still freezing fine", "not_symptom S01"),
        ("paddle is turning", "not_symptom S45"),
        ("not flat", "not_symptom S10"),
        ("nobody is dizzy", "not_symptom S38"),
    ],
)
def test_to_assert_what_a_trouble_denies_denies_it(said, fact):
    assert firsts(said) == [fact]


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("won't stop dripping at the front", "symptom S40"),
        ("the fizz has gone", "symptom S10"),
        ("hasn't defrosted once", "symptom S56"),
        ("frozen up into a lump, can't even move the lever", "symptom S03"),
        ("it drips from the tap when nobody touches it", "symptom S40"),
    ],
)
def test_a_negation_that_belongs_to_the_trouble_denies_nothing(said, fact):
    assert firsts(said) == [fact]


def test_a_denial_ends_with_its_clause():
    assert firsts("no smell of burning, just dead") == ["not_symptom S50", "symptom S48"]


@pytest.mark.parametrize("said", ["it isn't the water", "the compressor isn't the problem"])
def test_what_is_cleared_of_blame_tells_nothing(said):
    assert not any("symptom" in fact for fact in shorts(said))


@pytest.mark.parametrize(
    "said",
    [
        "no hissing, no alarm, everyone's fine",
        "nothing hissing, no alarm, all fine",
        "no hiss no alarm",
        "nope all quiet and we're all feeling fine",
    ],
)
def test_a_plain_denial_of_danger_is_certain(said):
    assert shorts(said, "K001") == ["answer K001 none"]


@pytest.mark.parametrize(
    ("said", "asked", "danger"),
    [
        ("no hissing but my head hurts", "K001", "danger K001 alarm_or_unwell"),
        ("no alarm but someone feels a bit dizzy", "K001", "danger K001 alarm_or_unwell"),
        ("no burning but i did get a little zap off the front", "K004", "danger K004 tingle"),
    ],
)
def test_a_danger_in_one_part_of_a_denial_comes_first(said, asked, danger):
    assert firsts(said, asked)[0] == danger


def test_a_phrase_of_the_pack_is_its_own_meaning_whatever_else_is_alike():
    meanings = shipped_book().outcomes.meanings
    assert [m.outcome for m in meanings if m.ref == "K092"][:2] == ["right", "clock_wrong"]
    assert firsts("clock is right", "K092") == ["answer K092 right"]


@pytest.mark.parametrize(
    ("said", "danger"),
    [
        ("water all over the floor and its touching the extension lead", "danger K005 wet_near_electrics"),
        ("a little girl threw up after her slush", "danger K003 after_drinking"),
        ("the detector on the wall says 1.2 percent", "danger K002 high_detector"),
        ("cherry is flat, i can smell burning", "danger K004 burning"),
    ],
)
def test_a_danger_is_heard_that_nobody_asked_for(said, danger):
    assert danger in shorts(said)


@pytest.mark.parametrize(
    "said", ["the detector on the wall says 0.1 percent", "nobody threw up after a slush"]
)
def test_no_danger_is_made_of_what_is_none(said):
    assert not any(fact.startswith("danger") for fact in shorts(said))


def test_not_giving_over_denies_nothing():
    assert firsts("the pump out the back won't give over ticking") == ["symptom S43"]
