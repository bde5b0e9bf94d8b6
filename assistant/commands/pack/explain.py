"""`barrelside pack explain`: one element of a pack with everything that touches it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from assistant.world import World
    from graph.dossier import Dossier


@click.command("explain")
@click.argument("name", metavar="ID")
@options.pack
@click.option("--profile", default="", metavar="NAME", help="Which machine of the pack.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
@options.pass_world
def command(world: World, *, name: str, pack: str, profile: str, as_json: bool) -> None:
    """Explain what is called ID (an id, with or without its place, or a ref), and what touches it."""
    from assistant.pack_files import nothing_called, pack_machine  # noqa: PLC0415 -- --help needs none of this
    from assistant.pack_wording import dossier_text  # noqa: PLC0415 -- likewise
    from graph.audit.view import view_machine  # noqa: PLC0415 -- likewise
    from graph.dossier import dossiers  # noqa: PLC0415 -- likewise
    from graph.dossier.find import names  # noqa: PLC0415 -- likewise

    view = view_machine(pack_machine(pack, profile))
    found = dossiers(view, name)
    if not found:
        raise nothing_called(name, names(view.machine))
    if as_json:
        world.print(json.dumps([data(one) for one in found], indent=2, ensure_ascii=False))
    else:
        world.print("\n\n".join(dossier_text(one) for one in found))


def data(dossier: Dossier) -> dict[str, object]:
    """Return a dossier as JSON data: facts by label, each table as a list of rows by column."""
    return {
        "kind": dossier.kind,
        "id": dossier.id,
        "title": dossier.title,
        "facts": dict(dossier.facts),
        "sections": {
            section.title: [dict(zip(section.columns, row, strict=True)) for row in section.rows]
            for section in dossier.sections
        },
    }
