"""`barrelside pack measure`: hidden faults against the questions, beside two baselines and a bound."""

from __future__ import annotations

import json
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

import click
import numpy as np

from assistant.library import DEFAULT_PROFILE, load_case

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from graph.case import Case
    from graph.measure import Hidden, Policy, Run, Summary

CHUNK = 25  # cases a worker takes at a time
BOTH = (("engine", True), ("engine", False))
BASELINES = (("fixed_order", True), ("random", True))
WHOLE = (("whole_engine", True), ("whole_likeliest", True), ("whole_chart", True))
WAYS = {
    "whole_engine": "phone first, then visit",
    "whole_likeliest": "send at once",
    "whole_chart": "fixed flow chart",
}
CHART = 10  # questions of the flow chart


@dataclass(frozen=True)
class Job:
    """A slice of the cases under one policy, small enough to send to another process."""

    pack: str | None
    profile: str
    role: str
    policy: str
    slips: bool
    cases: tuple[Hidden, ...]
    seed: int


def _policy(case: Case, job: Job) -> Policy:
    from graph.measure import adaptive, fixed_order, random_order  # noqa: PLC0415 - in the worker only

    certain = case.machine.settings.stop["certain"]
    if job.policy == "engine":
        return adaptive(case, job.role)
    if job.policy == "fixed_order":
        return fixed_order(case, job.role, certain)
    return random_order(case, certain, job.seed)


def work(job: Job) -> tuple[Job, list[Any]]:
    """Return the runs of one job; the compiled pack comes from the cache."""
    if job.policy in WAYS:
        return job, _work_whole(job)
    from graph.measure import run  # noqa: PLC0415 - in the worker only

    case = load_case(job.pack, job.profile)
    policy = _policy(case, job)
    return job, [run(case, hidden, policy, job.role, slips=job.slips) for hidden in job.cases]


def _work_whole(job: Job) -> list[Any]:
    """Return how whole jobs go; the flow chart is ordered by what its questions tell at the start."""
    from graph.candidates import open_checks  # noqa: PLC0415 - in the worker only
    from graph.jobs import PHONE, engine_job, flow_chart, send_likeliest  # noqa: PLC0415 - likewise

    case = load_case(job.pack, job.profile)
    if job.policy == "whole_engine":
        return [engine_job(case, hidden) for hidden in job.cases]
    if job.policy == "whole_likeliest":
        return [send_likeliest(case, hidden) for hidden in job.cases]
    ranked = case.rank((), open_checks(case.machine, PHONE, {}), role=PHONE)
    order = {item.check: index for index, item in enumerate(ranked)}
    return [flow_chart(case, hidden, order, CHART) for hidden in job.cases]


def jobs_of(
    pack: str | None, profile: str, role: str, cases: tuple[Hidden, ...], modes: tuple[tuple[str, bool], ...]
) -> Iterator[Job]:
    """Return the jobs of all modes; a mode is a policy with or without slips."""
    for policy, slips in modes:
        for start in range(0, len(cases), CHUNK):
            yield Job(pack, profile, role, policy, slips, cases[start : start + CHUNK], start)


def figures(summary: Summary) -> dict[str, float]:
    """Return the figures of a summary, rounded for reading."""
    return {name: round(value, 4) for name, value in asdict(summary).items()}


def entropy_bound(case: Case, cases: tuple[Hidden, ...], left: float, role: str) -> float:
    """Return how many checks no interview could do without: bits to be won over bits a check can give."""
    widest = float(np.log2(case.tables.outcomes).mean())
    start = [
        case.believe(tuple(case.answer(n, "present", role) for n in c.complaint)).bits for c in cases[:200]
    ]
    return max(0.0, (float(np.mean(start)) - left) / widest)


@click.command("measure")
@click.option("--pack", default=None, help="A pack folder; the shipped pack by default.")
@click.option("--profile", default=DEFAULT_PROFILE, show_default=True, help="The machine profile.")
@click.option("--role", default="technician", show_default=True, help="Who answers.")
@click.option(
    "--cases", default=500, show_default=True, type=click.IntRange(1, 1_000_000), help="Hidden cases."
)
@click.option("--seed", default=1, show_default=True, type=int, help="Where the random numbers start.")
@click.option("--jobs", default=2, show_default=True, type=click.IntRange(1, 64), help="Processes.")
@click.option("--worst", default=0, type=click.IntRange(0, 1000), help="List that many of the worst faults.")
@click.option("--baselines/--no-baselines", default=True, help="Measure fixed and random order beside it.")
@click.option("--whole", is_flag=True, help="Whole jobs instead: phone, visit, parts, until all is cured.")
@click.option("--json", "as_json", is_flag=True, help="Print the figures as JSON.")
def command(
    pack: str | None,
    profile: str,
    role: str,
    cases: int,
    seed: int,
    jobs: int,
    worst: int,
    *,
    baselines: bool,
    whole: bool,
    as_json: bool,
) -> None:
    """Draw hidden faults, answer from the likelihood rows, and say how good the questions were."""
    from graph.measure import draw_cases  # noqa: PLC0415 - start-up stays light

    case = load_case(pack, profile)
    hidden = draw_cases(case, cases, seed)
    modes = WHOLE if whole else BOTH + (BASELINES if baselines else ())
    runs = run_all(list(jobs_of(pack, profile, role, hidden, modes)), jobs, show=not as_json)
    head: dict[str, Any] = {"profile": profile, "role": role, "seed": seed}
    if whole:
        report = {"cases": cases, **head, "whole_jobs": {way: _whole(runs[way, True]) for way, _ in WHOLE}}
        click.echo(json.dumps(report, indent=2) if as_json else _whole_text(report))
        return
    report = {**_questions(case, hidden, runs, role), **head}
    if worst:
        report["worst"] = worst_faults(case, hidden, runs["engine", True], worst)
    click.echo(json.dumps(report, indent=2) if as_json else _text(report))


