"""The line protocol: what goes in, what comes out, and that nothing upsets it."""

from __future__ import annotations

import io
import json
from random import Random

import jsonschema
import pytest
from event_strategies import effects
from hypothesis import given
from hypothesis import strategies as st
from random_lines import NASTY, random_line
from stand_in import ASKS, FakeClock, ListBook, StandIn, call

from assistant.engine.events import Asked, Began, Chose, Measured, Said
from assistant.facts import Fact
from assistant.lines import LONGEST_LINE, LineTalk, output
from assistant.lines_schema import LINES_SCHEMA
from assistant.session import Desk, opened

VALIDATOR = jsonschema.Draft202012Validator({**LINES_SCHEMA, "anyOf": [{"$ref": "#/$defs/output"}]})
INPUT = jsonschema.Draft202012Validator({**LINES_SCHEMA, "anyOf": [{"$ref": "#/$defs/input"}]})


class Talk:
    """A conversation over lines in memory."""

    def __init__(self, role="operator"):
        self.book = ListBook()
        self.out: list[bytes] = []
        desk = Desk(StandIn(), self.book, FakeClock())
        self.talk = LineTalk(desk, self.out.append)
        self.session = desk.move(opened(StandIn()), Began(role=role))

    def send(self, data: bytes):
        self.session = self.talk.run(self.session, io.BytesIO(data))
        return [json.loads(line) for line in self.out]

    def events(self):
        return [event for _, event, *_ in self.book.pages[1:]]


def sent(value):
    talk = Talk()
    talk.send(json.dumps(value).encode() + b"\n")
    return talk


def error_of(line):
    talk = Talk()
    said = talk.send(line + b"\n")
    assert talk.events() == []
    assert said[-1]["kind"] == "error"
    return said[-1]["text"]


def test_the_open_question_is_shown_whole():
    said = Talk().send(b"")

    assert said == [
        {
            "kind": "ask",
            "about": "check",
            "id": "supply",
            "ref": "K01",
            "text": "What does the supply gauge show?",
            "outcomes": [
                {"id": "low", "ref": "", "label": "too low"},
                {"id": "good", "ref": "", "label": "as it should be"},
                {"id": "unsure", "ref": "", "label": "not sure"},
            ],
            "unit": "psi",
            "gain_bits": 0.5,
            "minutes": 2.0,
            "why": "",
            "place": "beside the cylinder",
            "causes": [{"id": "seal", "ref": "F01", "title": "Worn drip seal", "probability": 0.625}],
            "bits_left": 1.5,
            "stage": "NARROWING",
        }
    ]


@pytest.mark.parametrize(
    ("value", "event"),
    [
        ("it drips", Said("it drips", (Fact("answer", id="drip", value="yes", words="drips"),), "it")),
        ({"text": "70"}, Measured(70.0, "", "", "70")),
        ({"text": "  /why  "}, Asked("why")),
        ({"text": "not sure"}, Chose("unsure", "not sure")),
        ({"text": "\ud800"}, Said("\ufffd", (), "\ufffd")),
        ({"outcome": 2}, Chose("good", "2")),
        ({"outcome": "low"}, Chose("low", "low")),
        ({"reading": 70}, Measured(70.0, "", "", "70")),
        (
            {"reading": 4.8, "unit": "bar", "quantity": "gas_supply"},
            Measured(4.8, "bar", "gas_supply", "4.8 bar"),
        ),
        ({"word": "Back"}, Asked("back")),
        ({"word": "note", "argument": "bring gloves"}, Asked("note", "bring gloves")),
    ],
)
def test_each_request_is_one_event(value, event):
    assert sent(value).events() == [event]
    assert INPUT.is_valid(value)


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        (b"hello", "Line not understood: not JSON at character 1 (Expecting value)."),
        (b"\xff", "Line not understood: byte 1 is not UTF-8."),
        (b"[" * 100_000, "Line not understood: brackets are nested too deep."),
        (b"NaN", "Line not understood: NaN is no JSON number."),
        (b"7" * 5000, "Line not understood: a number has too many digits."),
        (
            b"null",
            'Line not understood: expected text or an object with "text", "outcome", "reading" or "word".',
        ),
        (b"{}", 'Line not understood: expected exactly one of "text", "outcome", "reading", "word".'),
        (
            b'{"text":"a","word":"b"}',
            'Line not understood: expected exactly one of "text", "outcome", "reading", "word".',
        ),
        (b'{"text":"a","unit":"psi"}', 'Line not understood: "unit" does not go with "text".'),
        (b'{"text":7}', 'Line not understood: "text" must be text.'),
        (b'{"text":" "}', 'Line not understood: "text" is empty.'),
        (b'{"text":"' + b"a" * 4001 + b'"}', 'Line not understood: "text" is longer than 4000 characters.'),
        (b'{"outcome":4}', 'Line not understood: "outcome" must be from 1 to 3 here.'),
        (
            b'{"outcome":true}',
            'Line not understood: "outcome" is none of the open question\'s: low, good, unsure.',
        ),
        (
            b'{"outcome":"lo"}',
            'Line not understood: "outcome" is none of the open question\'s: low, good, unsure.',
        ),
        (b'{"reading":"70"}', 'Line not understood: "reading" must be a number.'),
        (b'{"reading":1e999}', 'Line not understood: "reading" is too large.'),
        (b'{"reading":' + b"9" * 400 + b"}", 'Line not understood: "reading" is too large.'),
        (b'{"reading":70,"unit":7}', 'Line not understood: "unit" must be text.'),
        (b'{"word":7}', 'Line not understood: "word" must be text.'),
    ],
)
def test_what_is_no_request_is_answered_in_one_sentence_and_changes_nothing(line, sentence):
    assert error_of(line) == sentence


