"""Holding a session: over JSON Lines, from an answer file or a pipe, or at a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import shell_wording as words
from assistant.engine.effects import TAKEN_UP
from assistant.errors import AssistantError, WrongUse
from assistant.sessions import called
from assistant.talk.terminal import PlainTerminal, answers

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from assistant.session import Session
    from assistant.start import Started
    from assistant.talk.terminal import Terminal
    from assistant.world import World


def check_ways(*, lines: bool, script: Path | None) -> None:
    """Raise WrongUse where two ways of answering are wanted at once."""
    if lines and script is not None:
        raise WrongUse(words.lines_alone())


def hold(world: World, started: Started, *, lines: bool, script: Path | None) -> None:
    """Hold a session until it is over or the person leaves; say how to go on."""
    if lines:
        _over_lines(world, started)
    else:
        _at_terminal(world, started, script)


def _over_lines(world: World, started: Started) -> None:
    from assistant.lines import LineTalk  # noqa: PLC0415 -- the terminal does without

    talk = LineTalk(started.desk, _writer(world))
    for remark in started.remarks:
        talk.tell("resumed", remark)
    talk.tell("record", words.written_down(str(started.path)), started.path.stem)
    session = talk.run(started.session, world.stdin.buffer)
    path = _record(world, started)
    talk.tell("kept", _last_words(path, session), path.stem)


def _at_terminal(world: World, started: Started, script: Path | None) -> None:
    from assistant.talk.converse import converse  # noqa: PLC0415 -- brings in the units

    terminal = _terminal(world, script)
    if script is None and world.stdin.isatty():
        _prepare(started)
    for remark in (words.written_down(str(started.path)), *started.remarks):
        terminal.say(remark)
    scripted = script is not None or not world.stdin.isatty()
    session = converse(started.desk, started.session, terminal, to_the_end=scripted)
    terminal.say(_last_words(_record(world, started), session))


def _prepare(started: Started) -> None:
    """Make the pack's phrases ready while the person reads the first question.

    What goes wrong there goes wrong again, and is reported, when the first line is heard.
    """
    from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415 -- pipes do without

    ThreadPoolExecutor(1).submit(started.desk.conversation.hear, ".", "")


def _terminal(world: World, script: Path | None) -> Terminal:
    """Return the terminal for what is at the other end."""
    if script is not None and str(script) != "-":
        return PlainTerminal(answers(_read(script)), world.stdout, echo=True)
    if world.at_terminal() and script is None:
        return _prompt(world)
    if world.stdin.isatty():
        return PlainTerminal(_typed(world), world.stdout, echo=False)
    return PlainTerminal(answers(_piped(world)), world.stdout, echo=True)


def _prompt(world: World) -> Terminal:
    from assistant.sessions import user_folder  # noqa: PLC0415 -- only a prompt has a history
    from assistant.talk.history import KindHistory  # noqa: PLC0415 -- prompt-toolkit is for real terminals
    from assistant.talk.prompt import PromptTerminal  # noqa: PLC0415 -- likewise

    history = KindHistory(user_folder() / "history")
    return PromptTerminal(history, colour=not world.environ.get("NO_COLOR"))


def _read(script: Path) -> Iterable[str]:
    try:
        return script.read_text(encoding="utf-8", errors="replace").split("\n")
    except OSError as error:
        raise AssistantError(f"Cannot read the answers in {script} ({error.strerror or error}).") from error


def _typed(world: World) -> Iterable[str]:
    """Return the lines typed at a terminal that can do no more; blank ones too."""
    return (line.rstrip("\r\n") for line in world.stdin)


def _piped(world: World) -> Iterable[str]:
    """Return the lines of a pipe, which is UTF-8 whatever the locale says."""
    return (line.decode(errors="replace") for line in world.stdin.buffer)


def _writer(world: World) -> Callable[[bytes], None]:
    """Return what writes bytes to standard output at once."""

    def write(line: bytes) -> None:
        world.stdout.buffer.write(line)
        world.stdout.buffer.flush()

    return write


def _record(world: World, started: Started) -> Path:
    """Return the record that is written now: a session may go on in another one."""
    return started.path if world.keeper.ledger is None else world.keeper.ledger.path


def _last_words(path: Path, session: Session[object]) -> str:
    over = session.end is not None and session.end.outcome not in TAKEN_UP
    return words.over(called(path)) if over else words.kept(called(path))