def _questions(
    case: Case, hidden: tuple[Hidden, ...], runs: dict[tuple[str, bool], list[Any]], role: str
) -> dict[str, Any]:
    """Return the figures about the questions: with slips at the top, then without, then the baselines."""
    from graph.measure import summarise  # noqa: PLC0415 - as above

    left = float(np.mean([one.bits for one in runs["engine", True]]))
    return {
        **figures(summarise(runs["engine", True])),
        "without_slips": figures(summarise(runs["engine", False])),
        "baselines": {
            name: figures(summarise(runs[name, True])) for name, _ in BASELINES if (name, True) in runs
        },
        "entropy_bound_checks": round(entropy_bound(case, hidden, left, role), 2),
    }


def _whole(jobs: list[Any]) -> dict[str, float]:
    from graph.jobs import summarise_jobs  # noqa: PLC0415 - as above

    return {name: round(value, 4) for name, value in asdict(summarise_jobs(jobs)).items()}


def _whole_text(report: dict[str, Any]) -> str:
    """Return the figures of whole jobs as a table that fits 80 columns."""
    lines = [
        f"{report['cases']} whole jobs, profile {report['profile']}, seed {report['seed']}",
        f"{'':22}{'cured, first':>13}{'visits':>9}{'parts in':>9}{'nothing':>9}{'cured':>9}{'visits':>8}",
        f"{'':22}{'visit':>13}{'avoided':>9}{'vain':>9}{'to cure':>9}{'at last':>9}{'a job':>8}",
    ]
    for way, row in report["whole_jobs"].items():
        lines.append(
            f"{WAYS[way]:22}{100 * row['cured_first_visit']:12.1f}%{100 * row['visits_avoided']:8.1f}%"
            f"{row['parts_in_vain']:9.1f}{100 * row['nothing_to_cure']:8.1f}%{100 * row['cured']:8.1f}%"
            f"{row['visits_mean']:8.2f}"
        )
    return "\n".join(lines)


def run_all(todo: list[Job], processes: int, *, show: bool) -> dict[tuple[str, bool], list[Any]]:
    """Return all runs by mode, in the order of the cases, whatever process finished first."""
    done: dict[tuple[str, bool, int], list[Any]] = {}
    with ProcessPoolExecutor(processes) as pool:
        waiting = [pool.submit(work, job) for job in todo]
        finished: Iterable[Future[tuple[Job, list[Any]]]] = as_completed(waiting)
        if show:
            from rich.progress import track  # noqa: PLC0415 - only where a bar is wanted

            finished = track(finished, "measuring", total=len(waiting), transient=True)
        for future in finished:
            job, runs = future.result()
            done[job.policy, job.slips, job.seed] = runs
    merged: dict[tuple[str, bool], list[Any]] = {}
    for policy, slips, _ in sorted(done):
        merged.setdefault((policy, slips), [])
    for key in sorted(done):
        merged[key[0], key[1]].extend(done[key])
    return merged


def worst_faults(
    case: Case, hidden: tuple[Hidden, ...], runs: list[Run], count: int
) -> list[dict[str, object]]:
    """Return the faults whose remedy was missed most often, over instances of the same fault."""
    seen: dict[str, list[bool]] = {}
    for one, outcome in zip(hidden, runs, strict=True):
        if len(one.faults) == 1 and one.faults[0] >= 0:
            seen.setdefault(case.machine.faults[one.faults[0]].base, []).append(outcome.right_remedy)
    rate = {fault.base: fault.rate for fault in case.machine.faults}
    table = [
        {
            "fault": base,
            "rate": rate[base],
            "cases": len(hits),
            "right_remedy": round(sum(hits) / len(hits), 3),
        }
        for base, hits in seen.items()
    ]
    return sorted(table, key=lambda row: (row["right_remedy"], -int(str(row["cases"]))))[:count]


def _text(report: dict[str, Any]) -> str:
    """Return the figures as a table that fits 80 columns."""
    rows = [
        ("the engine, with slips", report),
        ("the engine, no slips", report["without_slips"]),
    ]
    names = {"fixed_order": "fixed order, with slips", "random": "random order, with slips"}
    rows.extend((names[name], row) for name, row in report["baselines"].items())
    lines = [
        f"{report['cases']} cases, profile {report['profile']}, role {report['role']}, seed {report['seed']}",
        f"{'':26}{'right':>8}{'right':>8}{'handed':>8}{'checks':>8}{'checks':>8}{'minutes':>9}",
        f"{'':26}{'remedy':>8}{'fault':>8}{'over':>8}{'median':>8}{'p90':>8}{'median':>9}",
    ]
    for name, row in rows:
        cells = [float(row[key]) for key in ("right_remedy", "right_fault", "handed_over")]
        counts = [float(row[key]) for key in ("checks_median", "checks_p90")]
        lines.append(
            f"{name:26}"
            + "".join(f"{100 * cell:7.1f}%" for cell in cells)
            + "".join(f"{count:8.1f}" for count in counts)
            + f"{float(row['minutes_median']):9.1f}"
        )
    lines.append(
        f"entropy bound: {report['entropy_bound_checks']} checks on average, below which no interview can go"
    )
    lines.extend(
        f"  {row['fault']:48}{100 * row['right_remedy']:6.1f}% of {row['cases']:4} (rate {row['rate']:.2f})"
        for row in report.get("worst", [])
    )
    return "\n".join(lines)
