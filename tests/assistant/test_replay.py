"""Replay, going on, and going on under another pack."""

from __future__ import annotations

from dataclasses import replace

from stand_in import ASKS, FakeClock, ListBook, StandIn

from assistant.carry import carry_on
from assistant.engine.effects import Ask, Cause, Tell
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.facts import Fact
from assistant.record import Entry, Header, Record
from assistant.replay import replay, same_showing
from assistant.session import Desk, folded, opened
from assistant.transcript import transcript

STORY = (Began(role="operator"), Measured(70.0, "psi", "", "70 psi"), Asked("why"), Chose("no", "2"))


def recorded(tmp_path, *events):
    book = ListBook()
    desk, session = Desk(StandIn(), book, FakeClock()), opened(StandIn())
    for event in events:
        session = desk.move(session, event)
    entries = tuple(Entry(n, at, event, shown) for n, (at, event, shown, _) in enumerate(book.pages, 1))
    return Record(
        tmp_path / "a.jsonl", Header("0", "stand_in", "1", "d1", "one_barrel", "2026-11-25T09:15:30"), entries
    )


def carried(record, conversation):
    book = ListBook()
    return carry_on(Desk(conversation, book, FakeClock()), record), [
        (at, event) for at, event, *_ in book.pages
    ]


def test_a_session_replays_as_recorded(tmp_path):
    again = replay(StandIn(), recorded(tmp_path, *STORY))

    assert (again.differences, again.events, again.session.closed) == ((), 4, True)


def test_a_changed_question_is_shown_as_a_diff(tmp_path):
    again = replay(StandIn(prefix="Please: "), recorded(tmp_path, *STORY[:2]))

    assert [difference.entry.n for difference in again.differences] == [1, 2]
    assert again.differences[0].lines() == (
        "--- event 1, recorded",
        "+++ now",
        "@@ -1,3 +1,3 @@",
        " ",
        "-What does the supply gauge show?",
        "+Please: What does the supply gauge show?",
        "   where  beside the cylinder",
    )


def test_a_number_that_nobody_sees_is_compared_too(tmp_path):
    record = recorded(tmp_path, *STORY[:1])
    ask = record.entries[0].shown[0]
    other = replace(record, entries=(replace(record.entries[0], shown=(replace(ask, bits=0.4),)),))

    again = replay(StandIn(), other)

    assert "-bits: 0.4" in again.differences[0].lines()
    assert "+bits: 0.5" in again.differences[0].lines()


def test_the_last_bits_of_a_number_do_not_count_and_everything_else_does():
    ask = Ask("check", "k", "", "Well?", (), bits=0.1 + 0.2, causes=(Cause("a", "", "A", 0.25),))

    assert same_showing((ask,), (replace(ask, bits=0.3),))
    assert not same_showing((ask,), (replace(ask, bits=0.3001),))
    assert not same_showing((ask,), (replace(ask, causes=(Cause("a", "", "A", 0.26),)),))
    assert not same_showing((ask,), (replace(ask, text="Well!"),))
    assert not same_showing((ask,), (ask, Tell("a", "b")))
    assert not same_showing((ask,), (replace(ask, bits=None),))


def test_an_event_that_broke_the_program_is_not_folded(tmp_path):
    record = recorded(tmp_path, *STORY[:2])
    broken = Entry(3, "then", Asked("break"), (), "ZeroDivisionError at x.py:1")

    again = replay(StandIn(), replace(record, entries=(*record.entries, broken)))

    assert (again.events, again.differences) == (2, ())


def test_under_the_same_questions_every_event_goes_in_as_it_was(tmp_path):
    record = recorded(tmp_path, *STORY)

    again, told = carried(record, StandIn(digest="d2"))

    assert [event for _, event in told] == list(STORY)
    assert [at for at, _ in told] == [entry.at for entry in record.entries]
    assert (again.taken, again.noted, again.session.closed) == (4, 0, True)