def test_blank_lines_are_passed_over():
    talk = Talk()

    assert len(talk.send(b"\n  \n\r\n")) == 1


def test_a_line_too_long_is_refused_and_the_next_one_is_taken():
    talk = Talk()
    said = talk.send(b'"' + b"a" * (2 * LONGEST_LINE) + b'"\n{"outcome": 1}\n')

    assert said[1] == {"kind": "error", "text": "A line is longer than 1048576 bytes; send shorter ones."}
    assert talk.events() == [Chose("low", "1")]


def test_after_the_end_lines_are_answered_too():
    talk = Talk()
    said = talk.send(b'{"outcome": 1}\n{"outcome": 1}\n{"outcome": 1}\n"more"\n')

    assert talk.session.closed
    assert talk.events() == [Chose("low", "1"), Chose("yes", "1"), Said("more", (), "more")]
    assert [each["kind"] for each in said[-3:]] == ["closed", "error", "tell"]


def test_the_last_line_needs_no_line_feed():
    talk = Talk()
    talk.send(b'{"outcome": 1}')

    assert talk.session.ask == ASKS[2]


@given(effects, st.text(max_size=10))
def test_every_effect_has_an_object_with_its_text(effect, stage):
    plain = output(effect, stage)

    assert isinstance(plain["text"], str)
    assert plain["kind"] in {"ask", "tell", "warn", "decide", "closed"}


def test_a_whole_session_fits_the_schema():
    talk = Talk(role="")
    said = talk.send(b'1\n"70 psi"\n{"word": "why"}\n{"outcome": 1}\n')
    said = talk.send(b'{"outcome": 1}\n{"outcome": 1}\n') if not talk.session.closed else said

    assert {each["kind"] for each in said} == {"ask", "tell", "warn", "decide", "closed", "error"}
    for each in said:
        VALIDATOR.validate(each)


def test_the_schema_is_a_schema_and_refuses_what_is_none():
    jsonschema.Draft202012Validator.check_schema(dict(LINES_SCHEMA))

    assert not VALIDATOR.is_valid({"kind": "ask"})
    assert not VALIDATOR.is_valid({"kind": "error", "text": "a", "more": 1})
    assert not INPUT.is_valid({"text": "a", "outcome": 1})
    assert not INPUT.is_valid(7)


@pytest.mark.parametrize("line", NASTY)
def test_a_nasty_line_is_taken_or_refused(line):
    talk = Talk()
    before = talk.session

    said = talk.send(line + b"\n")

    assert talk.events() or talk.session == before
    assert all(isinstance(each["text"], str) for each in said)


def test_two_thousand_random_lines_are_each_answered():
    random = Random(2026)  # noqa: S311 -- not for secrets
    talk = Talk()
    for _ in range(2000):
        line = random_line(random)
        before = len(talk.out)
        talk.session = talk.talk.take(talk.session, line)[1] if line.strip() else talk.session

        assert len(talk.out) > before or not line.strip()
        if talk.session.closed:
            talk.session = opened(StandIn())
    for line in talk.out:
        VALIDATOR.validate(json.loads(line))


def test_the_command_speaks_lines_from_start_to_end(tmp_path):
    called = call(
        "talk", "--lines", "--role", "operator", "--records", str(tmp_path), typed='"70 psi"\nnonsense\n'
    )
    said = [json.loads(line) for line in called.out.splitlines()]

    assert (called.code, called.err) == (0, "")
    assert [each["kind"] for each in said] == ["tell", "ask", "tell", "ask", "error", "tell"]
    assert said[0]["topic"] == "record"
    assert said[-1] == {
        "kind": "tell",
        "topic": "kept",
        "id": said[0]["id"],
        "ref": "",
        "text": f"The session is kept. Go on with: barrelside resume {tmp_path / said[0]['id']}.jsonl",
    }
