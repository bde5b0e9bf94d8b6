"""Random lines against the real engine: `python tests/bench/bench_lines_fuzz.py [lines] [seed]`.

Every line must be answered by objects of the protocol's schema and nothing may be raised. The book is
kept in memory; the session begins anew every few hundred lines, in each role in turn.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from random import Random

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from fuzzing import fuzz


def main() -> int:
    """Print the counts; an exception ends the run with its traceback, on purpose."""
    count, seed = (*map(int, sys.argv[1:]), *(100_000, 2026)[len(sys.argv) - 1 :])
    begun = time.perf_counter()
    said = fuzz(count, Random(seed))  # noqa: S311 -- not for secrets
    seconds = time.perf_counter() - begun
    print(
        f"{count} random lines (seed {seed}) in {seconds:.0f} s, {1000 * seconds / count:.2f} ms each; answers: "
        f"{json.dumps(said)}"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