def test_an_answer_to_a_question_that_comes_later_now_is_volunteered(tmp_path):
    record = recorded(tmp_path, Began(role="operator"), Chose("good", "b"), Chose("yes", "1"))
    turned = StandIn(digest="d2")
    turned.asks = (ASKS[0], ASKS[2], ASKS[1])

    again, told = carried(record, turned)

    assert told[1][1] == Said("b", (Fact("answer", id="supply", value="good"),))
    assert (again.taken, again.noted) == (3, 0)
    assert again.session.closed


def test_an_answer_to_a_question_that_is_gone_is_kept_as_a_note(tmp_path):
    record = recorded(tmp_path, Began(role="operator"), Chose("good", "b"), Chose("yes", "1"))

    again, told = carried(record, StandIn(digest="d2", drop="supply"))

    assert told[1][1] == Asked("note", "Earlier answer: What does the supply gauge show? b")
    assert told[2][1] == Chose("yes", "1")
    assert (again.taken, again.noted) == (2, 1)


def test_a_number_for_a_label_is_noted_by_its_label(tmp_path):
    record = recorded(tmp_path, Began(role="operator"), Measured(70.0), Chose("yes", "1"))

    _, told = carried(record, StandIn(digest="d2", drop="drip"))

    assert told[1][1] == Measured(70.0)
    assert len(told) == 2  # the session is over by then


def test_taking_back_what_no_longer_fits_takes_nothing_back(tmp_path):
    record = recorded(tmp_path, Began(role="operator"), Chose("good", "b"), Asked("back"), Chose("low", "a"))

    again, told = carried(record, StandIn(digest="d2", drop="supply"))

    assert [event.word for _, event in told[1:]] == ["note", "note"]
    assert again.session.ask == ASKS[2]


def test_folding_touches_no_book():
    session = folded(StandIn(), STORY[:2])

    assert session.ask == ASKS[2]
    assert not session.closed


def test_a_record_reads_as_text(tmp_path):
    record = recorded(
        tmp_path, Began(site="Pier Lantern", role="operator"), Said("one\ntwo \x1b[2J"), *STORY[1:]
    )

    assert transcript(record).splitlines() == [
        "Session of 2026-11-25 09:15:30",
        "Machine: one_barrel. Pack: stand_in 1.",
        "Pier Lantern, operator",
        "",
        "What does the supply gauge show?",
        "  where  beside the cylinder",
        "  a  too low",
        "  b  as it should be",
        "  c  not sure",
        "  letter = that answer; number = the reading, in psi unless you name a unit",
        "",
        "> one",
        "> two \\x1b[2J",
        'I made nothing of "one',
        'two \\x1b[2J".',
        "",
        "What does the supply gauge show?",
        "  where  beside the cylinder",
        "  a  too low",
        "  b  as it should be",
        "  c  not sure",
        "  letter = that answer; number = the reading, in psi unless you name a unit",
        "",
        "> 70 psi",
        "I take that as 70 psi.",
        "",
        "Does the handle drip?",
        "  1  Yes",
        "  2  No",
        "",
        "> /why",
        'I know no word "/why".',
        "",
        "Does the handle drip?",
        "  1  Yes",
        "  2  No",
        "",
        "> 2",
        "",
        "CAUTION: Cold plate",
        "  Do:  wear gloves",
        "  Do not:  touch it bare-handed",
        "  Who:  anybody",
        "",
        "Can be put right now: Fit a new drip seal (62 % likely)",
        "  Because:  it drips",
        "  Send:  operator",
        "  Parts:  drip seal",
        "  Tools:  spanner",
        "It is the drip seal.",
    ]


def test_a_record_of_a_broken_event_says_so(tmp_path):
    record = recorded(tmp_path, Began())
    broken = Entry(2, "then", Asked("break"), (), "ZeroDivisionError at x.py:1")

    text = transcript(replace(record, entries=(*record.entries, broken)))

    assert text.endswith(
        "> /break\n(event 2 was left out: the program broke on it: ZeroDivisionError at x.py:1)"
    )
