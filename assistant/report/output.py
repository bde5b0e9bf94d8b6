"""Where a report goes: standard output, or a file of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.errors import AssistantError
from assistant.report import wording as words
from assistant.visible import without_surrogates

if TYPE_CHECKING:
    from pathlib import Path

    from assistant.world import World


def put(world: World, text: str, out: Path | None) -> None:
    """Print a text, or write it to a file and say so; raise AssistantError where that fails."""
    text = without_surrogates(text)
    if out is None:
        world.print(text.removesuffix("\n"))
        return
    try:
        out.write_text(f"{text.removesuffix(chr(10))}\n", encoding="utf-8", newline="\n")
    except OSError as error:
        raise AssistantError(words.cannot_write(str(out), error.strerror or str(error))) from error
    world.remark(f"Written to {out}.")
