"""How long one question takes on the shipped pack, pairs of faults included.

    python tests/bench/bench_next_check.py [states]

Prints the median and the 90th percentile in milliseconds over random states of the evidence, none of them
seen before by the case; asserts nothing, since machines differ.
"""

import sys
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[2]))  # the checkout itself, not what is installed

import numpy as np

from assistant.library import load_case
from graph.belief import posterior
from graph.candidates import open_checks
from graph.findings import Finding
from graph.gain import gains
from graph.plan import make_plan

PROFILES = ("two_barrel", "three_barrel", "four_barrel")
MOST_ANSWERS = 10
ROLE = "technician"


def random_findings(case, rng):
    """Return answers that one hidden fault would give, so that states are like those of real sessions."""
    fault = int(rng.choice(case.tables.faults, p=case.tables.odds / case.tables.odds.sum()))
    told = []
    for number in rng.permutation(case.tables.checks)[: int(rng.integers(0, MOST_ANSWERS + 1))]:
        seen = case.machine.checks[int(number)]
        tables, count = case.tables, len(seen.outcomes)
        entries = slice(int(tables.entry_start[number]), int(tables.entry_start[number + 1]))
        mine = np.flatnonzero(tables.entry_fault[entries] == fault)
        row = tables.entry_class[entries][mine[0]] if len(mine) else tables.class_start[number]
        outcome = int(rng.choice(count, p=tables.rows[row, :count]))
        told.append(Finding(seen.id, tuple(float(i == outcome) for i in range(count)), ROLE))
    return tuple(told)


def timed(work):
    start = perf_counter()
    work()
    return (perf_counter() - start) * 1000.0


def report(what, times):
    median, high = np.percentile(times, [50, 90])
    print(f"  {what:<46}{median:8.2f} ms median{high:8.2f} ms p90")


def measure(profile, states):
    case = load_case(None, profile, cache=False)
    rng = np.random.default_rng(1)
    tables, settings = case.tables, case.machine.settings
    slips = [settings.slips[ROLE] if np.isnan(own) else float(own) for own in tables.slip_own]
    plan = make_plan(tables, range(tables.checks), slips)
    names = open_checks(case.machine, ROLE, {})
    title = f"{profile}: {tables.faults} faults, {tables.checks} checks, {len(names)} of them open"
    print(title)
    found = [random_findings(case, rng) for _ in range(states)]
    evidence = [[case._see(finding) for finding in findings] for findings in found]  # noqa: SLF001 - numbers only
    case.decide((), names, role=ROLE)  # the plan is made once a session
    report("posterior of all answers afresh", [timed(lambda e=e: posterior(tables, e)) for e in evidence])
    beliefs = [posterior(tables, e) for e in evidence]
    report(
        "gains of every check (fault and remedy)",
        [timed(lambda b=b: gains(tables, plan, b)) for b in beliefs],
    )
    report("believe: posterior, named and sorted", [timed(lambda f=f: case.believe(f)) for f in found])
    report(
        "decide: act or ask, the best five ranked",
        [timed(lambda f=f: case.decide(f, names, role=ROLE)) for f in found],
    )
    report("rank: every open check", [timed(lambda f=f: case.rank(f, names, role=ROLE)) for f in found])


def main():
    states = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    for profile in PROFILES:
        measure(profile, states)


if __name__ == "__main__":
    main()
