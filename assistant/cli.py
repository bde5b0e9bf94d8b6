"""The command `barrelside`. Alone it talks; what else it can do stands in `assistant/commands/`.

Exit codes: 0 done (also when a person leaves with Ctrl-C or Ctrl-D: the session is kept), 1 failed,
2 called wrongly. A failure is one sentence, never a traceback. This file holds the only handler that
catches everything; it saves the event at hand before it says so.
"""

from __future__ import annotations

import io
import os
import sys
import traceback
from contextlib import suppress

import click

from assistant.errors import AssistantError
from assistant.lazy_group import LazyGroup
from assistant.world import World

FAILED, WRONG_USE = 1, 2
_GLOBAL = ("--help", "--version")
_DEFAULT = "talk"


class _TalkByDefault(LazyGroup):
    """The top group: options without a command are meant for `talk`."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if not args or (args[0].startswith("-") and args[0] not in _GLOBAL):
            args = [_DEFAULT, *args]
        return super().parse_args(ctx, args)


def _print_version(ctx: click.Context, _parameter: click.Parameter, wanted: bool) -> None:  # noqa: FBT001 -- click calls it so
    if wanted:
        from assistant.version import program_version  # noqa: PLC0415 -- reads the file system

        click.echo(f"barrelside {program_version()}")
        ctx.exit()


@click.group(
    cls=_TalkByDefault,
    home="assistant.commands",
    context_settings={"help_option_names": ["--help"], "max_content_width": 100},
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_print_version,
    help="Say which version this is.",
)
def cli() -> None:
    """Find what ails a carbonated frozen-drink machine, and put it right safely.

    Without a command: talk. A session is kept, whatever happens; go on with `barrelside resume`.
    """


def run(arguments: list[str], world: World) -> int:
    """Return the exit code of one call; everything that goes wrong is one sentence on standard error."""
    try:
        return _called(arguments, world)
    except (click.Abort, KeyboardInterrupt):
        return 0  # whoever leaves with Ctrl-C has done nothing wrong, and nothing is lost
    except SystemExit:  # what click makes of a broken pipe: the reader has seen enough, and that is fine
        _close_quietly()
        return 0
    except Exception as error:  # noqa: BLE001 -- the last resort: save first, then say it in one sentence
        return _last_resort(error, world)
    finally:
        world.keeper.close()


def _called(arguments: list[str], world: World) -> int:
    """Return the exit code of a call whose failures, if any, are of kinds that are foreseen."""
    try:
        outcome = cli.main(arguments, prog_name="barrelside", standalone_mode=False, obj=world)
    except click.exceptions.Exit as leave:
        return leave.exit_code
    except click.ClickException as error:
        world.remark(_clicked(error))
        return error.exit_code
    except AssistantError as error:
        world.remark(f"barrelside: {error}")
        return error.exit_code
    return outcome if isinstance(outcome, int) else 0


def main() -> None:
    """Run the command with the process's own arguments and streams."""
    for name in ("stdin", "stdout", "stderr"):
        if getattr(sys, name) is None:  # closed by whoever started us
            setattr(sys, name, io.TextIOWrapper(io.BytesIO()))
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # small matrices: threads cost more than they give
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            encoding = None if stream.isatty() else "utf-8"  # files and pipes are UTF-8 everywhere
            stream.reconfigure(encoding=encoding, errors="backslashreplace")
    sys.exit(run(sys.argv[1:], World(os.environ)))


def _clicked(error: click.ClickException) -> str:
    """Return what was wrong with a call, and where to read more."""
    sentence = " ".join(error.format_message().split())
    if not isinstance(error, click.UsageError) or error.ctx is None:
        return f"barrelside: {sentence}"
    return f"barrelside: {sentence} (see {error.ctx.command_path} --help)"


def _last_resort(error: Exception, world: World) -> int:
    """Save the event at hand, say what happened, return 1."""
    from assistant import shell_wording as words  # noqa: PLC0415 -- brings in numpy
    from assistant.sessions import called  # noqa: PLC0415 -- likewise
    from graph.errors import GraphError, PackMissing  # noqa: PLC0415 -- a short answer needs no graph

    if isinstance(error, GraphError):
        world.remark(f"barrelside: {error}")
        return WRONG_USE if isinstance(error, PackMissing) else FAILED
    if isinstance(error, OSError):
        _close_quietly()
    frame = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{os.path.basename(frame.filename)}:{frame.lineno}"  # noqa: PTH119 -- only the name
    sentence = words.refused(error) if isinstance(error, OSError) else words.broke(error, where)
    try:
        world.keeper.rescue(f"{type(error).__name__} at {where}")
    except AssistantError as unsaved:
        sentence = f"{sentence} {unsaved}"
    name = f" {words.kept(called(world.keeper.ledger.path))}" if world.keeper.ledger is not None else ""
    world.remark(f"{sentence}{name}")
    return FAILED


def _close_quietly() -> None:
    """Point standard output at nothing, so that the interpreter's last flush cannot fail."""
    with suppress(OSError, ValueError):
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, sys.stdout.fileno())
