"""A click group whose commands are the modules of a package, each imported only when it is called.

To add a command `work-out`, put a module `work_out.py` with a `click.Command` named `command` into
`assistant/commands/` (or into the sub-package of a group). Whatever is heavy is imported inside the
command's body.
"""

from __future__ import annotations

import pkgutil
from difflib import get_close_matches
from importlib import import_module

import click


class LazyGroup(click.Group):
    """A group that finds its commands in the package `home`."""

    def __init__(self, name: str | None = None, *, home: str, **attributes: object) -> None:
        super().__init__(name, **attributes)  # type: ignore[arg-type]  # click's own keywords, passed on
        self._home = home

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of the commands, in alphabetical order."""
        del ctx
        modules = pkgutil.iter_modules(import_module(self._home).__path__)
        return sorted(each.name.replace("_", "-") for each in modules if not each.name.startswith("_"))

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command of that name, None for none."""
        if cmd_name not in self.list_commands(ctx):
            return None
        command: click.Command = import_module(f"{self._home}.{cmd_name.replace('-', '_')}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command to call; a name that is none is answered with the nearest one."""
        names = self.list_commands(ctx)
        if args and args[0] not in names:
            near = get_close_matches(args[0], names, n=1)
            hint = f"did you mean {near[0]}?" if near else f"there are {', '.join(names)}."
            ctx.fail(f'No command "{args[0]}"; {hint}')
        return super().resolve_command(ctx, args)
