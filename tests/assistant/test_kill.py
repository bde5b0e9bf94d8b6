"""A pulled plug loses no answer. Two hundred kills: `tests/bench/bench_kill.py`."""

from __future__ import annotations

from random import Random

from killing import kill_at_random


def test_five_kills_lose_no_answered_line(tmp_path):
    tally = kill_at_random(tmp_path, 5, Random(7))  # noqa: S311 -- not for secrets

    assert tally.wrong == []
    assert tally.kills == 5
    assert tally.answered > 0
    assert tally.kept >= tally.answered
