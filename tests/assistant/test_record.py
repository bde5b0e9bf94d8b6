"""Session records: what is written, what is read, what a broken one says; where records live."""

from __future__ import annotations

import errno
import io
import os
from datetime import UTC, datetime

import pytest

from assistant.engine.effects import Tell
from assistant.engine.events import Asked, Began, Said
from assistant.errors import RecordUnreadable, RecordUnwritable, SessionNotFound
from assistant.json_line import NotJson, dumps, loads
from assistant.ledger import Ledger
from assistant.record import Entry, Header, entry_line, header_line, read_record
from assistant.sessions import all_records, find, new_path, slug

HEADER = Header("0.1.0", "frozen_drinks", "1", "abc", "two_barrel", "2026-11-25T09:15:30+00:00", cause="seal")
NINE = "2026-11-25T09:15:31+00:00"
MOMENT = datetime(2026, 11, 25, 9, 15, 30, tzinfo=UTC)


@pytest.fixture
def path(tmp_path):
    return tmp_path / "records" / "2026-11-25-091530-harbour-street.jsonl"


def written(path, *events):
    """Write a record of some events, each answered with a sentence."""
    ledger = Ledger.create(path, HEADER)
    for event in events:
        ledger.take(NINE, event)
        ledger.keep((Tell("taken", "So be it."),))
    ledger.close()
    return path


def test_the_first_lines_of_a_record_are_these(path):
    written(path, Began(site="Harbour Street"))

    assert path.read_text(encoding="utf-8").splitlines() == [
        '{"kind": "header", "format": 1, "program": "0.1.0", "pack": "frozen_drinks", "pack_version": "1", "digest": "abc", "profile": "two_barrel", "started": "2026-11-25T09:15:30+00:00", "cause": "seal"}',
        '{"n": 1, "at": "2026-11-25T09:15:31+00:00", "event": {"type": "Began", "site": "Harbour Street"}, "shown": [{"type": "Tell", "topic": "taken", "text": "So be it."}]}',
    ]


def test_a_record_is_read_as_it_was_written(path):
    record = read_record(written(path, Began(), Said("it drips")))

    assert record.header == HEADER
    assert record.entries[1] == Entry(2, NINE, Said("it drips"), (Tell("taken", "So be it."),))
    assert (record.intact, record.remarks) == (path.stat().st_size, ())


def test_an_event_is_in_the_file_when_keep_returns(path):
    ledger = Ledger.create(path, HEADER)
    ledger.take(NINE, Said("it drips"))
    before = len(read_record(path).entries)
    ledger.keep(())

    assert before == 0
    assert read_record(path).entries[0].event == Said("it drips")
    ledger.close()


def test_every_line_is_synced(path, monkeypatch):
    """The one patch in this file: whether the disk was really asked cannot be seen from outside."""
    synced, real = [], os.fsync
    monkeypatch.setattr(os, "fsync", lambda handle: (synced.append(handle), real(handle)))
    written(path, Began(), Said("it drips"))

    assert len(synced) >= 3


def test_letters_of_every_script_stay_readable_and_what_steers_is_escaped(path):
    written(path, Said("café 冷 \x1b[2J \x7f \u202e\u2028 \x00"))
    line = path.read_bytes().splitlines()[1]

    assert "café 冷".encode() in line
    assert b"\\u001b[2J \\u007f \\u202e\\u2028 \\u0000" in line
    assert read_record(path).entries[0].event == Said("café 冷 \x1b[2J \x7f \u202e\u2028 \x00")


@pytest.mark.parametrize(
    "tail", [b'{"n": 2, "at": "20', b'{"n": 2, "at": "20\n', b"\0\0\0\0", b"\xff\xfe", b"{"]
)
def test_a_torn_last_line_is_left_out_with_a_sentence_and_the_file_kept(path, tail):
    size = written(path, Said("it drips")).stat().st_size
    path.write_bytes(path.read_bytes() + tail)

    record = read_record(path)

    assert len(record.entries) == 1
    assert record.intact == size
    assert record.remarks == (
        f"The last line of {path.name} (line 3) was cut off and is left out; everything before it is there.",
    )
    assert path.stat().st_size == size + len(tail)


