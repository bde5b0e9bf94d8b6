"""The compared phrases as bytes and back, so that a cache can spare the seconds that they take to make.

Rule of the file: never pickled; what comes out equals what went in, or ValueError is raised. A cache is
keyed by its keeper; the pack's digest and the code's own version belong in that key.
"""

from __future__ import annotations

import io
import json
import zipfile
from dataclasses import astuple, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from assistant.hear.apart import Apart
from assistant.hear.lean import Leans
from assistant.hear.match import Index
from assistant.hear.phrasebook import Compared, concepts_of
from assistant.hear.regress import Regression, telling
from assistant.hear.spelling import Vocabulary
from assistant.hear.table import Meaning, Table

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from graph.machine import Machine

    Arrays = dict[str, NDArray[Any]]

FORMAT = 6
TABLES = ("symptoms", "outcomes")
SPACES = ("tokens", "letters", "whole")
BROKEN = (zipfile.BadZipFile, EOFError, OSError, KeyError, TypeError, IndexError, RuntimeError)


def dump(kept: Compared) -> bytes:
    """Return the compared phrases as one numpy archive."""
    words: dict[str, Any] = {"format": FORMAT, "counts": kept.vocabulary.counts, "timed": sorted(kept.timed)}
    arrays: Arrays = {}
    for name in TABLES:
        table: Table = getattr(kept, name)
        words[name] = [astuple(meaning) for meaning in table.meanings]
        arrays[f"{name}.owners"] = table.owners
        words[f"{name}.leans"] = [[stem, list(by.items())] for stem, by in table.leans.of.items()]
        for space in SPACES:
            index: Index = getattr(table, space)
            words[f"{name}.{space}"] = [index.size, index.unknown, list(index.spans)]
            arrays[f"{name}.{space}.spans"] = np.array(list(index.spans.values()), dtype=np.float64)
            arrays[f"{name}.{space}.rows"] = index.rows
            arrays[f"{name}.{space}.weights"] = index.weights
        if table.regression is not None:
            words[f"{name}.classes"] = table.classes
            arrays[f"{name}.regression"] = table.regression.weights
        if table.apart is not None:
            arrays[f"{name}.apart"] = table.apart.weights
    arrays["words"] = np.frombuffer(json.dumps(words, ensure_ascii=False).encode(), dtype=np.uint8)
    buffer = io.BytesIO()
    np.savez(buffer, **arrays)  # type: ignore[arg-type]  # numpy's own keyword may not be named by ours
    return buffer.getvalue()


def load(data: bytes, machine: Machine) -> Compared:
    """Return what `dump` was given, for the same machine. Raises ValueError where the bytes are not ours."""
    try:
        return _load(data, machine)
    except (*BROKEN, ValueError) as problem:
        raise ValueError("These are no kept phrases, or they are broken.") from problem


def _load(data: bytes, machine: Machine) -> Compared:
    with np.load(io.BytesIO(data), allow_pickle=False) as archive:
        arrays = {name: archive[name] for name in archive.files}
    words = json.loads(arrays["words"].tobytes().decode())
    if words["format"] != FORMAT:
        raise ValueError("They have another format.")
    symptoms, outcomes = (_table(name, words, arrays, machine) for name in TABLES)
    vocabulary = Vocabulary.counted(words["counts"])
    return Compared(vocabulary, symptoms, outcomes, frozenset(words["timed"]))


def _table(name: str, words: Mapping[str, Any], arrays: Arrays, machine: Machine) -> Table:
    tokens, letters, whole = (_index(f"{name}.{space}", words, arrays) for space in SPACES)
    meanings = tuple(Meaning(*parts) for parts in words[name])
    leans = Leans({stem: dict(by) for stem, by in words[f"{name}.leans"]})
    table = Table(meanings, arrays[f"{name}.owners"], tokens, letters, whole, concepts_of(machine), leans)
    if f"{name}.apart" in arrays:
        table = replace(table, apart=Apart(arrays[f"{name}.apart"]))
    if f"{name}.classes" not in words:
        return table
    fitted = Regression(telling(tokens), arrays[f"{name}.regression"])
    return replace(table, regression=fitted, classes=tuple(words[f"{name}.classes"]))


def _index(name: str, words: Mapping[str, Any], arrays: Arrays) -> Index:
    size, unknown, names = words[name]
    spans = [(int(first), int(last), idf) for first, last, idf in arrays[f"{name}.spans"].tolist()]
    return Index(
        size, dict(zip(names, spans, strict=True)), arrays[f"{name}.rows"], arrays[f"{name}.weights"], unknown
    )
