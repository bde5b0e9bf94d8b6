"""Random lines against the real engine. A hundred thousand: `tests/bench/bench_lines_fuzz.py`."""

from __future__ import annotations

from random import Random

from fuzzing import fuzz
from stand_in import StandIn

from assistant.conversation import Setup
from assistant.live import Live


def test_four_hundred_random_lines_are_all_answered_within_the_schema():
    said = fuzz(Live.of(Setup()), 400, Random(3))  # noqa: S311 -- not for secrets

    assert {"ask", "tell", "error"} <= set(said)


def test_the_protocol_alone_answers_three_thousand():
    said = fuzz(StandIn(), 3000, Random(4))  # noqa: S311 -- not for secrets

    assert {"ask", "tell", "error", "warn", "decide", "closed"} <= set(said)
