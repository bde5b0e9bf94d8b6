"""The options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from assistant.conversation import Setup
from assistant.errors import WrongUse
from assistant.world import World

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.conversation import Conversation

F = TypeVar("F", bound="Callable[..., object]")

pass_world = click.make_pass_decorator(World)

_FOLDER = click.Path(path_type=Path, file_okay=False)
_FILE = click.Path(path_type=Path, dir_okay=False, allow_dash=True, exists=True)

records = click.option("--records", type=_FOLDER, metavar="DIR", help="Folder of the session records.")
pack = click.option(
    "--pack", default="", metavar="DIR", help="Folder of a knowledge pack; else the shipped one."
)
answers = click.option(
    "--answers",
    type=_FILE,
    metavar="FILE",
    help="Take the answers from a file, one a line; # begins a comment. It ends like Ctrl-D.",
)
sites = click.option(
    "--sites",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="The address book of sites; else BARRELSIDE_SITES, else your own.",
)
lines = click.option("--lines", is_flag=True, help="Speak JSON Lines on standard input and output.")


def machine(function: F) -> F:
    """Add the options that say which machine it is."""
    for option in reversed(
        (
            pack,
            click.option("--profile", default="", metavar="NAME", help="Which machine of the pack."),
            click.option(
                "--flavour",
                "flavours",
                multiple=True,
                metavar="NAME",
                help="Flavour of a barrel, in their order.",
            ),
            click.option(
                "--switch",
                "switches",
                multiple=True,
                metavar="NAME=SETTING",
                help="A setting of the machine.",
            ),
            click.option(
                "--by",
                type=click.Choice(["minutes", "bits"]),
                default="minutes",
                show_default=True,
                help="Rank checks by what they tell per minute, or by that alone.",
            ),
        )
    ):
        function = option(function)
    return function


def setup_of(pack: str, profile: str, flavours: tuple[str, ...], switches: tuple[str, ...], by: str) -> Setup:
    """Return the machine that the options name; raise WrongUse for a switch without a setting."""
    pairs = tuple(tuple(switch.split("=", 1)) for switch in switches)
    for switch, pair in zip(switches, pairs, strict=True):
        if len(pair) != 2:  # noqa: PLR2004 -- a name and a setting
            raise WrongUse(f'--switch "{switch}" has no setting; write NAME=SETTING.')
    return Setup(pack, profile, flavours, pairs, by)


def known_role(conversation: Conversation[object], role: str) -> str:
    """Return a role that may take part, empty for none yet; raise WrongUse naming those there are."""
    if role and role not in conversation.roles():
        raise WrongUse(f'--role "{role}" is nobody here; it may be {", ".join(conversation.roles())}.')
    return role
