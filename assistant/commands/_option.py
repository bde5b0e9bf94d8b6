"""The option of the commands that write papers."""

from __future__ import annotations

from pathlib import Path

import click

out = click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Write to this file, not to standard output.",
)
