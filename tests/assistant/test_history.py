"""What earlier sessions about a machine say of the next: which count, what they change, that it replays."""

from __future__ import annotations

import io
import json
from dataclasses import replace
from datetime import timedelta
from functools import cache
from pathlib import Path

import pytest
from casts import Told, shipped_case
from sites_records import NOW, keep

from assistant.cli import run
from assistant.engine.effects import Ask, Closed, Tell
from assistant.engine.events import Began, Chose, Said
from assistant.history import Past, Repetition, about, folded, headings, past_sessions, repetition
from assistant.record import read_record
from assistant.sites_wording import ago, ordinal, past_line, recurred, repeated
from assistant.world import World, live
from graph.machine import Recurrence, Repeat

GAS = "gas_supply.cylinder.empty"
LEAK = "gas_supply.site_line.leaking"
PACK = "frozen_drinks"
LIVE = cache(live)


def past(cause="", days=1.0, outcome="cured", *, pack=PACK, found=None):
    causes = (cause,) if cause else ()
    known = outcome.startswith("cured") if found is None else found
    return Past("a", pack, NOW - timedelta(days=days), days, outcome, causes, causes, known)


def machine_with(*repeats, recurrence=None):
    return replace(shipped_case().machine, repeats=repeats, recurrence=recurrence)


def rule(**more):
    usual = {
        "id": "again",
        "ref": "",
        "title": "again",
        "of": (GAS,),
        "unfound": False,
        "days": 30.0,
        "count": 2,
        "suspects": {LEAK: 4.0},
        "settles": ("scope.happened_before",),
        "say": "{count} in {days}, this is the {nth}",
        "source": "estimate",
    }
    return Repeat(**(usual | more))


def of(records, site="Westhaven", unit="left", now=NOW):
    return tuple(past_sessions(about(headings(records), (site,), (unit,)), now))


# -- which sessions there were


def test_a_session_counts_for_the_site_and_machine_it_was_begun_for(tmp_path):
    keep(tmp_path, 3, cause=GAS, site="Westhaven", unit="left")
    keep(tmp_path, 4, cause=GAS, site="Westhaven", unit="right")
    keep(tmp_path, 5, cause=GAS, site="Gullsand", unit="left")

    (found,) = of(tmp_path)

    assert (found.outcome, found.causes, found.found) == ("cured", (GAS,), True)
    assert found.days == pytest.approx(3.0)


def test_letter_case_and_spacing_of_names_do_not_count(tmp_path):
    keep(tmp_path, 3, cause=GAS, site="WEST  haven", unit="Left")

    assert len(of(tmp_path, "west haven", "left")) == 1
    assert folded(" Old_Quay ") == folded("old  quay")


def test_sessions_come_newest_first(tmp_path):
    for days in (9, 2, 5):
        keep(tmp_path, days, cause=GAS)

    assert [round(each.days) for each in of(tmp_path)] == [2, 5, 9]


def test_what_was_confirmed_afterwards_goes_before_what_the_session_closed_with(tmp_path):
    keep(tmp_path, 3, outcome="visit", cause=GAS, confirmed=f"{LEAK}, people.restart.forgotten@2")

    (found,) = of(tmp_path)

    assert (found.causes, found.found) == ((LEAK, "people.restart.forgotten@2"), True)


@pytest.mark.parametrize(
    ("outcome", "causes", "found"),
    [
        ("cured", (GAS,), True),
        ("cured_for_now", (GAS,), True),
        ("visit", (GAS,), False),
        ("referred", (GAS,), False),
        ("stopped", (), False),
        ("made_safe", (), False),
        ("", (), False),
    ],
)
def test_a_cause_is_found_when_cured_suspected_when_sent_and_none_when_left(tmp_path, outcome, causes, found):
    keep(tmp_path, 3, outcome=outcome, cause=GAS)

    (past_one,) = of(tmp_path)

    assert (past_one.outcome, past_one.causes, past_one.found) == (outcome, causes, found)


def test_a_session_that_went_on_in_a_newer_record_counts_there_only(tmp_path):
    old = keep(tmp_path, 3, outcome="stopped")
    keep(tmp_path, 2, cause=GAS, continues=old.name)

    assert [each.causes for each in of(tmp_path)] == [(GAS,)]


