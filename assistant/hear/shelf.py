"""A machine's phrasebook from the user's cache folder, made and kept there where it is not yet."""

from __future__ import annotations

import contextlib
import hashlib
from importlib.resources import files
from typing import TYPE_CHECKING

from assistant.hear import store
from assistant.hear.phrasebook import Phrasebook, compared
from assistant.library import cache_folder, write_whole

if TYPE_CHECKING:
    from pathlib import Path

    from graph.machine import Machine


def phrasebook(machine: Machine) -> Phrasebook:
    """Return the phrasebook of a machine; a cache that can't be read or written costs time, nothing else."""
    kept = kept_file(machine)
    with contextlib.suppress(OSError, ValueError):
        return Phrasebook.of(machine, store.load(kept.read_bytes(), machine))
    made = compared(machine)
    with contextlib.suppress(OSError):
        write_whole(kept, store.dump(made))
    return Phrasebook.of(machine, made)


def kept_file(machine: Machine) -> Path:
    """Return where the phrases are kept: named by the machine and by the code that compares them."""
    seal = hashlib.sha256(repr((machine.digest, machine.profile, machine.flavours, store.FORMAT)).encode())
    for file in sorted(
        (f for f in files("assistant.hear").iterdir() if f.name.endswith(".py")), key=lambda f: f.name
    ):
        seal.update(file.read_bytes())
    return cache_folder() / f"phrases-{seal.hexdigest()[:32]}.npz"
