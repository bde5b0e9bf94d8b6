"""`barrelside pack sources`: where the figures of a pack come from."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from assistant.world import World


@click.command("sources")
@options.pack
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON, with every id.")
@options.pass_world
def command(world: World, *, pack: str, as_json: bool) -> None:
    """List all sources of a pack with what rests on each, published ones first."""
    from assistant.pack_files import pack_knowledge  # noqa: PLC0415 -- --help needs none of this
    from assistant.pack_wording import sources_text  # noqa: PLC0415 -- likewise
    from graph.provenance import sources  # noqa: PLC0415 -- likewise

    found = sources(pack_knowledge(pack))
    if as_json:
        world.print(json.dumps([asdict(one) for one in found], indent=2, ensure_ascii=False))
    else:
        world.print(sources_text(found))