def test_a_site_told_in_words_when_it_was_asked_for_counts(tmp_path):
    asked = (Ask("intake", "site", "", "Which site?", ()),)
    entries = ((Began(role="operator"), asked), (Said("west haven"), (Closed("cured", GAS, "", ""),)))
    keep(tmp_path, 3, entries=entries)

    assert [each.causes for each in of(tmp_path, "West Haven", "")] == [(GAS,)]


def test_damaged_records_and_other_files_are_passed_over(tmp_path):
    keep(tmp_path, 3, cause=GAS)
    (tmp_path / "a.jsonl").write_bytes(b"")
    (tmp_path / "b.jsonl").write_bytes(b"\x00\xff no record\n{}\n")
    (tmp_path / "c.jsonl").write_bytes(b"[1, 2]\n3\n")
    (tmp_path / "d.jsonl").mkdir()
    broken = keep(tmp_path, 4, cause=GAS)
    broken.write_bytes(broken.read_bytes() + b"rubbish\nmore rubbish\n")

    assert len(of(tmp_path)) == 1


def test_a_session_from_the_future_or_without_a_time_does_not_count(tmp_path):
    keep(tmp_path, -2, cause=GAS)
    keep(tmp_path, 2, cause=GAS, started="some day")

    assert of(tmp_path) == ()


def test_where_no_records_are_there_is_no_past(tmp_path):
    assert of(tmp_path / "none") == ()


# -- what the rules make of them


def test_a_rule_holds_from_its_count_on():
    machine = machine_with(rule())

    assert repetition(machine, [past(GAS)]) == Repetition()
    assert repetition(machine, [past(GAS), past(GAS, 20)]) == Repetition(
        ((LEAK, 4.0),), ("2 in 30, this is the third",), ("scope.happened_before",)
    )


@pytest.mark.parametrize(
    "second",
    [past(GAS, 31), past(LEAK), past("", 2, "not_found"), past("", 2, "stopped"), past(GAS, pack="other")],
)
def test_what_is_too_old_or_about_something_else_does_not_count(second):
    assert repetition(machine_with(rule()), [past(GAS), second]) == Repetition()


def test_calls_that_ended_without_a_cause_count_where_a_rule_says_so():
    machine = machine_with(rule(unfound=True))

    assert repetition(machine, [past(GAS), past("", 2, "not_found")]).said


def test_a_suspicion_counts_for_a_rule_but_not_as_a_cause_that_was_found():
    machine = machine_with(rule(), recurrence=Recurrence(14.0, 3.0, "{fault} {ago}", "estimate"))

    found = repetition(machine, [past(GAS, 1, "visit"), past(GAS, 2, "referred")])

    assert found.factors == ((LEAK, 4.0),)


def test_what_was_found_within_14_days_has_three_times_its_rate():
    """Once, however often it was found; the last time is told."""
    machine = machine_with(recurrence=shipped_case().machine.recurrence)
    title = shipped_case().fault(GAS).title

    found = repetition(machine, [past(GAS, 3.5), past(GAS, 9), past(LEAK, 15)])

    assert found.factors == ((GAS, 3.0),)
    assert found.said == (f"This was the cause here 3 days ago: {title}. It counts as likelier than usual.",)


def test_factors_of_several_rules_multiply():
    twice = rule(id="other", suspects={LEAK: 2.0, GAS: 1.5})
    machine = machine_with(rule(), twice, recurrence=Recurrence(14.0, 3.0, "", "estimate"))

    assert dict(repetition(machine, [past(GAS), past(GAS)]).factors) == {LEAK: 8.0, GAS: 4.5}


def test_a_cause_that_this_machine_does_not_have_changes_nothing():
    machine = machine_with(recurrence=Recurrence(14.0, 3.0, "", "estimate"))

    assert repetition(machine, [past("barrel.barrel.frozen_solid@4")]) == Repetition()


