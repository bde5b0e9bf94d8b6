"""The act-or-ask rule against the exact optimum on small random systems; prints the distribution.

python tests/bench/bench_act_or_ask.py [SYSTEMS]
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from optimum import optimum, policy_cost, random_problem

from graph.choose import Stop

PURE = Stop(certain=1.1, try_at=0.0, leftover=200.0, minute=1.0, unknown=1.1, humble=0.0, tells_nothing=1e-3)


def main() -> None:
    """Print quantiles of the ratio of expected costs."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    ratios = np.array([policy_cost(p, PURE) / optimum(p) for p in map(random_problem, range(count))])
    marks = [0, 25, 50, 75, 90, 95, 100]
    quantiles = ", ".join(f"{mark} %: {np.percentile(ratios, mark):.3f}" for mark in marks)
    print(f"{count} systems; cost over optimum at {quantiles}; mean {ratios.mean():.3f}")


if __name__ == "__main__":
    main()
