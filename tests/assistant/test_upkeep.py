"""Dates of service and installation: what they make of a call, of its end, and of the list of what is due."""

from __future__ import annotations

import io
from datetime import date

import pytest
from casts import Told, shipped_case
from sites_records import NOW, keep

from assistant.cli import run
from assistant.conversation import Setup
from assistant.engine.effects import Closed, Tell
from assistant.engine.events import Began
from assistant.history import Past
from assistant.live import Live
from assistant.place import find_place
from assistant.record import read_record
from assistant.sites import BookInvalid, disagreements, read_book
from assistant.upkeep import Upkeep, booked, upkeep
from assistant.world import World
from graph.load import load_pack

BOOK = """\
sites:
  gull_point:
    name: Gull Point
    machines:
      foyer:
        profile: three_barrel
        installed: "2019-04-02"
        serviced: {water_filter: "2026-05-12", sanitising: "2026-11-20"}
      bar: {profile: two_barrel}
"""
# 2026-05-12 to 2026-11-25 are 197 days, 2019-04-02 to then 2794: counted on a calendar.
AGES = {"installed": 2794.0, "water_filter": 197.0, "sanitising": 5.0}


@pytest.fixture
def book(tmp_path):
    def write(text=BOOK):
        path = tmp_path / "sites.yaml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def past(cause, days, outcome="cured", pack="frozen_drinks"):
    return Past("a", pack, NOW, days, outcome, (cause,), (cause,), found=True)


def called(tmp_path, path, *arguments):
    """Return what the command printed, run on the day of NOW, and the first line of its newest record."""
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(3)]
    more = ("--sites", str(path), "--records", str(tmp_path / "records"))
    code = run([*arguments, *more], World({}, *streams, lambda: NOW))
    assert (code, streams[2].buffer.getvalue()) == (0, b"")
    return streams[1].buffer.getvalue().decode()


def record_of(tmp_path):
    (path,) = (tmp_path / "records").glob("*.jsonl")
    return read_record(path)


# -- how long ago ----------------------------------------------------------------------------------


def test_dates_of_the_book_are_ages_in_days(book):
    foyer = read_book(book()).sites["gull_point"].machines["foyer"]

    assert booked(foyer, NOW.date()) == AGES
    assert booked(foyer, date(2019, 1, 1))["installed"] == 0.0


def test_dates_become_switches_and_ages_of_service_in_pack_order():
    found = upkeep(shipped_case().machine, AGES, ())

    assert dict(found.switches) == {"filter_age": "over_6_months", "machine_age": "over_7_years"}
    assert found.serviced == (("sanitising", 5.0), ("water_filter", 197.0))


@pytest.mark.parametrize(
    ("serviced", "value"),
    [
        ({"front_parts": 3.0, "brix": 40.0}, "within_a_week"),
        ({"brix": 8.0}, None),  # that is how the machine is set anyway
        ({"sanitising": 3.0, "condenser_filter": 1.0}, None),  # an operator may have done it
        ({"wipe_down": 0.0, "gas_alarm": 7.0}, "within_a_week"),
    ],
)
def test_the_last_visit_follows_from_the_service_that_only_a_trade_does(serviced, value):
    found = upkeep(shipped_case().machine, serviced, ())

    assert dict(found.switches).get("last_service") == value


def test_a_switch_that_stands_so_already_is_not_named():
    machine = Live.of(Setup(switches=(("machine_age", "over_7_years"),))).machine

    assert "machine_age" not in dict(upkeep(machine, AGES, ()).switches)


@pytest.mark.parametrize(
    ("session", "days"),
    [
        (past("site_water.filter.blocked", 20.0), 20.0),
        (past("site_water.filter.blocked", 300.0), 197.0),  # the book is later
        (past("site_water.filter.blocked", 20.0, "visit"), 197.0),
        (past("site_water.filter.blocked", 20.0, pack="other"), 197.0),
        (past("gas_supply.cylinder.empty", 20.0), 197.0),
    ],
)
def test_a_session_that_was_cured_by_it_counts_as_service(session, days):
    found = upkeep(shipped_case().machine, AGES, (session,))

    assert dict(found.serviced)["water_filter"] == days


def test_without_dates_nothing_is_said():
    assert upkeep(shipped_case().machine, {}, ()) == Upkeep()


# -- a call from a site ----------------------------------------------------------------------------


def test_the_age_of_the_machine_sets_its_switch_and_the_overdue_filter_is_said_at_once(book, tmp_path):
    out = called(tmp_path, book(), "talk", "--site", "gull point", "--unit", "foyer", "--role", "operator")
    record = record_of(tmp_path)

    assert dict(record.header.switches) == {"filter_age": "over_6_months", "machine_age": "over_7_years"}
    assert "Overdue on this machine: water filter cartridge (by 14 days)." in out
    assert record.entries[0].event.serviced == (("sanitising", 5.0), ("water_filter", 197.0))


def test_an_old_machine_has_worn_seals_more_often(book, tmp_path):
    """The factor is the pack's own: 1.5 on the rate of a worn tap seal."""
    called(tmp_path, book(), "talk", "--site", "gull point", "--unit", "foyer")
    header = record_of(tmp_path).header
    aged = Live.of(Setup(profile=header.profile, switches=header.switches)).case
    plain = Live.of(Setup(profile=header.profile)).case

    assert (
        aged.fault("dispensing.tap.seal_worn@1").rate == 1.5 * plain.fault("dispensing.tap.seal_worn@1").rate
    )


