"""Which version of the program this is."""

from __future__ import annotations

from importlib import metadata


def program_version() -> str:
    """Return the version that is installed; a checkout that is not installed has none."""
    try:
        return metadata.version("barrelside")
    except metadata.PackageNotFoundError:
        return "0+unknown"
