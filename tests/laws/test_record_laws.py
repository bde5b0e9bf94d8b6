"""Laws of codec, record and replay, for events of any content."""

from __future__ import annotations

from pathlib import Path

import pytest
from event_strategies import effects, events, texts
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from stand_in import FakeClock, ListBook, StandIn

from assistant.codec import decode_effect, decode_event, encode
from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.errors import RecordUnreadable
from assistant.json_line import dumps, loads
from assistant.record import Entry, Header, entry_line, header_line, parse_record
from assistant.replay import replay
from assistant.session import Desk, folded, opened
from assistant.visible import STEERING

HEADER = Header("0.1.0", "pack", "1", "d1", "one_barrel", "2026-11-25T09:15:30+00:00")
told = st.lists(
    st.one_of(
        st.builds(Began, role=st.sampled_from(["", "operator"])),
        st.builds(Chose, option=st.sampled_from(["yes", "no", "good", "operator"])),
        st.builds(Measured, value=st.floats(0, 100), unit=st.just("psi")),
        st.builds(Said, text=texts),
        st.builds(Asked, word=st.sampled_from(["why", "back", "note", "stop", "nonsense"]), argument=texts),
    ),
    max_size=12,
)


def _lines(history):
    """Return the bytes of a record of `history`, as the shells write one."""
    book = ListBook()
    desk, session = Desk(StandIn(), book, FakeClock()), opened(StandIn())
    for event in history:
        session = desk.move(session, event)
    entries = [Entry(n, at, event, shown) for n, (at, event, shown, _) in enumerate(book.pages, 1)]
    return [header_line(HEADER), *map(entry_line, entries)]


@given(events)
def test_an_event_comes_back_from_its_bytes(event):
    assert decode_event(loads(dumps(encode(event)))) == event


@given(effects)
def test_an_effect_comes_back_from_its_bytes(effect):
    assert decode_effect(loads(dumps(encode(effect)))) == effect


@given(events)
def test_an_event_is_one_line_of_utf8(event):
    line = dumps(encode(event))

    assert line.count(b"\n") == 1
    assert line.endswith(b"\n")
    assert STEERING.search(line[:-1].decode()) is None


@given(told)
def test_a_record_comes_back_entry_by_entry(history):
    lines = _lines(history)

    record = parse_record(Path("a.jsonl"), b"".join(lines))

    assert [entry.event for entry in record.entries] == history
    assert (record.header, record.remarks, record.ends_clean) == (HEADER, (), True)
    assert record.intact == sum(map(len, lines))
    assert [header_line(record.header), *map(entry_line, record.entries)] == lines


@given(told)
def test_a_record_replays_to_the_letter(history):
    record = parse_record(Path("a.jsonl"), b"".join(_lines(history)))

    assert replay(StandIn(), record).differences == ()


@given(told, st.data())
def test_any_prefix_of_a_record_can_be_read_and_folded(history, data):
    """Cut at any byte: all lines before the cut are there, and nothing else is."""
    lines = _lines(history)
    whole = b"".join(lines)
    cut = data.draw(st.integers(len(lines[0]), len(whole)))

    record = parse_record(Path("a.jsonl"), whole[:cut])

    sound = sum(1 for n in range(1, len(lines)) if len(b"".join(lines[: n + 1])) - 1 <= cut)
    assert [entry.event for entry in record.entries] == history[:sound]
    assert folded(StandIn(), history[:sound]).state == replay(StandIn(), record).session.state


@given(st.binary(max_size=200))
def test_bytes_that_are_no_record_are_refused_in_one_sentence(data):
    with pytest.raises(RecordUnreadable) as caught:
        parse_record(Path("a.jsonl"), data)

    assert "\n" not in str(caught.value)
    assert str(caught.value).endswith(".")


@given(told, st.binary(min_size=1, max_size=30), st.data())
@settings(suppress_health_check=[HealthCheck.too_slow])
def test_bytes_written_over_a_record_never_change_an_answer_in_silence(history, noise, data):
    """Either the record is refused, or every entry that is read is one that was written."""
    whole = b"".join(_lines(history))
    at = data.draw(st.integers(0, len(whole) - 1))
    spoilt = whole[:at] + b"\0" * len(noise) + whole[at + len(noise) :]
    try:
        record = parse_record(Path("a.jsonl"), spoilt)
    except RecordUnreadable:
        return

    assert [entry.event for entry in record.entries] == history[: len(record.entries)]
