"""Whether a symptom is taken unasked, asked about or left out follows how probable it is.

The expectations are our own; the form of the model is logistic regression (Hastie, Tibshirani and Friedman
2009, section 4.4.1). Practice lines are written by people who did not see the pack's phrases.
"""

from dataclasses import astuple, replace
from math import exp

import pytest
from hearing import firsts, heard, shipped_book, shipped_machine, shorts
from score_utterances import UTTERANCES, read, score

from assistant.hear import cutting, trust
from assistant.hear.line import Line

PRACTICE = UTTERANCES.with_name("practice.jsonl")
EVERY = 5  # every fifth practice line, so that the test is quick


def told(text):
    """Return the first run of a line, and the line."""
    line = Line.of(text, shipped_book())
    return cutting.told(line.words, line.segments(), shipped_book())[0], line


def signs(text):
    return trust.signs(*told(text), shipped_book())


def test_the_probability_is_the_logistic_function_of_the_weighed_signs():
    one = signs("cola tap sprays foam")
    odds = trust.BASE + sum(w * s for w, s in zip(astuple(trust.WEIGHTS), astuple(one), strict=True))

    assert trust.probability(one) == pytest.approx(1 / (1 + exp(-odds)), abs=1e-12)


@pytest.mark.parametrize("name", ["score", "lead", "probability", "shared", "barrel", "sure"])
def test_what_speaks_for_a_symptom_makes_it_more_probable(name):
    one = signs("the left one is soft")

    assert trust.probability(replace(one, **{name: getattr(one, name) + 0.5})) > trust.probability(one)


@pytest.mark.parametrize("name", ["foreign", "length", "beside"])
def test_words_that_its_phrases_do_not_have_make_it_less_probable(name):
    one = signs("the left one is soft")

    assert trust.probability(replace(one, **{name: getattr(one, name) + 0.5})) < trust.probability(one)


@pytest.mark.parametrize(
    ("said", "trusted"),
    [
        ("the cherry one just will not freeze", "taken"),
        ("cherry is sickly sweet today", "taken"),
        ("it is not pouring right", "asked"),
    ],
)
def test_plain_words_are_taken_and_vague_ones_asked_about(said, trusted):
    assert trust.trusted(*told(said), shipped_book()) == trusted


def test_what_is_hardly_probable_is_left_out(monkeypatch):
    run, line = told("we had chips for tea")
    probable = trust.probability(trust.signs(run, line, shipped_book()))

    monkeypatch.setattr(trust, "OFFERED", probable - 0.01)
    assert trust.trusted(run, line, shipped_book()) == "asked"
    monkeypatch.setattr(trust, "OFFERED", probable + 0.01)
    assert trust.trusted(run, line, shipped_book()) == "not"


@pytest.fixture(scope="module")
def practised():
    return score(read(str(PRACTICE))[::EVERY], shipped_machine(), heard).figures()


@pytest.mark.parametrize(
    ("name", "floor"),
    [
        ("precision of facts taken", 0.97),
        ("recall of facts taken", 0.71),
        ("recall with first guesses", 0.905),
        ("symptom among three", 0.95),
    ],
)
def test_practice_lines_stay_above_the_floor(practised, name, floor):
    assert practised[name] >= floor


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("dasher not turning barrel 2", ["symptom S45 [2]"]),
        ("nothing wrong with the fizz but it's full of ice lumps", ["not_symptom S10", "symptom S05"]),
        ("screen fine", ["not_symptom S36"]),
        ("bits of ice in cola and the cherry is flat", ["symptom S05 [1]", "symptom S11 [2]"]),
        ("cherry thin, there's a low gas message as well", ["symptom S02 [2]", "symptom S19"]),
        ("the same fault is back, blue not freezing", ["symptom S58", "symptom S02 [3]"]),
        ("cola barrel pressure just sits at nought", ["reading barrel 0 [1]", "symptom S27 [1]"]),
    ],
)
def test_each_thing_told_is_heard_of_the_barrel_that_it_is_told_of(said, facts):
    assert firsts(said) == facts


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("b1 31 b2 33 b3 17", ["reading barrel 31 [1]", "reading barrel 33 [2]", "reading barrel 17 [3]"]),
        (
            "syrups are 66, 63, 60 cola to blue",
            ["reading syrup 66 [1]", "reading syrup 63 [2]", "reading syrup 60 [3]"],
        ),
        ("barrel 2 press 61 psi", ["reading barrel 61 psi [2]"]),
        ("little dial on the regulator shows 68", ["reading gas_low_dial 68"]),
        ("correction barrel 1 pressure is 27", ["correct", "reading barrel 27 [1]"]),
    ],
)
def test_numbers_in_shorthand_go_to_their_barrels(said, facts):
    assert firsts(said) == facts


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("first and last ones", "which 1,3 [1,3]"),
        ("it's the middle one i mean", "which 2 [2]"),
        ("mid one please", "which 2 [2]"),
    ],
)
def test_barrels_by_their_place(said, fact):
    assert shorts(said) == ([fact] if fact else [])


@pytest.mark.parametrize(
    ("said", "began"),
    [
        ("it all kicked off after the engineer's visit", "service"),
        ("trouble started once the power came back", "power cut"),
        ("cola was fine until tuesday, that's when it started", "tuesday"),
        ("last night everything went soft", "last night"),
        ("we scrubbed it out on monday, ever since there's a soapy taste", "cleaning"),
    ],
)
def test_when_it_began_takes_in_the_words_that_only_say_that_it_began(said, began):
    facts, _ = heard(said)

    assert [fact.value for fact in facts if fact.kind == "began"] == [began]
    assert not [fact for fact in facts if fact.kind == "symptom" and fact.ref in {"S46", "S49", "S51"}]


@pytest.mark.parametrize("said", ["what's your name again", "where are you based then"])
def test_a_question_about_who_answers_tells_nothing(said):
    assert heard(said)[0] == ()


@pytest.mark.parametrize(("said", "kind"), [("yeah they have", "yes"), ("aye someone did", "yes")])
def test_a_reply_that_says_so_and_little_else_is_a_yes_or_a_no(said, kind):
    assert [fact.kind for fact in heard(said, "K021")[0]] == [kind]


def test_how_far_something_is_off_is_no_reading():
    assert not [fact for fact in heard("it went up by six", "K103")[0] if fact.kind == "reading"]


def test_a_message_in_red_is_of_no_barrel():
    assert not [fact for fact in heard("the red message is still on")[0] if fact.which]


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("all runny and the compressor clicks and hums", ["symptom S01", "symptom S46"]),
        ("paddles are turning fine", ["not_symptom S45"]),
        ("the paddle isn't stopped, the blue just won't set", ["not_symptom S45", "symptom S02 [3]"]),
        ("sorry not the cherry, it's the blue that's runny", ["correct", "symptom S02 [3]"]),
        ("water low warning, it shows 18 psi", ["reading water 18 psi", "symptom S21"]),
        ("barrel 1 is fine but 2 spits foam", ["fine 1 [1]", "symptom S06 [2]"]),
        ("wrong flavour coming out of the middle one", ["symptom S15 [2]"]),
    ],
)
def test_what_stands_beside_something_else_is_heard_too(said, facts):
    assert firsts(said) == facts
