"""A call begun without its site: the address book is looked up when the site is told, and recorded."""

from __future__ import annotations

import io
import json
from contextlib import suppress
from functools import cache
from pathlib import Path

from sites_records import NOW, keep

from assistant.cli import run
from assistant.engine.events import Asked, Began, Chose, Said
from assistant.live import Live
from assistant.record import read_record
from assistant.world import World

DEMO = str(Path(__file__).parents[2] / "demo_sessions" / "sites.yaml")
SALTMERE = "Pier Lantern Cinemas, Saltmere"
GAS = "gas_supply.cylinder.empty"
LIVE = cache(Live.of)


class Caller:
    """Whoever calls: everything typed, and what came of it."""

    def __init__(self, folder, *lines, sites=DEMO, more=(), command="talk"):
        self.folder = folder
        streams = [io.TextIOWrapper(io.BytesIO(data), encoding="utf-8") for data in (_typed(lines), b"", b"")]
        book = ("--sites", sites) if command == "talk" else ()
        arguments = (command, "--records", str(folder), *book, *more)
        self.code = run([*arguments], World({}, *streams, lambda: NOW, LIVE))
        self.out, self.err = (" ".join(s.buffer.getvalue().decode().split()) for s in streams[1:])

    @property
    def records(self):
        return [read_record(path) for path in sorted(self.folder.glob("*"))]

    @property
    def record(self):
        """Return the one record that there is."""
        (record,) = self.records
        return record

    def events(self, kind):
        return [entry.event for entry in self.record.entries if isinstance(entry.event, kind)]


def _typed(lines):
    return "".join(f"{line}\n" for line in lines).encode()


def replays(path):
    """Return whether a record replays to the letter where there is no address book."""
    streams = [io.TextIOWrapper(io.BytesIO(b""), encoding="utf-8") for _ in range(3)]
    return run(["replay", str(path)], World({}, *streams, lambda: NOW, LIVE)) == 0


def test_a_known_site_named_when_it_is_asked_for_brings_its_machine(tmp_path):
    call = Caller(tmp_path, "operator", "it's the marram bay one", "1")

    header, found = call.record.header, call.events(Began)[-1]
    assert (header.profile, header.flavours) == ("two_barrel", ("cola", "cherry"))
    assert ("trade", "seasonal") in header.switches
    assert ("machine_age", "over_7_years") in header.switches
    assert (found.site, found.unit) == ("Pier Lantern Cinemas, Marram Bay", "foyer machine")
    assert f"Site: {found.site}, foyer machine. Two barrels" in call.out
    assert "How many barrels" not in call.out


def test_it_replays_without_the_address_book(tmp_path):
    call = Caller(tmp_path, "helpdesk", "saltmeer", "upstairs", "1")

    assert replays(call.record.path)
    assert call.record.header.costs == (("visit", 110.0),)
    assert call.events(Chose)[0].option == "helpdesk"


def test_dates_and_history_of_the_book_count(tmp_path):
    keep(tmp_path, 20, site=SALTMERE, unit="downstairs machine", cause=GAS)
    keep(tmp_path, 6, site=SALTMERE, unit="downstairs machine", cause=GAS, outcome="visit")
    before = set(tmp_path.glob("*"))
    call = Caller(tmp_path, "operator", "saltmere downstairs", "1")
    (path,) = set(tmp_path.glob("*")) - before

    found = [entry.event for entry in read_record(path).entries if isinstance(entry.event, Began)][-1]
    assert "look for a leak" in call.out
    assert found.repeats
    assert read_record(path).header.factors
    assert replays(path)


def test_the_next_call_knows_the_one_whose_site_was_told(tmp_path):
    from assistant.history import about, headings  # noqa: PLC0415 -- what a later call does

    Caller(tmp_path, "operator", "saltmere, upstairs", "1")

    assert len(about(headings(tmp_path), (SALTMERE,), ("upstairs machine",))) == 1
    assert about(headings(tmp_path), (SALTMERE,), ("downstairs machine",)) == ()


