"""The packs under `packs/`: one good one, and bad files with one fault each.

`bad/pack-*.yaml` stands in for the good pack's `pack.yaml`, `bad/profiles-*.yaml` for its `profiles.yaml`,
`bad/heard-*.yaml` is a `heard.yaml`; every other bad file is one more chapter. Beside each, `.expected` holds the problems, one a line.
"""

from pathlib import Path

GOOD = Path(__file__).parent / "packs" / "good"
BAD = Path(__file__).parent / "packs" / "bad"
BAD_STEMS = tuple(sorted(file.stem for file in BAD.glob("*.yaml")))


def slot(stem):
    """Return the name under which a bad file joins the good pack."""
    head = stem.partition("-")[0]
    return f"{head}.yaml" if head in {"pack", "profiles", "heard"} else f"{stem}.yaml"


def bad_bytes(stem):
    """Return the files of the good pack with one bad one in its place, as bytes by name."""
    files = {file.name: file.read_bytes() for file in GOOD.glob("*.yaml")}
    return files | {slot(stem): (BAD / f"{stem}.yaml").read_bytes()}


def bad_problems(stem):
    """Return what must be said about a bad file."""
    return (BAD / f"{stem}.expected").read_text(encoding="utf-8")
