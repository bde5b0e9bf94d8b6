"""The texts, the knowledge and the machine that an author's command is about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.errors import WrongUse
from assistant.library import DEFAULT_PACK, DEFAULT_PROFILE
from graph.complaint import did_you_mean
from graph.load import digest, find_pack, load_pack, load_texts, read_folder

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from graph.machine import Machine
    from graph.pack import Knowledge


def pack_files(pack: str) -> dict[str, str]:
    """Return the texts of a pack by file name; "" means the shipped one.

    Raises PackMissing when there is no such pack.
    """
    return read_folder(find_pack(pack or DEFAULT_PACK))


def pack_knowledge(pack: str) -> Knowledge:
    """Return what the authors of a pack wrote; raise PackInvalid with everything that is wrong."""
    return load_pack(pack or DEFAULT_PACK)


def pack_machine(pack: str, profile: str) -> Machine:
    """Return the machine of a profile; "" means the default one, or the first that the pack has."""
    from graph.expand import expand  # noqa: PLC0415 -- who reads the knowledge alone does not need it

    files = pack_files(pack)
    knowledge = load_texts(files)
    return expand(knowledge, profile or _usual(knowledge.profiles), digest(files))


def _usual(profiles: Mapping[str, object]) -> str:
    return DEFAULT_PROFILE if DEFAULT_PROFILE in profiles else next(iter(profiles))


def nothing_called(name: str, known: Iterable[str]) -> WrongUse:
    """Return the error for a name that nothing in the pack answers to."""
    hint = did_you_mean(name, known) or "Give an id such as those that `pack check` names, or a ref."
    return WrongUse(f'Nothing in this pack is called "{name}". {hint}')
