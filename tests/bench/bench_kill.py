"""Kill sessions at random moments and count what is lost: `python tests/bench/bench_kill.py [kills] [seed]`."""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path
from random import Random

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from killing import Tally, kill_at_random


def _progress(tally: Tally) -> None:
    """Say now and then how far it is."""
    if tally.kills % 25 == 0:
        seen = f"{tally.kills} kills, {tally.answered} answered, {tally.kept} kept, {len(tally.wrong)} broken"
        print(seen, file=sys.stderr, flush=True)


def main() -> int:
    """Print the tally; 1 if any promise was broken."""
    kills, seed = (*map(int, sys.argv[1:]), *(200, 2026)[len(sys.argv) - 1 :])
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        tally = kill_at_random(Path(folder), kills, Random(seed), _progress)  # noqa: S311 -- not for secrets
    print(
        f"{tally.kills} kills (seed {seed}) in {tally.sessions} sessions, {time.perf_counter() - begun:.0f} s: "
        f"{tally.answered} lines answered before a kill, {tally.kept} kept on disk, {tally.early} killed before "
        f"the first question, {tally.resumed} sessions gone on with at the open question, {tally.torn} torn last "
        f"lines, {len(tally.wrong)} promises broken"
    )
    for wrong in tally.wrong:
        print(wrong)
    return bool(tally.wrong)


if __name__ == "__main__":
    sys.exit(main())
