"""`barrelside pack hear`: what is understood of a line, for authors of phrases and for scripts."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.facts import Fact
    from assistant.hear import Phrasebook
    from assistant.world import World
    from graph import Machine


@click.command("hear")
@click.argument("text", nargs=-1)
@options.pack
@click.option("--profile", default="", metavar="NAME", help="The machine; default: the usual one.")
@click.option("--asked", default="", metavar="CHECK", help="The check just asked: its id or reference.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON list of facts a line.")
@options.pass_world
def command(
    world: World, *, text: tuple[str, ...], pack: str, profile: str, asked: str, as_json: bool
) -> int:
    """Show what is understood of TEXT; without TEXT, of every line of standard input."""
    from assistant.hear import hear  # noqa: PLC0415 -- --help needs none of this
    from assistant.hear.shelf import phrasebook  # noqa: PLC0415 -- likewise
    from assistant.library import DEFAULT_PROFILE, load_case  # noqa: PLC0415 -- likewise

    machine = load_case(pack or None, profile or DEFAULT_PROFILE).machine
    book = phrasebook(machine)
    if asked and book.check(asked) is None:
        raise click.BadParameter(f'"{asked}" is no check or symptom of this pack.', param_hint="--asked")
    for line in [" ".join(text)] if text else (line.rstrip("\r\n") for line in world.stdin):
        facts, rest = hear(machine, line, asked or None, book)
        if as_json:
            world.print(json.dumps([fact_data(fact, book) for fact in facts], ensure_ascii=False))
        else:
            world.print("\n".join(_shown(line, facts, rest, machine)))
    return 0


def fact_data(fact: Fact, book: Phrasebook) -> dict[str, object]:
    """Return a fact as JSON data; of an answer also the author's letter of its outcome."""
    data: dict[str, object] = {**asdict(fact), "which": list(fact.which)}
    check = book.check(fact.id) or book.check(fact.ref)
    if fact.kind in {"answer", "danger"} and check is not None:
        index = check.outcome_index(fact.value)
        data["outcome_ref"] = check.outcomes[index].ref if index >= 0 else ""
    return data


def _shown(line: str, facts: Iterable[Fact], rest: str, machine: Machine) -> Iterable[str]:
    yield line
    titles = {check.id: check.title for check in reversed(machine.checks)}
    titles |= {check.base: check.title for check in reversed(machine.checks)}
    for fact in facts:
        number = f"{fact.value}-{fact.high}" if fact.high else fact.value
        parts = [fact.kind, fact.ref, titles.get(fact.id, fact.id), f"{number} {fact.unit}".strip()]
        parts.append(f"barrels {', '.join(map(str, fact.which))}" if fact.which else "")
        sure = f"{fact.score:.2f}" if fact.certain else f"{fact.score:.2f}, to be confirmed"
        yield f"  {'  '.join(part for part in parts if part)}  ({sure})"
    if rest:
        yield f"  not understood: {rest}"
