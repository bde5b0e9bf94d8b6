"""`barrelside pack faults`: how well each fault that is not rare is found, the worst first."""

from __future__ import annotations

import json

import click

from assistant.commands.pack.measure import jobs_of, run_all, worst_faults
from assistant.library import DEFAULT_PROFILE, load_case


@click.command("faults")
@click.option("--pack", default=None, help="A pack folder; the shipped pack by default.")
@click.option("--profile", default=DEFAULT_PROFILE, show_default=True, help="The machine profile.")
@click.option("--role", default="technician", show_default=True, help="Who answers, slips and all.")
@click.option("--each", default=24, show_default=True, type=click.IntRange(1, 10_000), help="Cases a fault.")
@click.option(
    "--rate", default=2.0, show_default=True, type=click.FloatRange(0), help="Leave out rarer ones, per 1000."
)
@click.option("--seed", default=1, show_default=True, type=int, help="Where the random numbers start.")
@click.option("--jobs", default=2, show_default=True, type=click.IntRange(1, 64), help="Processes.")
@click.option("--json", "as_json", is_flag=True, help="Print the figures as JSON.")
def command(
    *, pack: str | None, profile: str, role: str, each: int, rate: float, seed: int, jobs: int, as_json: bool
) -> None:
    """Hide each common fault as often as the others and say how often its repair is proposed first."""
    from graph.measure import draw_each  # noqa: PLC0415 - start-up stays light

    case = load_case(pack, profile)
    hidden = draw_each(case, each, rate, seed)
    if not hidden:
        raise click.UsageError(f"No fault has a rate above {rate:g} per 1000: give a lower --rate.")
    todo = list(jobs_of(pack, profile, role, hidden, (("engine", True),)))
    runs = run_all(todo, jobs, show=not as_json)["engine", True]
    table = worst_faults(case, hidden, runs, len(hidden))
    if as_json:
        click.echo(json.dumps({"profile": profile, "role": role, "seed": seed, "faults": table}, indent=2))
        return
    click.echo(f"{len(table)} faults above {rate:g} per 1000, {each} cases each, profile {profile}, {role}")
    for row in table:
        click.echo(f"{100 * float(str(row['right_remedy'])):6.1f}%  {row['rate']:5.1f}  {row['fault']}")
