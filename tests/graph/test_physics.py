"""Laws that every calculation of the registry keeps."""

import math
from dataclasses import FrozenInstanceError

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from graph.errors import GraphError, OutOfRange
from graph.physics import WORKOUTS
from graph.physics.workout import shown
from graph.units import canonical_unit, find_unit

NAMES = sorted(WORKOUTS)
ASKS = [(name, ask) for name in NAMES for ask in WORKOUTS[name].asks]


def middle(name):
    """Return a value for every question: its default, or else somewhere inside its range."""
    told = {
        ask.name: ask.low + (ask.high - ask.low) * 0.3 if ask.default is None else ask.default
        for ask in WORKOUTS[name].asks
    }
    if name == "gas_left":
        told["gross"] = told["tare"] + 5
    if name == "signal_error":
        told["volts"] = 0.5 * told["supply"]
    return told


def answer_or_refusal(name, told):
    """Return the result, or the sentence that refuses the numbers; anything else raised is a bug."""
    try:
        return WORKOUTS[name].solve(**told)
    except GraphError as refused:
        return str(refused)


def test_the_registry_is_sorted_and_named_for_what_it_holds():
    assert list(WORKOUTS) == NAMES
    assert all(WORKOUTS[name].name == name for name in NAMES)


@pytest.mark.parametrize(("name", "ask"), ASKS, ids=lambda part: getattr(part, "name", part))
def test_every_question_is_in_a_canonical_unit_with_its_default_in_range(name, ask):
    assert canonical_unit(ask.unit) == ask.unit
    assert find_unit(ask.unit).name == ask.unit
    assert ask.low < ask.high
    assert ask.default is None or ask.low <= ask.default <= ask.high
    assert len({other.name for other in WORKOUTS[name].asks}) == len(WORKOUTS[name].asks)


@pytest.mark.parametrize("name", NAMES)
def test_every_answer_is_frozen_worded_and_finite(name):
    result = WORKOUTS[name].solve(**middle(name))

    assert math.isfinite(result.value)
    assert result.verdict
    assert all(line.endswith(".") for line in result.lines)
    assert result == WORKOUTS[name].solve(**middle(name))
    with pytest.raises(FrozenInstanceError):
        result.value = 1.0


@pytest.mark.parametrize("name", NAMES)
@settings(deadline=None)
@given(data=st.data())
def test_any_numbers_in_range_end_in_an_answer_or_one_sentence(name, data):
    told = {ask.name: data.draw(st.floats(ask.low, ask.high), ask.name) for ask in WORKOUTS[name].asks}

    said = answer_or_refusal(name, told)

    if isinstance(said, str):
        assert "\n" not in said
        assert said.endswith(".")
    else:
        assert math.isfinite(said.value)


@pytest.mark.parametrize(("name", "ask"), ASKS, ids=lambda part: getattr(part, "name", part))
@pytest.mark.parametrize("bad", ["below", "above", "nan"])
def test_a_number_out_of_range_is_refused_with_the_range(name, ask, bad):
    value = {"below": ask.low - 1, "above": ask.high + 1, "nan": math.nan}[bad]

    with pytest.raises(OutOfRange, match="cannot be used: give"):
        WORKOUTS[name].solve(**{**middle(name), ask.name: value})


@pytest.mark.parametrize("name", NAMES)
def test_a_missing_number_is_asked_for_by_its_label(name):
    needed = [ask for ask in WORKOUTS[name].asks if ask.default is None]
    if not needed:
        assert WORKOUTS[name].solve() == WORKOUTS[name].solve(**middle(name))
        return
    given_ones = {key: value for key, value in middle(name).items() if key != needed[0].name}

    with pytest.raises(OutOfRange, match="needs the") as caught:
        WORKOUTS[name].solve(**given_ones)
    assert needed[0].label in str(caught.value)


def test_an_unknown_number_is_refused_with_the_names_that_are_known():
    with pytest.raises(OutOfRange, match='knows no "hight"; it takes height, temperature, below'):
        WORKOUTS["water_head"].solve(hight=3)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "0"),
        (9.07, "9.07"),
        (1234.56, "1235"),
        (100.0, "100"),
        (-3.25, "-3.25"),
        (1 / 3, "0.3333"),
        (1.2e-4, "0.00012"),
    ],
)
def test_numbers_are_shown_in_plain_digits(value, text):
    assert shown(value) == text
