"""Time from the start of the command to its first question: `python tests/bench/bench_startup.py [runs]`.

The line protocol is used, because its first question can be waited for byte by byte; the prompt of a real
terminal adds prompt-toolkit, whose import is timed by itself. The pack's compiled form is in the cache by
the second run. Modules that must not be needed by then are listed if they are there.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
HEAVY = ("networkx", "yaml", "pydantic", "jinja2", "rich")
SPY = (
    "import sys, atexit\n"
    f"atexit.register(lambda: print([n for n in {HEAVY!r} if n in sys.modules], file=sys.stderr))\n"
    "from assistant.cli import main\nmain()"
)


def first_question(folder: str) -> float:
    """Return the seconds until the first question is on standard output."""
    command = [sys.executable, "-m", "assistant", "talk", "--lines", "--records", folder]
    begun = time.perf_counter()
    with subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:  # noqa: S603 -- ours
        for line in process.stdout:
            if json.loads(line)["kind"] == "ask":
                break
        seconds = time.perf_counter() - begun
        process.communicate(b"")
    return seconds


def timed(*command: str) -> float:
    """Return the seconds that a command takes."""
    begun = time.perf_counter()
    subprocess.run([sys.executable, *command], cwd=ROOT, check=True, capture_output=True)  # noqa: S603 -- ours
    return time.perf_counter() - begun


def heavy(folder: str) -> str:
    """Return which heavy modules a whole start has imported."""
    command = [sys.executable, "-c", SPY, "talk", "--records", folder]
    done = subprocess.run(command, cwd=ROOT, input="", capture_output=True, text=True, check=True)  # noqa: S603 -- ours
    return done.stderr.strip()


def main() -> None:
    """Print the median of some runs of each."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    with tempfile.TemporaryDirectory() as folder:
        first_question(folder)  # fills the cache
        times = {
            "python -c pass": [timed("-c", "pass") for _ in range(runs)],
            "barrelside --version": [timed("-m", "assistant", "--version") for _ in range(runs)],
            "first question": [first_question(folder) for _ in range(runs)],
            "import prompt_toolkit": [timed("-c", "import prompt_toolkit") for _ in range(runs)],
        }
        for name, seconds in times.items():
            line = f"{name:<24} median {1000 * statistics.median(seconds):5.0f} ms, best {1000 * min(seconds):5.0f} ms"
            print(line)
        print(f"heavy modules imported by the first question: {heavy(folder)}")


if __name__ == "__main__":
    main()
