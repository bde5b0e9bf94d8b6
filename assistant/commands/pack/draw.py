"""`barrelside pack draw`: the fault tree, or any part of it, as a drawing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from assistant.world import World
    from graph.machine import Machine

FORMATS = ("mermaid", "dot", "graphml", "svg", "html")


@click.command("draw")
@options.pack
@click.option("--profile", default="", metavar="NAME", help="Which machine of the pack.")
@click.option("--root", default="", metavar="ID", help="Only what leads to this element or comes of it.")
@click.option("--instances", is_flag=True, help="Draw each barrel and channel, not what repeats once.")
@click.option(
    "--format", "form", type=click.Choice(FORMATS), default="mermaid", show_default=True, help="In what form."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Write to this file, not to standard output.",
)
@options.pass_world
def command(
    world: World, *, pack: str, profile: str, root: str, instances: bool, form: str, out: Path | None
) -> None:
    """Draw the fault tree of a pack: gates over their inputs, faults as circles."""
    from assistant.errors import WrongUse  # noqa: PLC0415 -- --help needs none of this
    from assistant.pack_files import pack_machine  # noqa: PLC0415 -- likewise

    if instances and form == "html":
        raise WrongUse("The page draws what repeats once; leave --instances out, or take --format svg.")
    text = _drawn(pack_machine(pack, profile), root, form, instances=instances)
    if out is None:
        world.print(text.removesuffix("\n"))
        return
    _write(out, text)
    world.remark(f"Written to {out}.")


def _drawn(machine: Machine, root: str, form: str, *, instances: bool) -> str:
    from graph.sketch import dot, graphml, mermaid, sketch, svg_document  # noqa: PLC0415 -- as above

    drawing = sketch(machine, root, instances=instances)
    if form == "html":
        from assistant.draw_page import page  # noqa: PLC0415 -- brings in Jinja2
        from graph.case import Case  # noqa: PLC0415 -- likewise numpy
        from graph.compile import compile_tables  # noqa: PLC0415 -- likewise

        return page(Case(machine, compile_tables(machine)), drawing)
    return {"mermaid": mermaid, "dot": dot, "graphml": graphml, "svg": svg_document}[form](drawing)


def _write(out: Path, text: str) -> None:
    from assistant.errors import AssistantError  # noqa: PLC0415 -- as above

    try:
        out.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise AssistantError(f"{out} cannot be written ({error.strerror}); give another --out.") from error
