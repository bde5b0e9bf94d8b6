"""Random walks by hand: `python tests/bench/walk_engine.py 1000000 [parlour|shipped] [first seed]`.

Every step is watched for the hazard rule; the first break, or an exception, ends the run with its seed.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from casts import parlour_case, shipped_case
from hazards import HazardWatch
from walks import walk

STEPS_A_WALK = 100


def main(steps: int, pack: str = "parlour", seed: int = 0) -> None:
    """Walk and print what was seen."""
    case = shipped_case() if pack == "shipped" else parlour_case()
    stages, asked, done, started = Counter(), 0, 0, time.perf_counter()
    while done < steps:
        watch = HazardWatch(case)

        def seen(before, event, after, shown, watch=watch):
            stages[after.stage.value] += 1
            watch(before, event, after, shown)

        try:
            walk(case, seed, STEPS_A_WALK, obliging=(0.7, 0.9, 0.97)[seed % 3], watch=seen)
        except Exception:
            print(f"broke at seed {seed} of pack {pack}")
            raise
        asked, done, seed = asked + watch.asked, done + STEPS_A_WALK, seed + 1
    took = time.perf_counter() - started
    print(
        f"{done} steps, {asked} checks, steps and gates watched, {took:.0f} s, {took / done * 1000:.2f} ms a step"
    )
    print(dict(stages))


if __name__ == "__main__":
    main(int(sys.argv[1]), *sys.argv[2:3], *map(int, sys.argv[3:4]))