@pytest.mark.parametrize(
    ("causes", "suspect"),
    [
        ((GAS, GAS), LEAK),
        (("gas_supply.bulk_vessel.low", LEAK), "gas_supply.pigtail.leaking"),
        (("site_power.breaker.tripped",), "electrics.mains_wiring.wet"),
        (("sensors.sensor.dead_low@syrup2",), "sensors.plug_at_sensor.loose@syrup2"),
        (("sensors.lead.core_broken@barrel1",), "sensors.plug_at_sensor.wet@barrel1"),
        (("syrup.bag.empty@2", "syrup.line.air_not_purged@2"), "syrup.suction_tube.air_leak@2"),
        (("refrigeration.start_gear.failed",), "site_power.mains_supply.low_voltage"),
        (("refrigeration.charge.low",), "refrigeration.charge.low"),
        (("barrel.barrel.frozen_solid@1",), "blending.ratio_adjuster.lean@1"),
        (("site_water.filter.blocked",), "machine_water.strainer.clogged"),
    ],
)
def test_the_shipped_pack_looks_behind_what_comes_back(causes, suspect):
    profile = "four_barrel" if "gas_supply.bulk_vessel.low" in causes else "three_barrel"
    found = repetition(shipped_case(profile).machine, [past(cause, 13.0) for cause in causes])

    assert dict(found.factors)[suspect] > 1.0
    assert all("{" not in sentence for sentence in found.said)


def test_another_barrel_s_trouble_raises_nothing_on_this_one():
    found = repetition(shipped_case().machine, [past("barrel.barrel.frozen_solid@1", 20.0)])

    assert "blending.ratio_adjuster.lean@2" not in dict(found.factors)


# -- what is said


def test_places_in_a_row_are_words():
    assert [ordinal(number) for number in (1, 3, 10, 11, 12, 13, 21, 22, 23, 24, 111)] == [
        *("first", "third", "tenth", "11th", "12th", "13th", "21st", "22nd", "23rd", "24th", "111th")
    ]


def test_how_long_ago_is_told_in_whole_days():
    assert [ago(days) for days in (0.4, 1.0, 1.9, 2.0)] == [
        *("less than a day ago", "a day ago", "a day ago", "2 days ago")
    ]


def test_the_pack_s_sentences_are_filled_in():
    assert repeated("{count} of {days}: {nth}, {other}", 2, 30.0) == "2 of 30: third, {other}"
    assert recurred("{fault}, {ago}", "Gas cylinder empty", 5.2) == "Gas cylinder empty, 5 days ago"


def test_a_suspicion_is_listed_as_one():
    assert past_line(past(GAS, outcome="visit")).endswith(f"visit: probably {GAS}")
    assert past_line(past(GAS)).endswith(f"cured: {GAS}")
    assert past_line(past(outcome="")).endswith("open")


# -- in the conversation


def test_the_intake_tells_every_repeat_and_asks_no_more_for_the_same_history():
    told = Told(shipped_case()).began(
        "helpdesk", repeats=("Third gas loss.", "Look."), known=("scope.happened_before", "nowhere")
    )

    assert [each.text for each in told.shown if isinstance(each, Tell) and each.topic == "repeat"] == [
        "Third gas loss.",
        "Look.",
    ]
    assert told.state.known == ("scope.happened_before",)
    assert "scope.happened_before" in told.state.settled


def test_what_history_answers_stays_answered_across_a_handover():
    told = Told(shipped_case()).began("helpdesk", known=("scope.happened_before",))

    assert "scope.happened_before" in told.word("handover", "technician").state.settled


# -- the whole way


def call(*arguments, typed="", now=NOW):
    streams = [io.TextIOWrapper(io.BytesIO(data), encoding="utf-8") for data in (typed.encode(), b"", b"")]
    code = run([*arguments], World({}, *streams, lambda: now, LIVE))
    return code, *(stream.buffer.getvalue().decode() for stream in streams[1:])


@pytest.fixture(scope="module")
def third(tmp_path_factory):
    """Return the folder and the record of a call after two gas losses."""
    folder = tmp_path_factory.mktemp("records")
    keep(folder, 20, cause=GAS)
    keep(folder, 6, cause=GAS, outcome="visit")
    code, out, err = call(
        *("talk", "--site", "westhaven", "--unit", "left", "--role", "helpdesk", "--records", str(folder))
    )
    assert (code, err) == (0, "")
    return folder, max(folder.glob("*.jsonl")), out


