"""Where a case comes from: the pack, compiled once and kept in the user's cache folder.

The rule: with a cache in place, neither YAML, pydantic nor networkx is imported; without one, or with a
broken or older one, the pack is read and compiled again.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import tempfile
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

from assistant.version import program_version
from graph.case import Case
from graph.store import FORMAT, dump, load
from graph.weigh import reweighed, weighed

if TYPE_CHECKING:
    from collections.abc import Mapping
    from importlib.resources.abc import Traversable

DEFAULT_PROFILE = "three_barrel"
DEFAULT_PACK = "frozen_drinks"


def load_case(
    pack: str | Path | None = None,
    profile: str = DEFAULT_PROFILE,
    *,
    flavours: tuple[str, ...] = (),
    switches: Mapping[str, str] | None = None,
    factors: Mapping[str, float] | None = None,
    costs: Mapping[str, float] | None = None,
    cache: bool = True,
) -> Case:
    """Return the case of a pack and a profile.

    `pack` is a folder, or nothing for the shipped one. `factors` multiply the rates of the faults they
    name, `costs` stand in for the pack's; both are worked in after the cache, which so serves any history.
    Raises PackInvalid with every problem of the pack, PackMissing when there is no such pack or profile,
    OutOfRange for a factor or cost that is none.
    """
    case = _compiled(pack, profile, flavours, switches, cache=cache)
    if not factors and not costs:
        return case
    machine = weighed(case.machine, factors or {}, costs or {})
    return Case(machine, reweighed(case.tables, machine))


def _compiled(
    pack: str | Path | None,
    profile: str,
    flavours: tuple[str, ...],
    switches: Mapping[str, str] | None,
    *,
    cache: bool,
) -> Case:
    """Return the case as the pack alone has it, from the cache where it is there."""
    folder = pack_folder(pack)
    kept = cache_file(folder, profile, flavours, dict(switches or {})) if cache else None
    if kept is not None:
        with contextlib.suppress(OSError, ValueError, KeyError):
            return Case(*load(kept.read_bytes()))
    made = _compile(folder, profile, flavours, switches)
    if kept is not None:
        with contextlib.suppress(OSError):  # a cache that can't be written costs time, nothing else
            write_whole(kept, dump(made.machine, made.tables))
    return made


def pack_folder(pack: str | Path | None) -> Traversable:
    """Return the folder of a pack: a path, or the shipped pack."""
    return files("graph").joinpath("packs", DEFAULT_PACK) if pack is None else Path(pack)


def cache_file(
    folder: Traversable, profile: str, flavours: tuple[str, ...], switches: Mapping[str, str]
) -> Path:
    """Return where the compiled form is kept: named by the text of the pack and the program's version."""
    seal = hashlib.sha256()
    for file in sorted((f for f in folder.iterdir() if f.name.endswith(".yaml")), key=lambda f: f.name):
        seal.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    seal.update(repr((FORMAT, program_version(), profile, flavours, sorted(switches.items()))).encode())
    seal.update(_code_seal())
    return cache_folder() / f"{seal.hexdigest()[:32]}.npz"


def cache_folder() -> Path:
    """Return the folder for what can be made again."""
    base = os.environ.get("BARRELSIDE_CACHE") or platformdirs.user_cache_dir("barrelside", appauthor=False)
    return Path(base)


def _code_seal() -> bytes:
    """Return a mark of the code that compiles: a checkout in development has one version for long."""
    names = (
        "compile.py",
        "likelihood.py",
        "prior.py",
        "machine.py",
        "tables.py",
        "places.py",
        "weigh.py",
        "store.py",
    )
    folder = files("graph")
    found = [folder.joinpath(name) for name in names]
    for package in ("pack", "expand"):
        modules = sorted(folder.joinpath(package).iterdir(), key=lambda file: file.name)
        found += [file for file in modules if file.name.endswith(".py")]
    return b"".join(hashlib.sha256(file.read_bytes()).digest() for file in found)


def _compile(
    folder: Traversable, profile: str, flavours: tuple[str, ...], switches: Mapping[str, str] | None
) -> Case:
    from graph.compile import compile_tables  # noqa: PLC0415 - heavy, and needed without a cache only
    from graph.expand import expand  # noqa: PLC0415 - likewise
    from graph.load import digest, load_texts, read_folder  # noqa: PLC0415 - likewise

    texts = read_folder(folder)
    machine = expand(load_texts(texts), profile, digest(texts), flavours=flavours, switches=switches)
    return Case(machine, compile_tables(machine))


def write_whole(path: Path, data: bytes) -> None:
    """Write whole or not at all: another process may read at any moment."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, suffix=".tmp")
    with os.fdopen(handle, "wb") as file:
        file.write(data)
    Path(name).replace(path)
