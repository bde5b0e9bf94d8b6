"""What answers a question that nobody asked is offered, or taken, with the troubles that the words are like.

The expectations are our own; the form of the model is logistic regression (Hastie, Tibshirani and Friedman
2009, section 4.4.1).
"""

from dataclasses import astuple, replace
from itertools import pairwise
from math import exp

import pytest
from hearing import firsts, shipped_book, shorts

from assistant.hear import volunteered
from assistant.hear.line import Line


def answers(text, asked=""):
    line = Line.of(text, shipped_book())
    return volunteered.told(line, line.segments(), shipped_book(), asked)


@pytest.mark.parametrize(
    ("said", "fact"),
    [
        ("the condenser filter is thick with dust", "answer K085 hot_weak"),
        ("cherry is in standby", "answer K032 off_or_standby"),
        ("the gas bottle is the wrong kind, its got a dip tube", "answer K043 dip_tube"),
        ("the cola syrup line has a kink in it by the box", "answer K059 before_pump"),
        ("found the stopcock closed", "answer K047 across"),  # a guess, since the line tells nothing else
    ],
)
def test_what_is_told_unasked_is_heard(said, fact):
    assert any(each.startswith(fact) for each in firsts(said))


def test_an_answer_of_one_barrel_names_it():
    told = [fact for fact in shorts("the cola syrup line has a kink in it by the box") if "K059" in fact]

    assert told
    assert all("[1]" in fact for fact in told)


def test_a_trouble_stays_among_what_is_offered_beside_a_doubtful_answer():
    told = shorts("the fan in the back is stood still and the paddle too")

    assert any(fact.startswith("symptom") for fact in told)


def test_what_was_asked_is_answered_elsewhere():
    base = shipped_book().check("K037").base

    assert all(found.ranked[0][0].check != base for found in answers("the bottle valve is shut", base))
    assert any(found.ranked[0][0].check == base for found in answers("the bottle valve is shut"))


def test_no_two_answers_share_words():
    spans = [found.span for found in answers("the stopcock is shut, the fan stands still, the bag is empty")]

    assert all(one[1] <= other[0] for one, other in pairwise(spans))


def test_the_probability_is_the_logistic_function_of_the_weighed_signs():
    found = answers("the wheel on the gas bottle is shut")[0]
    weighed = sum(w * s for w, s in zip(astuple(volunteered.WEIGHTS), astuple(found.signs), strict=True))

    assert found.probability == pytest.approx(1 / (1 + exp(-volunteered.BASE - weighed)), abs=1e-12)


@pytest.mark.parametrize("sign", ["topic", "lead", "within", "ahead", "shared"])
def test_what_speaks_for_an_answer_makes_it_more_probable(sign):
    found = answers("the wheel on the gas bottle is shut")[0]
    more = replace(found, signs=replace(found.signs, **{sign: getattr(found.signs, sign) + 0.5}))

    assert more.probability > found.probability


def test_a_probable_symptom_makes_an_answer_less_probable():
    found = answers("the wheel on the gas bottle is shut")[0]
    less = replace(found, signs=replace(found.signs, symptom=found.signs.symptom + 0.5))

    assert less.probability < found.probability