def test_going_on_cuts_the_torn_line_off_and_appends(path):
    written(path, Said("it drips"))
    path.write_bytes(path.read_bytes() + b'{"n": 2, ')
    ledger = Ledger.reopen(read_record(path))
    ledger.take(NINE, Said("again"))
    ledger.keep(())
    ledger.close()

    record = read_record(path)

    assert [entry.event for entry in record.entries] == [Said("it drips"), Said("again")]
    assert record.remarks == ()


def test_a_last_line_that_lacks_only_its_line_feed_counts(path):
    written(path, Said("it drips"))
    path.write_bytes(path.read_bytes()[:-1])
    ledger = Ledger.reopen(read_record(path))
    ledger.take(NINE, Said("again"))
    ledger.keep(())
    ledger.close()

    assert [entry.event for entry in read_record(path).entries] == [Said("it drips"), Said("again")]


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "{} is empty."),
        (b"\0\0\0", "{} is empty."),
        (b"hello\n", "{} is no session record: its first line is not JSON at character 1 (Expecting value)."),
        (b"\xff\n", "{} is no session record: its first line is byte 1 is not UTF-8."),
        (b"[1]\n", "{} is no session record: its first line is no header."),
        (header_line(HEADER)[:-1], "{} is no session record: its first line is no header."),
        (
            header_line(HEADER).replace(b'"format": 1', b'"format": 7'),
            "{} is a record of format 7, this program reads format 1; use the newer program that wrote it.",
        ),
        (
            header_line(HEADER).replace(b'"profile": "two_barrel", ', b""),
            '{}:1: header: the field "profile" of Header is missing.',
        ),
        (
            header_line(HEADER) + b'{"n": 1}\n' + entry_line(Entry(2, NINE, Said("a"), ())),
            "{}:2: expected an entry with n, at, event and shown; the record is damaged there.",
        ),
        (
            header_line(HEADER) + b"{\n" + entry_line(Entry(2, NINE, Said("a"), ())),
            "{}:2: not JSON at character 2 (Expecting property name enclosed in double quotes); the record is damaged there.",
        ),
        (
            header_line(HEADER) + entry_line(Entry(2, NINE, Said("a"), ())),
            "{}:2: expected entry 1, found 2; the record is damaged there.",
        ),
        (
            header_line(HEADER) + entry_line(Entry(1, NINE, Said("a"), ())).replace(b"Said", b"Sung"),
            '{}:2: event.type: expected one of Began, Said, Chose, Measured, Asked, found "Sung"; the record is damaged there.',
        ),
    ],
)
def test_what_is_no_record_is_refused_in_one_sentence(tmp_path, data, sentence):
    path = tmp_path / "a.jsonl"
    path.write_bytes(data)

    with pytest.raises(RecordUnreadable) as caught:
        read_record(path)

    assert str(caught.value) == sentence.format(path)


def test_a_record_that_is_not_there_is_said_so(tmp_path):
    with pytest.raises(RecordUnreadable, match=r"Cannot read .*none\.jsonl \(No such file or directory\)\."):
        read_record(tmp_path / "none.jsonl")


def test_a_record_is_never_overwritten(path):
    written(path)

    with pytest.raises(RecordUnwritable, match="exists already; a record is never overwritten"):
        Ledger.create(path, HEADER)


def test_a_folder_that_cannot_be_made_is_said_so(tmp_path):
    (tmp_path / "records").write_text("a file stands where the folder should be", encoding="utf-8")

    with pytest.raises(RecordUnwritable, match="name another folder with --records"):
        Ledger.create(tmp_path / "records" / "a.jsonl", HEADER)


class FullDisk(io.FileIO):
    """A file on a disk that has room for ten bytes more, and writes what fits."""

    room = 10

    def write(self, data):
        if not self.room:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        done = super().write(bytes(data[: self.room]))
        self.room -= done
        return done


def test_a_full_disk_is_said_so_and_what_was_there_stays(path):
    written(path, Said("it drips"))
    size = path.stat().st_size
    with FullDisk(path, "ab") as stream:
        ledger = Ledger(path, stream, 1, size)
        ledger.take(NINE, Said("again"))
        with pytest.raises(RecordUnwritable, match=r"Cannot write .* \(No space left on device\); make room"):
            ledger.keep(())

    assert [entry.event for entry in read_record(path).entries] == [Said("it drips")]
    assert path.stat().st_size == size + 10


