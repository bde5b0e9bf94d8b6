"""Pack folder -> `Knowledge`, or every problem at once with its file, line and field.

A pack folder holds `pack.yaml` (model `Pack`), `profiles.yaml` (model `Profiles`), perhaps `heard.yaml`
(model `Heard`), and chapters: every other `*.yaml`, in order of file name. Rule of the file: `read_folder` is
the only function that reads files; all others take texts. An id belongs to one chapter, where a component and
its check may share it; kinds of one name space (`SPACES`) may not. References between elements are not looked
at here.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from pydantic import BaseModel, ValidationError

from graph import schema
from graph.complaint import complaints, did_you_mean
from graph.errors import PackInvalid, PackMissing, Problem
from graph.pack import Chapter, Heard, Knowledge, Pack, Profiles
from graph.yaml_text import WHOLE, Document, Trail, dotted, normalise, read, visible

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from importlib.resources.abc import Traversable

    Folder = Path | Traversable
    Model = TypeVar("Model", bound=BaseModel)

HEAD, PROFILES, HEARD = "pack.yaml", "profiles.yaml", "heard.yaml"
NO_CHAPTERS = frozenset({HEAD, PROFILES, HEARD})
KINDS = tuple(name for name in Chapter.model_fields if name not in {"title", "rests_on"})
# Kinds that share a name space: a reference may mean any of the first three; the last two are asked alike.
SPACES = (frozenset({"faults", "events", "symptoms"}), frozenset({"symptoms", "checks"}))


def load_pack(name_or_path: str | Path) -> Knowledge:
    """Return the knowledge in a shipped pack or in a folder.

    Raises `PackMissing` if there is no such pack, `PackInvalid` with every problem if it is not sound.
    """
    return load_texts(read_folder(find_pack(name_or_path)))


def shipped() -> Traversable:
    """Return the folder of the pack that comes with the program."""
    return _packs() / "frozen_drinks"


def find_pack(name_or_path: str | Path) -> Folder:
    """Return the folder of a shipped pack by its name, else the folder at that path.

    Write `./name` for a folder here that is called like a shipped pack. Raises `PackMissing`.
    """
    ours = _names(entry for entry in _packs().iterdir() if entry.is_dir() and entry.name[0].isalpha())
    if name_or_path in ours:
        return _packs() / str(name_or_path)
    folder = Path(name_or_path)
    if str(name_or_path) and folder.is_dir():  # "" would mean the folder we happen to be in
        return folder
    remedy = did_you_mean(str(name_or_path), ours) or f"Shipped: {', '.join(ours)}."
    raise PackMissing(f'There is no pack folder "{visible(str(name_or_path))}". {remedy}')


def _packs() -> Traversable:
    return resources.files("graph") / "packs"


def read_folder(folder: Folder) -> dict[str, str]:
    """Return the text of every YAML file in `folder`, by name in order; nothing is judged yet.

    Bytes that are not UTF-8 come through as lone surrogates, which `load_texts` reports with their line.
    Names that start with a dot are left to the editors that make them. Raises `PackMissing` if there is
    no such folder, `PackInvalid` if a file cannot be read at all.
    """
    if not folder.is_dir():
        raise PackMissing(f'There is no folder "{visible(str(folder))}". Give the folder that holds {HEAD}.')
    texts: dict[str, str] = {}
    problems: list[Problem] = []
    for name in _names(entry for entry in folder.iterdir() if _is_ours(entry.name)):
        try:
            texts[name] = (folder / name).read_bytes().decode("utf-8-sig", "surrogateescape")
        except OSError as error:
            problems.append(Problem(name, 1, WHOLE, f"cannot be read ({error.strerror})."))
    if problems:
        raise PackInvalid(tuple(problems))
    return texts


def _names(entries: Iterable[Folder]) -> tuple[str, ...]:
    return tuple(sorted(entry.name for entry in entries))


def _is_ours(name: str) -> bool:
    return name.endswith((".yaml", ".yml")) and not name.startswith(".")


def digest(files: Mapping[str, str]) -> str:
    """Return the SHA-256 of a pack's texts as 64 hexadecimal digits; the first 16 do as a short form.

    Files count in order of name, whatever order they come in. Line ends and byte order marks do not
    count, so that a pack has one digest on every system.
    """
    total = hashlib.sha256()
    for name in sorted(files):
        for part in (name, normalise(files[name])):
            content = part.encode("utf-8", "surrogatepass")
            total.update(b"%d:" % len(content) + content)  # lengths keep one part from running into the next
    return total.hexdigest()


def load_texts(files: Mapping[str, str]) -> Knowledge:
    """Return the knowledge in these texts, by file name; raise `PackInvalid` with every problem there is."""
    documents = {name: read(name, files[name]) for name in sorted(files) if name.endswith(".yaml")}
    problems = [*_missing_files(files), *_clashes(documents.values())]
    head = checked(Pack, documents.get(HEAD), problems)
    profiles = checked(Profiles, documents.get(PROFILES), problems)
    heard = checked(Heard, documents.get(HEARD), problems) or Heard()
    chapters = {name: checked(Chapter, documents[name], problems) for name in _chapter_names(files)}
    if head is None or profiles is None or problems:
        raise PackInvalid(tuple(sorted(problems, key=lambda problem: (problem.file, problem.line))))
    found = {name: chapter for name, chapter in chapters.items() if chapter is not None}
    return _merged(head, profiles, heard, found)


def _chapter_names(files: Iterable[str]) -> list[str]:
    return [name for name in sorted(files) if name.endswith(".yaml") and name not in NO_CHAPTERS]


def _missing_files(files: Mapping[str, str]) -> Iterator[Problem]:
    for name, holds in ((HEAD, "what holds for all chapters"), (PROFILES, "the kinds of machine")):
        if name not in files:
            yield Problem(name, 1, WHOLE, "is missing from the pack folder.", f"Add it; it holds {holds}.")
    if not _chapter_names(files):
        yield Problem("*.yaml", 1, WHOLE, "the pack folder has no chapter.", "Add one, such as gas.yaml.")
    for name in files:
        if not name.endswith(".yaml"):
            what = "is not read: the names of a pack's files end in .yaml."
            yield Problem(name, 1, WHOLE, what, "Rename it.")


def _merged(head: Pack, profiles: Profiles, heard: Heard, chapters: Mapping[str, Chapter]) -> Knowledge:
    merged: dict[str, dict[str, BaseModel]] = {kind: {} for kind in KINDS}
    chapter_of: dict[str, str] = {}
    for name, chapter in chapters.items():
        for kind in KINDS:
            elements = _sourced(getattr(chapter, kind), chapter.rests_on.get(kind))  # type: ignore[call-overload]
            merged[kind].update(elements)
            chapter_of.update(dict.fromkeys(elements, name.removesuffix(".yaml")))
    parts = {"pack": head, "profiles": profiles.profiles, **merged, "chapter_of": chapter_of, "heard": heard}
    return Knowledge.model_validate(parts)


def _sourced(elements: Mapping[str, BaseModel], source: str | None) -> Mapping[str, BaseModel]:
    """Return the elements of one kind of a chapter; those that name no source rest on the chapter's."""
    if source is None:
        return elements
    return {
        name: element
        if "source" in element.model_fields_set
        else element.model_copy(update={"source": source})
        for name, element in elements.items()
    }


