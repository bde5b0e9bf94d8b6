"""Transcripts: titles instead of ids, and no line wider than the page."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from stand_in import ASKS

from assistant.conversation import Setup
from assistant.engine.events import Began, Said
from assistant.live import Live
from assistant.record import Entry, Header, Record
from assistant.transcript import transcript

HEADER = Header(
    "0",
    "frozen",
    "1.0",
    "d1",
    "three_barrel",
    "2026-11-25T09:15:30+00:00",
    ("cola", "cherry"),
    titles=(("frozen", "Frozen drinks"), ("three_barrel", "Three barrels"), ("helpdesk", "helpdesk agent")),
)
BEGAN = Began("Pier Lantern Cinemas, Gullsand", "bar machine, left of the till", "Odile", "helpdesk", "Priya")
LONG = (
    "it was all right until the bottle was changed this morning and since then every side pours flat drinks"
)


def record(header=HEADER):
    entries = (Entry(1, "", BEGAN, (ASKS[1],)), Entry(2, "", Said(LONG), ()), Entry(3, "", Said("a  b"), ()))
    return Record(Path("a.jsonl"), header, entries)


def test_the_head_names_machine_pack_and_role_by_their_titles():
    text = transcript(record())

    assert "Machine: Three barrels, cola, cherry. Pack: Frozen drinks 1.0." in text
    assert "Odile, helpdesk agent," in " ".join(text.split())
    assert "three_barrel" not in text


def test_a_record_without_titles_shows_the_ids():
    assert "Machine: three_barrel, cola, cherry. Pack: frozen 1.0." in transcript(
        record(replace(HEADER, titles=()))
    )


def test_the_true_cause_goes_by_the_title_under_which_the_session_named_it():
    named, unnamed = (transcript(record(replace(HEADER, cause=name))) for name in ("seal", "tap, seal"))

    assert "True cause: Worn drip seal." in named
    assert "True cause: tap; Worn drip seal." in unnamed


def test_nothing_is_wider_than_the_page_and_what_was_typed_hangs_under_its_prompt():
    lines = transcript(record()).splitlines()

    assert max(map(len, lines)) <= 80
    at = next(n for n, line in enumerate(lines) if line.startswith("> it was all right"))
    assert lines[at + 1].startswith("  ")
    assert " ".join(" ".join(lines[at : at + 2]).removeprefix("> ").split()) == LONG
    assert "> a  b" in lines


def test_the_shipped_conversation_writes_its_titles_into_the_head():
    titles = dict(Live.of(Setup()).header("0", "2026-11-25T09:15:30+00:00").titles)

    assert titles["helpdesk"] == "helpdesk agent"
    assert len(titles) > 6
