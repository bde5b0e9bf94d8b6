"""Taking back, greeting, padding, and when it began: common practice of speech, no source."""

import pytest
from hearing import firsts, shorts

from assistant.facts import Fact
from assistant.hear.ear import Heard
from assistant.hear.thesaurus import everyday
from assistant.hear.words import ungreeted, unpadded, words_of


@pytest.mark.parametrize(
    "said",
    [
        "ignore last",
        "disregard that",
        "cancel that last one",
        "I misspoke",
        "I looked at the wrong one",
        "got them mixed up",
        "please change my last answer",
        "not that one, the other one",
    ],
)
def test_words_that_take_back_and_tell_nothing(said):
    assert shorts(said) == ["correct"]


@pytest.mark.parametrize(
    ("said", "asked", "facts"),
    [
        ("sorry 58 not 85", "K098", ["correct", "reading gas_regulated 58"]),
        ("typo, 58", "K098", ["correct", "reading gas_regulated 58"]),
        ("58 I mean", "K098", ["correct", "reading gas_regulated 58"]),
        ("wrong, it's the left", None, ["correct", "which 1 [1]"]),
        ("Forgive me, I said cola, it's cherry.", None, ["correct", "which 2 [2]"]),
        ("got muddled, it's the blue one", None, ["correct", "which 3 [3]"]),
    ],
)
def test_what_is_right_stands_beside_what_is_taken_back(said, asked, facts):
    assert sorted(shorts(said, asked)) == facts


def test_i_should_say_takes_nothing_back():
    assert "correct" not in shorts("the cola is weak, I should say")


@pytest.mark.parametrize(
    ("said", "text"),
    [("morning! all flat", "hello"), ("good morning, all flat", "hello"), ("morning is worst", "morning")],
)
def test_a_greeting_is_no_time_of_day(said, text):
    assert text in [word.text for word in ungreeted(words_of(said))]


def test_padding_tells_nothing():
    words = [word.text for word in unpadded(words_of("it's flat, I'm afraid, to be honest"))]

    assert words == ["it", "is", "flat", ",", "um", "um", "um", ",", "um", "um", "um"]


def test_a_hyphen_within_a_word_parts_it_and_belongs_to_the_first():
    words = words_of("left-hand one")

    assert [(word.text, word.start, word.end) for word in words] == [
        ("left", 0, 5),
        ("hand", 5, 9),
        ("one", 10, 13),
    ]


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("was fine until the delivery came", "delivery"),
        ("friday night it started spitting", "friday"),
        ("power went off in the storm and now the screen is frozen", "power cut"),
        ("new boxes got delivered and then this started", "delivery"),
    ],
)
def test_more_ways_of_saying_when_it_began(said, value):
    assert f"began {value}" in shorts(said)


def test_what_follows_an_event_without_a_mark_is_told_too():
    assert firsts("after the storm the display went blank") == ["began storm", "symptom S36"]


def test_every_everyday_group_has_several_ways_and_none_twice():
    for ways in everyday().values():
        assert len(ways) > 1
        assert len(set(ways)) == len(ways)


@pytest.mark.parametrize("said", ["mm yeah", "hmm yes"])
def test_hesitant_yes(said):
    assert shorts(said) == ["yes"]


def test_where_a_part_is_may_be_asked_in_more_ways():
    assert shorts("which one's the regulator, whereabouts do i look", "K039")[0].startswith("ask C24 where")


@pytest.mark.parametrize("said", ["hang on a sec", "one moment please", "let me go and look", "bear with me"])
def test_asking_us_to_wait_tells_nothing(said):
    assert shorts(said) == []


def test_what_follows_a_request_is_told_all_the_same():
    assert firsts("can you send someone, the cherry is frozen solid") == ["symptom S03 [2]"]


def test_a_rival_gives_way_to_what_is_said_plainly():
    heard, span = Heard(), (0, 1)
    for name in ("first", "rival"):
        heard.add(Fact("symptom", id=name, certain=False), span)
    heard.add(Fact("symptom", id="rival"), (2, 3))
    heard.add(Fact("symptom", id="rival", certain=False), (4, 5))

    assert [(fact.id, fact.certain) for fact, _ in heard.facts] == [("first", False), ("rival", True)]


def test_what_one_does_to_try_the_machine_is_no_trouble_by_itself():
    assert not any(fact == "symptom S63" for fact in shorts("I open the tap and nothing comes out"))


@pytest.mark.parametrize("said", ["all good now thanks", "it's working fine again"])
def test_that_all_is_well_names_no_barrels(said):
    assert shorts(said) == []
