"""Where session records live, what they are called, and how one is found again.

A record is named for when it began, on the local clock, and where:
`2026-11-25-091530-harbour-street.jsonl`. Any unambiguous beginning of the name finds it.
"""

from __future__ import annotations

import re
import shlex
import unicodedata
from difflib import get_close_matches
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.errors import SessionNotFound

if TYPE_CHECKING:
    from datetime import datetime

SUFFIX = ".jsonl"
_SLUG_LENGTH = 40
_SHOWN = 5  # how many names a message lists


def user_folder() -> Path:
    """Return the folder of this user's data, which need not exist yet."""
    from platformdirs import user_data_path  # noqa: PLC0415 -- only where a folder is needed

    return user_data_path("barrelside", appauthor=False)


def records_folder(given: Path | None) -> Path:
    """Return the folder of session records: the one given, else the user's own."""
    return given if given is not None else user_folder() / "sessions"


def called(path: Path) -> str:
    """Return what to call a record in `resume`: its name, or the file where it lies in another folder."""
    return path.stem if path.parent == records_folder(None) else shlex.quote(str(path))


def slug(site: str) -> str:
    """Return a place's name as part of a file name: small ASCII letters, digits, hyphens."""
    plain = unicodedata.normalize("NFKD", site).encode("ascii", "ignore").decode().casefold()
    return re.sub("[^a-z0-9]+", "-", plain).strip("-")[:_SLUG_LENGTH].strip("-")


def new_path(folder: Path, started: datetime, site: str) -> Path:
    """Return a name for a new record that no file in `folder` has."""
    stem = "-".join(filter(None, (started.strftime("%Y-%m-%d-%H%M%S"), slug(site))))
    names = (stem if number == 1 else f"{stem}-{number}" for number in count(1))
    return next(path for path in (folder / f"{name}{SUFFIX}" for name in names) if not path.exists())


def all_records(folder: Path) -> tuple[Path, ...]:
    """Return the records in `folder`, the newest first; none where there is no such folder."""
    try:
        names = [path for path in folder.iterdir() if path.suffix == SUFFIX]
    except OSError:
        return ()
    return tuple(sorted(names, key=lambda path: path.name, reverse=True))


def find(name: str, folder: Path) -> Path:
    """Return the record that a path or the beginning of a name means; raise SessionNotFound."""
    given = Path(name)
    if _is_file(given):
        return given
    known = all_records(folder)
    exact = [path for path in known if name in (path.name, path.stem)]
    found = exact or [path for path in known if name and path.name.startswith(name)]
    if len(found) == 1:
        return found[0]
    if found:
        raise SessionNotFound(f'"{name}" begins {len(found)} records: {_listed(found)}; write more of it.')
    raise SessionNotFound(f'No session record "{name}" in {folder}; {_hint(name, known)}')


def _is_file(path: Path) -> bool:
    """Return whether there is such a file; a name that no system allows is none."""
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _listed(paths: list[Path]) -> str:
    shown = ", ".join(path.stem for path in paths[:_SHOWN])
    return f"{shown}, ..." if len(paths) > _SHOWN else shown


def _hint(name: str, known: tuple[Path, ...]) -> str:
    near = get_close_matches(name, [path.stem for path in known], n=1, cutoff=0.5)
    if near:
        return f"did you mean {near[0]}?"
    return f"the newest is {known[0].stem}." if known else "there are none yet."