def test_a_wrong_machine_is_put_right_by_going_back(tmp_path):
    from assistant.history import about, headings  # noqa: PLC0415 -- what a later call does

    call = Caller(tmp_path, "operator", "saltmere upstairs", "/back", "saltmere downstairs", "1")

    was, now = sorted(call.records, key=lambda record: bool(record.header.continues))
    assert (was.header.profile, now.header.profile) == ("three_barrel", "two_barrel")
    assert replays(now.path)
    assert [each.path for each in about(headings(tmp_path), (SALTMERE,), ("downstairs machine",))] == [
        now.path
    ]


def test_of_several_machines_it_is_asked_which(tmp_path):
    call = Caller(tmp_path, "operator", "saltmere", "2")

    assert f"Which machine is it at {SALTMERE}?" in call.out
    assert (call.record.header.profile, call.record.header.flavours) == ("two_barrel", ("cola", "lemon"))
    assert call.events(Began)[-1].unit == "downstairs machine"


def test_of_several_machines_one_may_be_called_by_its_number_of_barrels(tmp_path):
    call = Caller(tmp_path, "operator", "old quay", "it's the 4 barrel one", "1")

    assert call.events(Began)[-1].unit == "second machine"
    assert call.record.header.flavours[-1] == "lemon"
    assert replays(call.record.path)


def test_a_number_that_no_machine_there_has_leaves_the_question_which_machine_it_is(tmp_path):
    call = Caller(tmp_path, "operator", "old quay", "it's the 2 barrel one", "second", "1")

    assert call.out.count("Which machine is it at") == 2
    assert call.events(Began)[-1].unit == "second machine"
    assert call.record.header.profile == "four_barrel"
    assert replays(call.record.path)


def test_a_near_spelling_is_asked_back_and_a_no_leaves_the_site_as_it_was_said(tmp_path):
    yes = Caller(tmp_path / "yes", "operator", "westhavn", "yes")
    no = Caller(tmp_path / "no", "operator", "westhavn", "no", "2")

    assert "Do you mean Pier Lantern Cinemas, Westhaven, foyer machine?" in yes.out
    assert yes.events(Began)[-1].site == "Pier Lantern Cinemas, Westhaven"
    assert "Site: westhavn." in no.out
    assert no.events(Began)[-1].site == ""
    assert (no.record.header.profile, no.record.header.flavours) == ("two_barrel", ("",))
    assert replays(no.record.path)


def test_another_machine_at_a_known_site_keeps_what_holds_for_the_site(tmp_path):
    call = Caller(tmp_path, "operator", "marram bay kiosk", "no", "3", "1")

    assert "foyer machine?" in call.out
    assert (call.events(Began)[-1].site, call.events(Began)[-1].unit) == (
        "Pier Lantern Cinemas, Marram Bay",
        "",
    )
    assert ("trade", "seasonal") in call.record.header.switches
    assert "machine_age" not in dict(call.record.header.switches)
    assert "How many barrels" in call.out


def test_a_site_that_the_book_does_not_have_stays_as_it_was_said(tmp_path):
    call = Caller(tmp_path, "operator", "the corner cafe", "3", "1")

    assert "Site: the corner cafe." in call.out
    assert call.record.header.flavours == ("",)


def test_a_story_beside_the_site_is_heard_for_its_machine(tmp_path):
    """The right barrel of three is the third, of Westhaven's two the second."""
    call = Caller(tmp_path, "operator", "westhaven, right barrel wont freeze", *"11111")

    told = [fact for event in call.events(Said) for fact in event.facts]
    assert call.record.header.profile == "two_barrel"
    assert {barrel for fact in told for barrel in fact.which} == {2}
    assert replays(call.record.path)


def test_the_number_of_barrels_makes_it_another_machine_in_the_same_record(tmp_path):
    call = Caller(tmp_path, "operator", "the corner cafe", "2", "1")

    assert call.record.header.profile == "two_barrel"
    assert [event.option for event in call.events(Chose)][:2] == ["operator", "2"]
    assert "Site: the corner cafe." in call.out
    assert replays(call.record.path)


