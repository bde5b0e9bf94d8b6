"""What Tab offers: pure, so every case is a line in and candidates out."""

from __future__ import annotations

import pytest
from event_strategies import texts
from hypothesis import given
from hypothesis import strategies as st
from prompt_toolkit.completion import CompleteEvent
from prompt_toolkit.document import Document
from stand_in import ASKS, WORDS, StandIn

from assistant.engine.effects import Ask, Option
from assistant.reply import picked
from assistant.talk.completer import AnswerCompleter
from assistant.talk.completion import Candidate, candidates
from assistant.talk.view import View

ROLE, SUPPLY, DRIP = ASKS
MANY = Ask("check", "k", "", "Which?", tuple(Option(f"o{n}", f"option {n}") for n in range(1, 13)))
labels = (
    st.text("abcxyz ", min_size=3).map(lambda text: " ".join(text.split())).filter(lambda text: len(text) > 1)
)
asks = st.builds(
    Ask,
    about=st.just("check"),
    id=texts,
    ref=texts,
    text=texts,
    options=st.lists(texts, max_size=9, unique=True).map(
        lambda labels: tuple(Option(f"o{i}", each) for i, each in enumerate(labels))
    ),
    unit=st.sampled_from(["", "psi"]),
)


def offered(line, ask=SUPPLY, words=WORDS):
    return [candidate.text for candidate in candidates(line, ask, words)]


@pytest.mark.parametrize(
    ("line", "texts_offered"),
    [
        ("", ["too low", "as it should be", "not sure"]),
        ("  ", ["too low", "as it should be", "not sure"]),
        ("t", ["too low"]),
        ("TOO", ["too low"]),
        ("too l", ["too low"]),
        ("low", ["too low"]),  # any word of a label will do
        ("s", ["as it should be", "not sure"]),
        ("b", ["as it should be"]),  # the letter that picks it, and the word "be"
        ("a", ["too low", "as it should be"]),  # the letter of one, the beginning of the other
        ("too lowly", []),
        ("70", []),
        ("1", []),  # a number is a reading here
    ],
)
def test_answers_are_offered_by_letter_and_by_any_word(line, texts_offered):
    assert offered(line) == texts_offered


@pytest.mark.parametrize(("line", "texts_offered"), [("1", ["Yes"]), ("2", ["No"]), ("3", []), ("n", ["No"])])
def test_answers_are_offered_by_number_where_no_reading_is_welcome(line, texts_offered):
    assert offered(line, DRIP) == texts_offered


def test_a_number_offers_the_option_of_that_number_only():
    assert offered("1", MANY) == ["option 1", "option 10", "option 11", "option 12"]
    assert offered("12", MANY) == ["option 12"]


@pytest.mark.parametrize(
    ("line", "texts_offered"),
    [
        ("/", ["/why", "/back", "/note", "/stop"]),
        (" /", ["/why", "/back", "/note", "/stop"]),
        ("/N", ["/note"]),
        ("/note", ["/note"]),
        ("/note ", []),
        ("/note a", []),
        ("/x", []),
        ("a /", []),
    ],
)
def test_slash_words_are_offered_until_their_argument_begins(line, texts_offered):
    assert offered(line) == texts_offered


def test_a_candidate_says_what_it_is():
    assert candidates("no", SUPPLY, ()) == (Candidate("not sure", "not sure", "c"),)
    assert candidates("/w", None, WORDS) == (Candidate("/why", "/why", "why this question"),)


def test_without_a_question_only_slash_words_are_offered():
    assert offered("", None) == []
    assert offered("/", None) == ["/why", "/back", "/note", "/stop"]


def test_what_would_steer_the_terminal_is_written_out_in_the_list():
    ask = Ask("check", "k", "", "Well?", (Option("a", "bell \x07"),))

    assert candidates("b", ask, ())[0].shown == "bell \\x07"


@given(st.lists(labels, max_size=9, unique=True), st.sampled_from(["", "psi"]))
def test_taking_what_is_offered_picks_that_option(names, unit):
    options = tuple(Option(f"o{number}", name) for number, name in enumerate(names))
    ask = Ask("check", "k", "", "Which?", options, unit=unit)

    taken = [picked(offer.text, ask) for offer in candidates("", ask, ())]

    assert [chosen and chosen.option for chosen in taken] == [option.id for option in options]


@given(texts, asks)
def test_any_line_can_be_completed(line, ask):
    for candidate in candidates(line, ask, WORDS):
        assert candidate.text in {option.label for option in ask.options} | {
            f"/{each.word}" for each in WORDS
        }


def test_the_prompt_is_handed_the_candidates_for_the_whole_line():
    view = View(SUPPLY, StandIn().words())
    completer = AnswerCompleter(lambda: view)

    found = list(completer.get_completions(Document("too l"), CompleteEvent()))

    assert [(each.text, each.start_position, each.display_meta_text) for each in found] == [
        ("too low", -5, "a")
    ]