def _clashes(documents: Iterable[Document]) -> Iterator[Problem]:
    """Yield a problem for each id that already stands where it may not stand twice."""
    seen: dict[str, list[tuple[Document, Trail]]] = {}
    for document, kind, key in _ids(documents):
        trail = (kind, key)
        prior = next((spot for spot in seen.get(key, ()) if _clash(spot, (document, trail))), None)
        if prior is None:
            seen.setdefault(key, []).append((document, trail))
            continue
        there, earlier = prior
        what = f"this id stands already in {there.file}:{there.line(earlier)}, under {earlier[0]}."
        yield Problem(document.file, document.line(trail), dotted(trail), what, "Rename one of the two.")


def _ids(documents: Iterable[Document]) -> Iterator[tuple[Document, str, str]]:
    for document in documents:
        if document.file in NO_CHAPTERS or not isinstance(document.value, dict):
            continue
        for kind in KINDS:
            elements = document.value.get(kind)
            for key in elements if isinstance(elements, dict) else ():
                yield document, kind, key


def _clash(one: tuple[Document, Trail], other: tuple[Document, Trail]) -> bool:
    if one[0] is not other[0]:
        return True
    kinds = {one[1][0], other[1][0]}
    return any(kinds <= space for space in SPACES)


def checked(model: type[Model], document: Document | None, problems: list[Problem]) -> Model | None:
    """Return the model that `document` says, or None after adding what is wrong with it to `problems`."""
    if document is None:
        return None
    problems.extend(document.problems)
    if not document.complete:
        return None
    try:
        return model.model_validate(document.value, strict=True)
    except ValidationError as error:
        known = {problem.path for problem in document.problems}
        found = complaints(document, schema.schema_of(model), error.errors(include_url=False))
        problems.extend(problem for problem in found if problem.path not in known)
        return None


@dataclass(frozen=True, slots=True)
class Marks:
    """Where the things of a pack stand, for whoever finds a problem later than the loader does."""

    documents: tuple[Document, ...]

    def problem(self, trail: Trail, what: str, remedy: str = "") -> Problem:
        """Return the problem with the file and line of `trail`, such as ("faults", "gas.empty", "rate")."""
        there = max(self.documents, key=lambda document: _known(document, trail))
        return Problem(there.file, there.line(trail), dotted(trail), what, remedy)


def _known(document: Document, trail: Trail) -> int:
    return next((length for length in range(len(trail), 0, -1) if trail[:length] in document.lines), 0)


def marks(files: Mapping[str, str]) -> Marks:
    """Return the marks of these texts, which must not be empty; costs one reading of them."""
    return Marks(tuple(read(name, files[name]) for name in sorted(files)))
