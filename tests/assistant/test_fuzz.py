"""Random lines against the real engine. A hundred thousand: `tests/bench/bench_lines_fuzz.py`."""

from __future__ import annotations

from random import Random

from fuzzing import fuzz


def test_six_hundred_random_lines_are_all_answered_within_the_schema():
    said = fuzz(600, Random(3))  # noqa: S311 -- not for secrets

    assert {"ask", "tell", "error"} <= set(said)
