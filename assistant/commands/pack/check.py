"""`barrelside pack check`: everything that can be found wrong with a pack without trying it on people."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from assistant import options

if TYPE_CHECKING:
    from assistant.world import World
    from graph.audit import Audit, Told

COUNTED = ("components", "faults", "symptoms", "checks", "remedies", "cautions")


@click.command("check")
@options.pack
@click.option("--profile", "profiles", multiple=True, metavar="NAME", help="Only this machine; may repeat.")
@click.option("--all", "everything", is_flag=True, help="Show every remark, not the first ten of a kind.")
@click.option("--json", "as_json", is_flag=True, help="Print all of it as JSON.")
@options.pass_world
def command(world: World, *, pack: str, profiles: tuple[str, ...], everything: bool, as_json: bool) -> int:
    """Say what is wrong with a pack, worst first; exit 1 when it cannot be used as it is."""
    from assistant.pack_files import pack_files  # noqa: PLC0415 -- --help needs none of this
    from assistant.pack_wording import audit_text  # noqa: PLC0415 -- likewise
    from graph.audit import audit_texts  # noqa: PLC0415 -- likewise

    audit = audit_texts(pack_files(pack), profiles)
    world.print(json.dumps(report(audit), indent=2) if as_json else audit_text(audit, everything=everything))
    return 1 if audit.errors else 0


def report(audit: Audit) -> dict[str, object]:
    """Return an audit as JSON data; counts `expanded` are those of the default profile where it is there."""
    from assistant.library import DEFAULT_PROFILE  # noqa: PLC0415 -- as above

    machines = {machine.profile: machine for machine in audit.machines}
    shown = machines.get(DEFAULT_PROFILE) or next(iter(audit.machines), None)
    return {
        "pack": audit.pack,
        "version": audit.version,
        "counted_profile": shown.profile if shown else None,
        "counts": {
            kind: {"written": audit.written.get(kind, 0), "expanded": shown.counts[kind] if shown else 0}
            for kind in COUNTED
        },
        "profiles": [
            {"profile": machine.profile, "expanded": dict(machine.counts), "tail_bound": machine.tail_bound}
            for machine in audit.machines
        ],
        "errors": [_data(told) for told in audit.errors],
        "warnings": [_data(told) for told in audit.warnings],
    }


def _data(told: Told) -> dict[str, object]:
    return {
        "rule": told.rule,
        "what": f"{told.what} {told.remedy}".strip(),
        "where": told.where,
        "file": told.file,
        "line": told.line,
    }