def test_the_third_gas_loss_in_30_days_is_told_recorded_and_weighed(third):
    _, path, out = third
    record = read_record(path)

    assert "look for a leak" in " ".join(out.split())
    assert record.entries[0].event.repeats == tuple(
        each.text for each in record.entries[0].shown if isinstance(each, Tell) and each.topic == "repeat"
    )
    assert dict(record.header.factors)[LEAK] == shipped_case().machine.repeats[0].suspects[LEAK]


def test_the_posterior_of_a_leak_is_higher_after_two_gas_losses(third):
    from assistant.start import setup_for  # noqa: PLC0415 -- what resume and replay do

    case = LIVE(setup_for(read_record(third[1]).header, "")).case
    plain = shipped_case()
    told = (plain.answer("warning.gas_low", "present", "operator"),)

    assert case.believe(told).cause(LEAK) > 2 * plain.believe(told).cause(LEAK)


def test_it_replays_to_the_letter_and_resumes_although_the_past_has_gone(third, tmp_path):
    """The header carries the factors, so nothing depends on the other records any more."""
    alone = tmp_path / third[1].name
    alone.write_bytes(third[1].read_bytes())
    more = ("--records", str(tmp_path))

    assert call("replay", alone.stem, *more)[0] == 0
    assert call("resume", alone.stem, *more, typed="1\n/causes\n")[0] == 0
    assert read_record(alone).header.factors == read_record(third[1]).header.factors
    assert call("replay", alone.stem, *more)[0] == 0


def test_a_first_call_has_no_factors(tmp_path):
    call("talk", "--site", "westhaven", "--role", "helpdesk", "--records", str(tmp_path))
    (path,) = tmp_path.glob("*.jsonl")

    assert read_record(path).header.factors == ()
    assert b"factors" not in path.read_bytes().split(b"\n")[0]


def test_a_site_s_own_costs_travel_in_the_header(tmp_path):
    book = tmp_path / "sites.yaml"
    book.write_text(
        "sites: {a: {name: A, costs: {visit: 140}, machines: {m: {profile: three_barrel}}}}", encoding="utf-8"
    )
    call(
        *("talk", "--site", "a", "--sites", str(book), "--role", "operator", "--records", str(tmp_path / "r"))
    )
    (path,) = (tmp_path / "r").glob("*.jsonl")

    assert json.loads(path.read_bytes().split(b"\n")[0])["costs"] == [["visit", 140.0]]
    assert call("replay", path.stem, "--records", str(tmp_path / "r"))[0] == 0


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("factors", [[GAS, -1.0]], "must be a number above 0"),
        ("factors", [[GAS]], "expected 2 values, found 1"),
        ("factors", [[GAS, "much"]], "expected a number"),
        ("costs", [["vist", 1.0]], 'no cost "vist: 1.0"'),
    ],
)
def test_a_header_with_a_wrong_factor_or_cost_is_refused_in_one_sentence(
    third, tmp_path, field, value, sentence
):
    head, rest = third[1].read_bytes().split(b"\n", 1)
    path = Path(tmp_path / "a.jsonl")
    path.write_bytes(json.dumps(json.loads(head) | {field: value}).encode() + b"\n" + rest)

    code, out, err = call("replay", str(path))

    assert (code, out) == (1, "")
    assert sentence in err
    assert err.count("\n") == 1


def test_going_on_under_another_machine_s_faults_ignores_factors_that_fit_nothing(third, tmp_path):
    head, rest = third[1].read_bytes().split(b"\n", 1)
    path = Path(tmp_path / "a.jsonl")
    path.write_bytes(
        json.dumps(json.loads(head) | {"factors": [["gone.since", 2.0]]}).encode() + b"\n" + rest
    )

    assert call("replay", str(path))[0] == 0


def test_the_own_records_of_a_person_who_chose_another_word_are_still_events(tmp_path):
    """A record whose first event is no `Began` has no machine, so it is nobody's past."""
    keep(tmp_path, 3, entries=((Chose("yes"), (Closed("cured", GAS, "", ""),)),))

    assert of(tmp_path) == ()