@pytest.mark.parametrize(
    ("text", "arguments"),
    [
        (BOOK, ("--switch", "machine_age=under_7_years")),
        (BOOK.replace("installed:", "switches: {machine_age: under_7_years}\n        installed:"), ()),
    ],
    ids=["by hand", "in the book"],
)
def test_what_is_said_of_the_age_goes_before_the_date(book, tmp_path, text, arguments):
    called(tmp_path, book(text), "talk", "--site", "gull point", "--unit", "foyer", *arguments)

    assert dict(record_of(tmp_path).header.switches)["machine_age"] == "under_7_years"


def test_a_machine_without_dates_is_told_nothing_of_service(book, tmp_path):
    out = called(tmp_path, book(), "talk", "--site", "gull point", "--unit", "bar")

    assert "verdue" not in out
    assert record_of(tmp_path).header.switches == ()


def test_a_date_of_something_that_is_no_service_is_remarked_upon_and_the_call_goes_on(book, tmp_path):
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(3)]
    path = book(BOOK.replace("water_filter", "water_filtre"))
    more = ("--unit", "foyer", "--sites", str(path), "--records", str(tmp_path / "records"))

    code = run(["talk", "--site", "gull point", *more], World({}, *streams, lambda: NOW))

    assert code == 0
    assert "dates water_filtre, which is no service here" in streams[2].buffer.getvalue().decode()
    assert record_of(tmp_path).entries[0].event.serviced == (("sanitising", 5.0),)


def test_a_machine_that_is_not_in_the_book_has_no_dates(book):
    place = find_place(read_book(book()), "gull point", "yard", profile="two_barrel")

    assert place.machine is None


# -- the end of a session --------------------------------------------------------------------------


def ended(*serviced):
    told = Told(shipped_case()).event(Began(site="Gull Point", role="helpdesk", serviced=serviced))
    (closed,) = (each for each in told.word("stop").shown if isinstance(each, Closed))
    return told, closed.text


@pytest.mark.parametrize(
    ("serviced", "words"),
    [
        (
            (("water_filter", 197.0), ("brix", 1.0)),
            "Next service: water filter cartridge is overdue by 14 days.",
        ),
        ((("water_filter", 100.0), ("brix", 1.0)), "Next service: brix of every flavour is due in 29 days."),
        ((("sanitising", 20.0),), "Next service: sanitise barrels and lines is due now."),
    ],
)
def test_the_last_words_say_what_service_comes_next(serviced, words):
    assert ended(*serviced)[1].endswith(words)


def test_the_last_words_are_silent_where_no_date_is_known():
    told, text = ended()

    assert "service" not in text
    assert not [each for each in told.shown if isinstance(each, Tell) and each.topic == "service"]


# -- the list --------------------------------------------------------------------------------------


def test_what_is_due_is_listed_machine_by_machine_with_its_day(book, tmp_path):
    text = BOOK.replace("sanitising:", 'condenser_coil: "2026-09-01", sanitising:')

    assert called(tmp_path, book(text), "sites", "due").splitlines() == [
        "Gull Point, foyer",
        "  OVERDUE   2026-11-11  Water filter cartridge, by 14 days",  # 183 days after 12 May
        "  ahead     2026-12-01  Clean the condenser coil",
        "  ahead     2026-12-04  Sanitise barrels and lines",
        "  no date   10 pieces",
        "Gull Point, bar",
        "  no date   13 pieces",
        "1 piece of service overdue on 1 machine.",
    ]


def test_a_repair_that_was_recorded_takes_it_off_the_list(book, tmp_path):
    (tmp_path / "records").mkdir()
    keep(tmp_path / "records", 3, site="Gull Point", unit="foyer", cause="site_water.filter.blocked")

    lines = called(tmp_path, book(), "sites", "due").splitlines()

    assert lines[-1] == "Nothing dated is overdue."
    assert not [line for line in lines if "Water filter" in line]


def test_what_has_no_date_is_named_when_all_is_asked_for(book, tmp_path):
    out = called(tmp_path, book(), "sites", "due", "--all")

    assert "no date   wipe_down, condenser_filter, brix" in out
    assert max(map(len, out.splitlines())) <= 80


def test_a_book_that_does_not_agree_with_the_pack_is_no_list_but_a_sentence(book):
    path = book(BOOK.replace("water_filter", "water_filtre"))
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(3)]

    code = run(["sites", "due", "--sites", str(path)], World({}, *streams, lambda: NOW))

    assert (code, streams[1].buffer.getvalue()) == (2, b"")
    assert f"{path}:8" in streams[2].buffer.getvalue().decode()


# -- what a book may say ---------------------------------------------------------------------------


def test_a_date_of_service_that_is_none_is_told_with_its_line(book):
    with pytest.raises(BookInvalid) as caught:
        read_book(book(BOOK.replace("2026-11-20", "last week")))

    (problem,) = caught.value.problems
    assert (problem.line, problem.path) == (8, "sites.gull_point.machines.foyer.serviced.sanitising")
    assert problem.what == '"last week" is no date.'


def test_service_that_the_pack_does_not_know_is_told_with_its_line(book):
    (problem,) = disagreements(book(BOOK.replace("water_filter", "water_filtre")), load_pack("frozen_drinks"))

    assert (problem.line, problem.what) == (8, '"water_filtre" is no piece of service.')
    assert problem.remedy == 'Did you mean "water_filter"?'