def test_two_programs_do_not_write_to_one_record(path):
    written(path, Said("it drips"))
    one, other = (Ledger.reopen(read_record(path)) for _ in range(2))
    one.take(NINE, Said("mine"))
    one.keep(())
    other.take(NINE, Said("no, mine"))

    with pytest.raises(RecordUnwritable, match="Another program writes to"):
        other.keep(())

    one.close()
    other.close()
    assert [entry.event for entry in read_record(path).entries] == [Said("it drips"), Said("mine")]


def test_the_event_that_broke_the_program_is_kept_and_not_folded(path):
    ledger = Ledger.create(path, HEADER)
    ledger.take(NINE, Asked("break"))
    rescued = ledger.rescue("ZeroDivisionError at step.py:7")
    again = ledger.rescue("nothing is left to save")
    ledger.close()

    record = read_record(path)

    assert (rescued, again) == (True, False)
    assert record.entries[0].failed == "ZeroDivisionError at step.py:7"
    assert record.folded == ()


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        (b"NaN", "NaN is no JSON number"),
        (b"[" * 100_000, "brackets are nested too deep"),
        (b"9" * 5000, "a number has too many digits"),
        (b"\xff", "byte 1 is not UTF-8"),
        (b"", "not JSON at character 1 (Expecting value)"),
    ],
)
def test_a_line_that_is_no_json_is_refused_in_one_sentence(line, sentence):
    with pytest.raises(NotJson) as caught:
        loads(line)

    assert str(caught.value) == sentence


def test_a_lone_surrogate_is_escaped_and_comes_back():
    assert dumps({"a": "\ud800"}) == b'{"a": "\\ud800"}\n'
    assert loads(dumps({"a": "\ud800"})) == {"a": "\ud800"}


@pytest.mark.parametrize(
    ("site", "part"),
    [
        ("Harbour Street", "harbour-street"),
        ("  Café  Möwe 3/4 ", "cafe-mowe-3-4"),
        ("../../etc/passwd", "etc-passwd"),
        ("冷", ""),
        ("a" * 99, "a" * 40),
    ],
)
def test_a_site_becomes_part_of_a_file_name(site, part):
    assert slug(site) == part


def test_a_record_is_named_for_when_and_where(tmp_path):
    first = new_path(tmp_path, MOMENT, "Harbour Street")
    first.touch()

    assert first.name == "2026-11-25-091530-harbour-street.jsonl"
    assert new_path(tmp_path, MOMENT, "Harbour Street").name == "2026-11-25-091530-harbour-street-2.jsonl"
    assert new_path(tmp_path, MOMENT, "").name == "2026-11-25-091530.jsonl"


def test_a_record_is_found_by_path_by_name_and_by_the_beginning_of_its_name(tmp_path):
    names = [
        "2026-11-25-091530-harbour-street",
        "2026-11-25-091530-harbour-street-2",
        "2026-11-26-080000-pier",
    ]
    paths = [tmp_path / f"{name}.jsonl" for name in names]
    for path in paths:
        path.touch()
    (tmp_path / "notes.txt").touch()

    assert find(str(paths[2]), tmp_path / "elsewhere") == paths[2]
    assert find("2026-11-26", tmp_path) == paths[2]
    assert find(names[0], tmp_path) == paths[0]
    assert find(f"{names[0]}.jsonl", tmp_path) == paths[0]
    assert set(all_records(tmp_path)) == set(paths)
    assert all_records(tmp_path)[0] == paths[2]


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("2026-11-25", r'"2026-11-25" begins 2 records: .*; write more of it\.'),
        ("2026-11-26-080000-peir", r"did you mean 2026-11-26-080000-pier\?"),
        ("zebra", r"the newest is 2026-11-26-080000-pier\."),
        ("\0", r"the newest is 2026-11-26-080000-pier\."),
        ("", r'No session record "" in'),
    ],
)
def test_a_name_that_finds_none_or_several_says_what_there_is(tmp_path, name, sentence):
    for stem in ("2026-11-25-091530", "2026-11-25-101530", "2026-11-26-080000-pier"):
        (tmp_path / f"{stem}.jsonl").touch()

    with pytest.raises(SessionNotFound, match=sentence):
        find(name, tmp_path)


def test_an_empty_folder_says_that_there_are_none(tmp_path):
    with pytest.raises(SessionNotFound, match=r"there are none yet\."):
        find("x", tmp_path / "nowhere")
