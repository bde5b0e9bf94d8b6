"""The recorded sessions of `demo_sessions/`: they replay to the letter, and each found its true cause.

`python tests/make_demos.py` plays them anew after a change of the engine, the pack or the hearing; what
that changes in the transcripts is to be read like code.
"""

from __future__ import annotations

import json

import pytest
from demo_play import live, play
from demo_scenario import DEMOS, UNKNOWN, scenarios

from assistant.engine.effects import Decide
from assistant.layout import WIDTH
from assistant.record import read_record
from assistant.replay import replay
from assistant.session import end_of
from assistant.start import setup_for
from assistant.transcript import transcript

HEAD = 4  # lines of names as they are: when, which machine, the cause, who
RECORDS = sorted(DEMOS.glob("*.jsonl"))
SCENARIOS = scenarios()
NAMES = [scenario.name for scenario in SCENARIOS]


def effects(record, kind):
    return [effect for entry in record.entries for effect in entry.shown if isinstance(effect, kind)]


def rounded(value):
    """Return plain values with floats to nine digits: the last bits are the hardware's."""
    if isinstance(value, float):
        return float(f"{value:.9g}")
    if isinstance(value, dict):
        return {key: rounded(each) for key, each in value.items()}
    return [rounded(each) for each in value] if isinstance(value, list) else value


def plain(data):
    return [rounded(json.loads(line)) for line in data.splitlines()]


def test_every_scenario_has_its_record_and_its_text_and_there_are_no_others():
    kept = {path.name for path in DEMOS.iterdir() if path.suffix in {".jsonl", ".txt"}}

    assert kept == {f"{name}{suffix}" for name in NAMES for suffix in (".jsonl", ".txt")}
    assert len(NAMES) >= 10


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_a_record_replays_to_the_letter(path):
    record = read_record(path)
    conversation = live(setup_for(record.header, ""))
    again = replay(conversation, record)

    assert record.header.digest == conversation.machine.digest
    assert not record.remarks
    assert [line for difference in again.differences for line in difference.lines()] == []
    assert again.session.closed


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_a_text_is_what_show_prints_and_keeps_to_eighty_columns(path):
    text = path.with_suffix(".txt").read_text(encoding="utf-8")

    assert text == transcript(read_record(path)) + "\n"
    assert [line for line in text.split("\n")[HEAD:] if len(line) > WIDTH] == []


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_a_session_found_its_true_cause(path):
    record = read_record(path)
    causes = tuple(filter(None, record.header.cause.split(", ")))
    end = end_of(record)
    case = live(setup_for(record.header, "")).case
    decided = [decide.remedy for decide in effects(record, Decide)]

    if causes == (UNKNOWN,):
        assert (end.outcome, effects(record, Decide)[-1].kind) == ("not_found", "not_in_graph")
    else:
        assert end.cause == causes[-1]
        assert {case.fault(cause).remedy for cause in causes} <= set(decided)


@pytest.mark.parametrize("scenario", SCENARIOS, ids=NAMES)
def test_a_scenario_plays_the_same_session_again(scenario):
    played = play(scenario, read_record(scenario.record).header.program)

    assert played.text == scenario.text.read_text(encoding="utf-8")
    assert plain(played.record) == plain(scenario.record.read_bytes())


def test_all_play_at_pier_lantern_cinemas():
    assert {scenario.began.site.split(",")[0] for scenario in SCENARIOS} == {"Pier Lantern Cinemas"}
    assert {scenario.setup.profile for scenario in SCENARIOS} == {"two_barrel", "three_barrel", "four_barrel"}
