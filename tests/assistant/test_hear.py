"""What is understood of a line as a whole: several facts, asked for or not, and nothing lost."""

import pytest
from hearing import firsts, heard, shipped_book, shipped_machine, short, shorts
from hypothesis import example, given, settings
from hypothesis import strategies as st

from assistant.hear import hear
from assistant.hear.english import listed
from assistant.hear.words import TYPED

CHECKS = ["K001", "K025", "K033", "K035", "K047", "K079", "K087", "K095", "K099", "K113", "K157", "S02", None]
LIKELY = listed(
    """
    gas water blue cola cherry flat runny not no yes maybe 70 psi sixty odd between and to bar zero the is it left
    both all of them since friday after cleaning , . ? ! why where what's dunno can't actually -2,5 c 99 one don't
    frozen solid hissing fine light off scale three quarters half a second number 2 1,200 é … 中文
    """
)
WORDS = st.sampled_from(sorted(LIKELY))


def test_two_troubles_in_one_line_are_two_facts():
    assert firsts("the blue one is runny and number two has gone rock solid") == [
        "symptom S02 [3]",
        "symptom S03 [2]",
    ]


def test_a_reading_a_time_and_a_trouble_all_stand():
    assert firsts("since tuesday everything is flat, gas supply says 41") == [
        "began tuesday",
        "symptom S10",
        "reading gas_supply 41",
    ]


def test_a_denied_trouble_is_denied_and_what_follows_is_told():
    assert firsts("not frozen solid, just really slow to pour") == ["not_symptom S03", "symptom S07"]


def test_the_opposite_said_to_be_fine_denies_the_trouble():
    assert firsts("the fizz is fine") == ["not_symptom S10"]


def test_danger_is_heard_whatever_was_asked():
    facts = shorts("nothing is lit, and there is a burning smell", "K083")

    assert "danger K004 burning" in facts
    assert "answer K083 nothing" in facts


@pytest.mark.parametrize(
    ("said", "asked", "expected"),
    [
        ("no", "K087", ["answer K087 stopped"]),
        ("yes", "K087", ["answer K087 fast"]),
        ("no nothing", "K001", ["answer K001 none"]),
        ("68", "K097", ["reading gas_supply 68"]),
        ("just cherry", "K025", ["answer K025 one", "which 2 [2]"]),
        ("the left two", "K025", ["answer K025 some", "which 1,2 [1,2]"]),
        ("no idea", "K035", ["unsure"]),
        ("can't lift it", "K057", ["cannot"]),
        ("where's that", "K035", ["ask where"]),
        ("yes", "S02", ["answer S02 present"]),
        ("no", "S02", ["answer S02 absent"]),
    ],
)
def test_an_answer_to_what_was_asked_wins(said, asked, expected):
    assert shorts(said, asked) == expected


def test_what_is_told_beside_the_answer_is_heard_too():
    assert firsts("lever's along the pipe, but the cherry is runny", "K047") == [
        "answer K047 open_strong",
        "symptom S02 [2]",
    ]


def test_words_of_doubt_make_an_answer_doubtful():
    assert shorts("maybe light", "K057")[0] == "answer K057 light?"


def test_doubtful_facts_of_the_same_words_are_rivals_best_first():
    facts, _ = heard("it does something funny with the ice")
    doubtful = [fact for fact in facts if not fact.certain]

    assert len({fact.words for fact in doubtful}) <= 1
    assert [fact.score for fact in doubtful] == sorted((fact.score for fact in doubtful), reverse=True)


@pytest.mark.parametrize(
    "said",
    [
        "can you send more lids",
        "asdfgh qwerty",
        "what a lovely day it is in town",
        "my shift ends at five",
        "ta",
    ],
)
def test_small_talk_is_no_certain_fact_about_the_machine(said):
    assert [fact for fact in heard(said)[0] if fact.certain and fact.kind not in {"ask", "yes"}] == []


def test_what_was_not_understood_is_handed_back():
    facts, rest = heard("the gas is fine, and my cousin plays the trombone")

    assert [short(fact) for fact in facts] == ["fine gas"]
    assert "my cousin plays the trombone" in rest


@pytest.mark.parametrize(
    "said", ["flatt on the left", "flat on teh left", "FLAT on the LEFT!!", "flat onthe left"]
)
def test_slips_shouting_and_run_together_words_are_understood(said):
    assert shorts(said) == ["symptom S11 [1]"]


@pytest.mark.parametrize(
    ("british", "american"),
    [("the colour is too pale", "the color is too pale"), ("wrong flavour", "wrong flavor")],
)
def test_both_spellings_mean_the_same(british, american):
    assert shorts(british) == shorts(american)


def test_the_same_line_gives_the_same_facts():
    line = "blue is runny, gas 45, since friday, not flat though"

    assert heard(line) == heard(line)


def test_an_unknown_check_asked_is_as_if_nothing_were_asked():
    assert heard("all flat", "K999") == heard("all flat")


LINES = st.one_of(st.text(max_size=80), st.lists(WORDS, max_size=14).map(" ".join))


@given(LINES, st.sampled_from(CHECKS))
@settings(max_examples=400, deadline=None)
@example("", None)
@example("½ ¼ ٣ İ ǅ \x00", "K035")
@example("one to", "K095")
def test_any_text_gives_facts_and_a_rest_that_together_are_all_its_words(text, asked):
    facts, rest = hear(shipped_machine(), text, asked, shipped_book())
    kept = " ".join([*(fact.words for fact in facts), rest])

    assert [word.group() for word in TYPED.finditer(text) if word.group() not in kept] == []
    assert all(0.0 <= fact.score <= 1.0 for fact in facts)
    assert all(set(fact.which) <= {1, 2, 3} for fact in facts)


@example("all water", "S02")
@given(st.lists(WORDS, max_size=12).map(" ".join), st.sampled_from(CHECKS))
@settings(max_examples=200, deadline=None)
def test_every_fact_names_something_of_the_machine(text, asked):
    book = shipped_book()
    for fact in hear(shipped_machine(), text, asked, book)[0]:
        if fact.kind in {"symptom", "not_symptom", "answer", "danger"}:
            check = book.check(fact.id)

            assert check is not None
            assert fact.kind in {"symptom", "not_symptom"} or check.outcome_index(fact.value) >= 0
