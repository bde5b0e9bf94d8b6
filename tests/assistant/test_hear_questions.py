"""Questions back, not knowing, not being able, yes and no, and talk that tells nothing; our own examples."""

import pytest
from hearing import shorts


@pytest.mark.parametrize(
    "said",
    [
        "whys that matter",
        "whats the fridge got to do with owt",
        "what good would counting them do",
        "what will that tell you",
        "hows knowing that going to help",
        "what does that prove",
        "y ask that",
        "what are you getting at",
        "do i really need to",
        "dont see why that matters",
        "so what if it is",
        "what's the relevance",
    ],
)
def test_asking_why(said):
    assert shorts(said, "K041") == ["ask why"]


@pytest.mark.parametrize(
    "said",
    [
        "stood at it, where now",
        "which side is it on",
        "how do i get to it",
        "is it round the back",
        "dunno where that is",
    ],
)
def test_asking_where(said):
    assert shorts(said, "K063") == ["ask where"]


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("wdym", "K041"),
        ("dont follow", "K041"),
        ("in english please", "K041"),
        ("no clue what that is", "K041"),
        ("not sure what you mean", "K037"),
        ("static meaning what", "K110"),
        ("pre charge? never heard of it", "K129"),
        ("whats psi", "K106"),
    ],
)
def test_asking_what_of_no_part(said, asked):
    assert shorts(said, asked) == ["ask what"]


@pytest.mark.parametrize("said", ["a dasher, what is that", "no idea what a dasher is", "dasher being what"])
def test_asking_what_a_part_is(said):
    assert shorts(said, "K074") == ["ask C56 what"]


def test_of_several_of_a_name_the_main_one_is_meant():
    assert shorts("where do they keep the regulator") == ["ask C24 where"]


def test_no_idea_and_where_are_two_things():
    assert sorted(shorts("not a clue, wheres that then", "K037")) == ["ask where", "unsure"]


@pytest.mark.parametrize(
    "said",
    [
        "not got a clue pal",
        "cant be sure",
        "cant remember",
        "didnt notice",
        "i forget",
        "dk",
        "i am not knowing",
        "dunno, im only here saturdays",
    ],
)
def test_not_knowing(said):
    assert shorts(said, "K041")[0] == "unsure"


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("only got one pair of hands", "K060"),
        ("cant hold it and pour at the same time", "K060"),
        ("the plant rooms locked", "K089"),
        ("forgot my meter", "K124"),
        ("we dont own a gauge", "K124"),
        ("not licensed for that", "K183"),
        ("gaffer wont let me near it", "K183"),
        ("panel wont budge", "K183"),
        ("im at home", "K057"),
    ],
)
def test_not_being_able(said, asked):
    assert shorts(said, asked)[0] == "cannot"


@pytest.mark.parametrize(
    ("said", "asked", "outcome"),
    [
        ("no they dont", "K192", "any_out"),
        ("yeah they are", "K192", "all_in"),
        ("yep", "K191", "all_pass"),
        ("nope they dont", "K191", "one_fails"),
        ("uh huh", "K178@1", "responds"),
        ("no it doesnt", "K178@1", "no_response"),
        ("no", "K068@1", "single_bag"),
        ("yeah it is", "K045", "kinked"),
    ],
)
def test_a_bare_reply_is_the_outcome_that_the_question_asks_for(said, asked, outcome):
    ref = asked.partition("@")[0]

    assert shorts(said, ref) == [f"answer {ref} {outcome}"]


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("yes", "K068"),  # then more was asked
        ("yes", "K050"),  # "round, or squashed?"
        ("no", "K079"),  # one stands, or all
        ("yes", "K001"),
    ],
)
def test_a_bare_reply_that_may_mean_several_outcomes_is_none(said, asked):
    assert not any(fact.startswith(("answer", "danger")) for fact in shorts(said, asked))


@pytest.mark.parametrize(
    "said",
    [
        "half a tick",
        "right ill go and check",
        "let me just nip round the back",
        "hold on getting my torch",
        "sorry got distracted there",
        "brb",
    ],
)
def test_going_to_look_tells_nothing(said):
    assert shorts(said, "K040") == []


@pytest.mark.parametrize(
    "said",
    [
        "does the guarantee cover the fan",
        "who deals with refunds",
        "where do i post the invoice",
        "why is syrup so dear",
    ],
)
def test_other_matters_tell_nothing(said):
    assert shorts(said) == []


def test_to_wait_and_to_tell_is_to_tell():
    assert shorts("hang on, the cherry is frozen solid") == ["symptom S03 [2]"]
