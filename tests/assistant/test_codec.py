"""Events and effects as JSON and back; what is not ours is refused by name and place."""

from __future__ import annotations

import math
from typing import get_args

import pytest

from assistant.codec import EFFECTS, EVENTS, decode_effect, decode_event, encode
from assistant.engine import effects, events
from assistant.engine.effects import Ask, Option, Tell
from assistant.engine.events import Asked, Began, Measured, Said
from assistant.errors import CodecError
from assistant.facts import Fact, Kind


def test_every_event_and_effect_of_the_engine_is_known():
    assert set(EVENTS.values()) == set(events.Event.__args__)
    assert set(EFFECTS.values()) == set(effects.Effect.__args__)


def test_a_field_at_its_default_is_left_out():
    assert encode(Said("it drips")) == {"type": "Said", "text": "it drips"}
    assert encode(Began(trained=True)) == {"type": "Began", "trained": True}


def test_facts_stand_inside_what_was_said():
    event = Said("70 psi", (Fact("reading", id="supply", value="70", unit="psi", which=(1, 2)),))

    plain = encode(event)

    assert plain["facts"] == [
        {"kind": "reading", "id": "supply", "value": "70", "unit": "psi", "which": [1, 2]}
    ]
    assert decode_event(plain) == event


def test_a_whole_number_is_taken_for_a_float():
    event = decode_event({"type": "Measured", "value": 70})

    assert event == Measured(70.0)
    assert isinstance(event, Measured)
    assert isinstance(event.value, float)


@pytest.mark.parametrize("value", [math.inf, -math.inf, -0.0, 5e-324, 1.7976931348623157e308])
def test_floats_at_the_edges_come_back(value):
    back = decode_event(encode(Measured(value)))

    assert isinstance(back, Measured)
    assert math.copysign(1, back.value) == math.copysign(1, value)
    assert back.value == value


def test_not_a_number_comes_back_as_such():
    back = decode_event(encode(Measured(math.nan)))

    assert isinstance(back, Measured)
    assert math.isnan(back.value)


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (None, "event: expected an object, found null."),
        ([], "event: expected an object, found a list."),
        ({}, 'event.type: expected one of Began, Said, Chose, Measured, Asked, found "None".'),
        (
            {"type": ["Said"]},
            "event.type: expected one of Began, Said, Chose, Measured, Asked, found \"['Said']\".",
        ),
        ({"type": "Ask"}, 'event.type: expected one of Began, Said, Chose, Measured, Asked, found "Ask".'),
        ({"type": "Said"}, 'event: the field "text" of Said is missing.'),
        ({"type": "Said", "text": "a", "mood": "b"}, 'event: "mood" is no field of Said.'),
        ({"type": "Said", "text": 3}, "event.text: expected str, found a number."),
        ({"type": "Said", "text": "a", "facts": "b"}, "event.facts: expected a list, found text."),
        (
            {"type": "Said", "text": "a", "facts": [{"kind": "rumour"}]},
            f'event.facts[0].kind: "rumour" is none of {", ".join(get_args(Kind))}.',
        ),
        (
            {"type": "Said", "text": "a", "facts": [{"kind": "yes", "which": [True]}]},
            "event.facts[0].which[0]: expected int, found true or false.",
        ),
        ({"type": "Measured", "value": "70"}, "event.value: expected a number, found text."),
        ({"type": "Measured", "value": True}, "event.value: expected a number, found true or false."),
        ({"type": "Measured", "value": 10**400}, "event.value: the number is too large."),
        ({"type": "Began", "trained": 1}, "event.trained: expected bool, found a number."),
    ],
)
def test_what_is_no_event_is_refused_with_its_place(data, sentence):
    with pytest.raises(CodecError) as caught:
        decode_event(data)

    assert str(caught.value) == sentence


def test_an_effect_may_hold_null_where_the_type_says_so():
    ask = Ask("check", "k", "K1", "Well?", (Option("yes", "Yes"),), bits=0.5)

    assert decode_effect(encode(ask)) == ask
    assert decode_effect(encode(ask) | {"bits": None}) == Ask(
        "check", "k", "K1", "Well?", (Option("yes", "Yes"),)
    )


def test_an_event_is_no_effect():
    with pytest.raises(CodecError, match=r"shown\.type: expected one of Ask, Tell, Warn, Decide, Closed"):
        decode_effect(encode(Asked("why")))

    assert decode_effect(encode(Tell("why", "because"))) == Tell("why", "because")