def test_a_number_put_right_later_goes_on_in_a_new_record_and_the_old_one_stays(tmp_path):
    told = ("helpdesk", "the corner cafe", "2", *"11111", "right barrel wont freeze")
    call = Caller(tmp_path, *told, "no its a four barrel", "/stop")

    was, now = sorted(call.records, key=lambda record: bool(record.header.continues))
    assert (was.header.profile, now.header.profile) == ("two_barrel", "four_barrel")
    assert now.header.continues == was.path.name
    assert "It goes on as a new record" in call.out
    assert any(fact.which == (4,) for e in now.entries if isinstance(e.event, Said) for fact in e.event.facts)
    assert now.entries[-1].event == Asked("stop")
    assert all(replays(record.path) for record in call.records)


def test_a_resumed_call_is_still_told_its_site(tmp_path):
    book = tmp_path / "sites.yaml"
    book.write_text(Path(DEMO).read_text(encoding="utf-8"), encoding="utf-8")
    folder = tmp_path / "records"
    Caller(folder, "operator")
    streams = [io.TextIOWrapper(io.BytesIO(data), encoding="utf-8") for data in (b"westhaven\n", b"", b"")]
    run(
        ["resume", "--records", str(folder)],
        World({"BARRELSIDE_SITES": str(book)}, *streams, lambda: NOW, LIVE),
    )

    (path,) = folder.glob("*")
    assert read_record(path).header.profile == "two_barrel"


def test_a_number_told_before_a_break_holds_after_it(tmp_path):
    """The site comes last here: its own machine is another, so only what holds for the site is taken over."""
    Caller(tmp_path, "it's a two barrel", "operator")
    streams = [
        io.TextIOWrapper(io.BytesIO(data), encoding="utf-8")
        for data in (b"marram bay kiosk\nno\n1\n", b"", b"")
    ]
    run(
        ["resume", "--records", str(tmp_path)], World({"BARRELSIDE_SITES": DEMO}, *streams, lambda: NOW, LIVE)
    )

    record = max((read_record(path) for path in tmp_path.glob("*")), key=lambda each: len(each.entries))
    assert (record.header.profile, record.header.flavours) == ("two_barrel", ("",))
    assert ("trade", "seasonal") in record.header.switches
    assert replays(record.path)


def test_a_call_cut_off_before_it_is_told_again_is_told_again_in_place_when_it_goes_on(tmp_path, monkeypatch):
    def cut(*_, **__):
        raise SystemExit

    with monkeypatch.context() as patch, suppress(SystemExit):
        patch.setattr("assistant.reception.retold", cut)
        Caller(tmp_path, "operator", "the corner cafe", "2", "1")
    (path,) = tmp_path.glob("*.jsonl")
    was = read_record(path).header.profile
    resumed = Caller(tmp_path, "1", "1", command="resume")

    assert was == "three_barrel"
    assert resumed.record.header.profile == "two_barrel"
    assert [event.option for event in resumed.events(Chose)][:2] == ["operator", "2"]
    assert replays(path)


def test_a_wrong_book_is_left_out_and_said_so_once(tmp_path):
    book = tmp_path / "sites.yaml"
    book.write_text("sites: {a: {name: A}}", encoding="utf-8")
    call = Caller(tmp_path / "records", "operator", "Westhaven", "3", "1", sites=str(book))

    assert call.code == 0
    assert call.err.count("left out") == 1
    assert call.events(Began)[-1].site == ""


def test_a_book_whose_machine_the_pack_does_not_have_stops_nobody(tmp_path):
    book = tmp_path / "sites.yaml"
    book.write_text("sites: {a: {name: Westhaven, machines: {m: {profile: nine_barrel}}}}", encoding="utf-8")
    call = Caller(tmp_path / "records", "operator", "Westhaven", "3", "1", sites=str(book))

    assert call.code == 0
    assert "nine_barrel" in call.err
    assert replays(call.record.path)


def test_over_json_lines_the_site_is_looked_up_too(tmp_path):
    lines = ('"operator"', '"saltmere"', '{"outcome": "saltmere/downstairs"}', '"4 barrels it has"')
    call = Caller(tmp_path, *lines, more=("--lines",))

    assert call.record.header.profile == "two_barrel"
    assert json.dumps("downstairs machine")[1:-1] in call.out
