"""Gains of ten thousand checks over ten thousand faults, against the dense textbook sum.

    python tests/bench/bench_large.py [faults [checks]]

Single faults only: each check has a row of its own for eight faults, chosen at random, and five answers are
in. Prints times and peak memory; asserts nothing absolute, only that both ways agree.
"""

import sys
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[2]))  # the checkout itself, not what is installed

import numpy as np

from graph.arrays import entropy, frozen
from graph.belief import posterior
from graph.evidence import check_evidence
from graph.gain import gains
from graph.plan import make_plan
from graph.tables import Tables

INFORMATIVE = 8  # faults with a row of their own in each check
OUTCOMES = 3
SHARED_BY = 4  # faults a remedy
ANSWERS = 5
SLIP = 0.02
ROUNDS = 30


def generated(faults, checks, seed=0):
    """Return tables without rows for pairs: two faults at once are never looked at."""
    rng = np.random.default_rng(seed)
    size = INFORMATIVE + 1
    rows = rng.dirichlet(np.ones(OUTCOMES), (checks, size))
    rows[:, 0] = (0.9, 0.05, 0.05)
    fault = np.sort(np.array([rng.choice(faults, INFORMATIVE, replace=False) for _ in range(checks)]), axis=1)
    start = np.arange(checks + 1)
    odds = rng.gamma(0.5, size=faults) + 1e-6
    odds *= 0.9 / odds.sum()
    nothing = np.zeros(0, dtype=np.int64)
    return Tables(
        odds=frozen(odds * 1e-30),  # so small that pairs weigh nothing
        nothing=0.05e-30,
        unknown=0.05e-30,
        remedy=frozen(rng.integers(0, faults // SHARED_BY, faults), np.int64),
        component=frozen(np.zeros(faults), np.int64),
        remedies=faults // SHARED_BY,
        components=1,
        outcomes=frozen(np.full(checks, OUTCOMES), np.int64),
        usual=frozen(np.zeros(checks), np.int64),
        slip_own=frozen(np.full(checks, np.nan)),
        class_start=frozen(start * size, np.int64),
        rows=frozen(rows.reshape(-1, OUTCOMES)),
        masks=frozen(np.zeros(checks * size), np.bool_),
        unknown_rows=frozen(np.full((checks, OUTCOMES), 1.0 / OUTCOMES)),
        entry_start=frozen(start * INFORMATIVE, np.int64),
        entry_fault=frozen(fault.reshape(-1), np.int64),
        entry_class=frozen((start[:-1, None] * size + np.arange(1, size)).reshape(-1), np.int64),
        pair_start=frozen(np.zeros(checks + 1), np.int64),
        pair_rows=frozen(np.zeros((0, OUTCOMES))),
        joint_check=nothing,
        joint_first=nothing,
        joint_second=nothing,
        joint_rows=np.zeros((0, OUTCOMES)),
        tail_bound=0.0,
    )


def dense_bits(tables, now, checks):
    """Return the gain about what to do of some checks by the textbook sum over all faults."""
    mass = np.bincount(tables.remedy, weights=now.singles, minlength=tables.remedies)
    mass = np.concatenate([mass, [now.nothing, now.unknown]])
    bits = []
    for check in checks:
        base = tables.class_start[check]
        rows = np.tile(tables.rows[base], (tables.faults, 1))
        entries = slice(int(tables.entry_start[check]), int(tables.entry_start[check + 1]))
        rows[tables.entry_fault[entries]] = tables.rows[tables.entry_class[entries]]
        joint = np.zeros((tables.remedies + 2, OUTCOMES))
        for outcome in range(OUTCOMES):
            joint[:-2, outcome] = np.bincount(
                tables.remedy, weights=now.singles * rows[:, outcome], minlength=tables.remedies
            )
        joint[-2] = now.nothing * tables.rows[base]
        joint[-1] = now.unknown * tables.unknown_rows[check]
        wrong = (1.0 - SLIP) * joint + SLIP * (mass[:, None] - joint) / (OUTCOMES - 1)
        bits.append(entropy(wrong.sum(axis=0)) + entropy(mass) - entropy(wrong.reshape(-1)))
    return np.array(bits)


def say(text):
    print(text)


def peak():
    """Return the peak memory of this process in MB, where the system tells it (Linux counts in kB)."""
    try:
        import resource  # noqa: PLC0415 - not on every system
    except ImportError:
        return float("nan")
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0


def timed(work, rounds):
    times = []
    for _ in range(rounds):
        start = perf_counter()
        work()
        times.append((perf_counter() - start) * 1000.0)
    return np.percentile(times, [50, 90])


def main():
    faults, checks = (int(sys.argv[i]) if len(sys.argv) > i else 10_000 for i in (1, 2))
    tables = generated(faults, checks)
    say(
        f"{faults} single faults, {checks} checks, {INFORMATIVE} informative faults a check, {OUTCOMES} outcomes"
    )
    say(f"  memory before the plan{peak():10.0f} MB")
    plan_time = timed(lambda: make_plan(tables, range(checks), [SLIP] * checks), 3)[0]
    plan = make_plan(tables, range(checks), [SLIP] * checks)
    rng = np.random.default_rng(2)
    told = [int(c) for c in rng.permutation(checks)[:ANSWERS]]
    evidence = [check_evidence(tables, c, np.eye(OUTCOMES)[1], SLIP) for c in told]
    now = posterior(tables, evidence)
    median, high = timed(lambda: posterior(tables, evidence), ROUNDS)
    say(f"  plan, once a session  {plan_time:10.1f} ms")
    say(f"  posterior             {median:10.2f} ms median{high:10.2f} ms p90")
    median, high = timed(lambda: gains(tables, plan, now), ROUNDS)
    say(f"  gains, fault + remedy {median:10.2f} ms median{high:10.2f} ms p90")
    say(f"  peak memory           {peak():10.0f} MB")
    some = np.arange(0, checks, max(1, checks // 20))
    start = perf_counter()
    expected = dense_bits(tables, now, some)
    dense = (perf_counter() - start) * 1000.0 * checks / len(some)
    error = float(np.abs(expected - gains(tables, plan, now).remedy_bits[some]).max())
    say(f"  dense textbook sum    {dense:10.0f} ms for all checks (from {len(some)} of them)")
    say(f"  largest difference    {error:10.1e} bits")


if __name__ == "__main__":
    main()
