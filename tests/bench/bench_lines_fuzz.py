"""Random lines against the line protocol: `python tests/bench/bench_lines_fuzz.py [lines] [seed]`.

First with the stand-in conversation, which shows what the protocol alone takes, then with the real engine.
Every line must be answered by objects of the protocol's schema and nothing may be raised.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from random import Random

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from fuzzing import fuzz
from stand_in import StandIn

from assistant.conversation import Setup
from assistant.live import Live


def main() -> int:
    """Print the counts; an exception ends the run with its traceback, on purpose."""
    count, seed = (*map(int, sys.argv[1:]), *(100_000, 2026)[len(sys.argv) - 1 :])
    for name, conversation in (("stand-in", StandIn()), ("real engine", Live.of(Setup()))):
        begun = time.perf_counter()
        said = fuzz(conversation, count, Random(seed))  # noqa: S311 -- not for secrets
        seconds = time.perf_counter() - begun
        each = f"{1000 * seconds / count:.2f} ms each"
        line = f"{name}: {count} random lines (seed {seed}) in {seconds:.0f} s, {each}; answers: {json.dumps(said)}"
        print(line, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
