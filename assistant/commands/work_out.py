"""`barrelside work-out`: the physics behind a reading, line by line."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.world import World
    from graph.physics import WorkOut


@click.command("work-out")
@click.argument("name", required=False)
@click.argument("pairs", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--list", "listed", is_flag=True, help="List the calculations and what each takes.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@options.pass_world
def command(world: World, *, name: str | None, pairs: tuple[str, ...], listed: bool, as_json: bool) -> None:
    """Work out NAME, for example: cylinder_pressure temperature="20 C".

    Values may carry units. What is missing is asked at a terminal.
    """
    from assistant import work_outs  # noqa: PLC0415 -- --help needs none of this
    from assistant.errors import WrongUse  # noqa: PLC0415 -- likewise
    from assistant.pack_wording import wrapped  # noqa: PLC0415 -- likewise
    from graph.errors import OutOfRange  # noqa: PLC0415 -- likewise
    from graph.physics import WORKOUTS  # noqa: PLC0415 -- likewise

    if listed:
        chosen = WORKOUTS.values() if name is None else (work_outs.find_work_out(name),)
        world.print(json.dumps(_catalogue(chosen), indent=2) if as_json else work_outs.listing(chosen))
        return
    if name is None:
        raise WrongUse("Say what to work out; `barrelside work-out --list` lists it all.")
    work = work_outs.find_work_out(name)
    values = _complete(world, work, work_outs.given(work, pairs))
    try:
        result = work.solve(**values)
    except OutOfRange as error:
        raise WrongUse(str(error)) from error
    if as_json:
        world.print(json.dumps(work_outs.result_data(work, values, result), indent=2, ensure_ascii=False))
    else:
        for line in work_outs.result_lines(work, values, result):
            world.print(wrapped(line, hang=2))


def _complete(world: World, work: WorkOut, values: dict[str, float]) -> dict[str, float]:
    """Return the values with what is missing asked at the terminal; raise WrongUse where there is none."""
    from assistant import work_outs  # noqa: PLC0415 -- as above
    from assistant.errors import WrongUse  # noqa: PLC0415 -- likewise

    asks = work_outs.missing(work, values)
    if asks and not world.at_terminal():
        raise WrongUse(work_outs.missing_sentence(work, asks))
    for ask in asks:
        while ask.name not in values:
            world.stdout.write(f"{work_outs.question(ask)}: ")
            world.stdout.flush()
            typed = world.stdin.readline()
            if not typed:  # Ctrl-D: whoever leaves has done nothing wrong
                raise click.Abort
            try:
                values[ask.name] = work_outs.value_of(ask, typed.strip())
            except WrongUse as error:
                world.print(str(error))
    return values


def _catalogue(works: Iterable[WorkOut]) -> list[dict[str, object]]:
    from dataclasses import asdict  # noqa: PLC0415 -- as above

    return [
        {"name": work.name, "title": work.title, "asks": [asdict(ask) for ask in work.asks]} for work in works
    ]
