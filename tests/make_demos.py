"""Play the scenarios of `tests/demos/` into `demo_sessions/`: `python tests/make_demos.py [NAME ...]`.

What cannot be understood of the pack's own phrases, and lines that were never typed, are printed.
"""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))  # the checkout itself, not what is installed
    import_module("demo_play").main(sys.argv[1:])
