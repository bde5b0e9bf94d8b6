"""What was heard is no copy of the exam: a measure of lines that the pack holds would measure nothing."""

from score_utterances import HALVES, UTTERANCES, read

from graph.audit.phrases import normalised
from graph.load import load_pack

PRACTICE = UTTERANCES.with_name("practice.jsonl")
HELD_BACK = UTTERANCES.with_name("held_back.jsonl")


def lines_heard():
    heard = load_pack("frozen_drinks").heard
    told = [line for lines in heard.symptoms.values() for line in lines]
    told += [line for answers in heard.answers.values() for lines in answers.values() for line in lines]
    return {normalised(line) for line in told}


def test_no_line_of_the_exam_stands_in_the_pack():
    exam = {normalised(line["text"]) for half in (*HALVES, str(HELD_BACK)) for line in read(half)}

    assert not exam & lines_heard()


def test_hardly_any_line_that_weights_are_fitted_to_stands_in_the_pack():
    practice = {normalised(line["text"]) for line in read(str(PRACTICE))}

    assert len(practice & lines_heard()) < len(practice) / 100  # "cherry is flat" is written by many
