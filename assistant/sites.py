"""The address book: the sites that a user looks after, and which machines stand there.

    sites:
      gull_point:
        name: Gull Point
        phone: "+44 1632 960101"
        switches: {gas_source: changeover}
        machines:
          foyer:
            profile: three_barrel
            flavours: [cola, cherry, lemon]
            installed: "2019-04-02"
            serviced: {water_filter: "2026-05-12", sanitising: "2026-11-02"}

It is read like a pack: by the same reader, with every problem by file, line and field. What must agree
with a pack (profiles, switches, service) is checked where one is at hand. A machine's own switches and
costs go before those of its site.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from assistant.errors import WrongUse
from assistant.history import folded
from graph.complaint import did_you_mean
from graph.errors import Problem
from graph.load import checked
from graph.pack import Amount, Costs, Id, Model, Text
from graph.yaml_text import Document, Trail, dotted, read

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from graph.pack import Knowledge

FILE = "sites.yaml"
VARIABLE = "BARRELSIDE_SITES"


class SiteMachine(Model):
    """One machine at a site; what it does not say holds as its profile has it."""

    name: str = ""
    profile: Id
    flavours: tuple[Text, ...] = ()
    switches: dict[Id, Id] = Field(default_factory=dict)
    costs: dict[Id, Amount] = Field(default_factory=dict)  # instead of the pack's
    installed: str = ""  # YYYY-MM-DD
    serviced: dict[Id, str] = Field(default_factory=dict)  # piece of service -> when it was last done
    note: str = ""

    def title(self, key: str) -> str:
        """Return what the machine is called: its name, else its key in the book."""
        return self.name or key


class Site(Model):
    """A place with machines; its switches and costs hold for all of them."""

    name: Text
    phone: str = ""
    note: str = ""
    switches: dict[Id, Id] = Field(default_factory=dict)
    costs: dict[Id, Amount] = Field(default_factory=dict)
    machines: Annotated[dict[Id, SiteMachine], Field(min_length=1)]


class Book(Model):
    """The whole file."""

    sites: Annotated[dict[Id, Site], Field(min_length=1)]


class BookInvalid(WrongUse):
    """The address book says something wrong; `problems` holds all of it, the message the first."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        self.problems = problems
        more = len(problems) - 1
        tail = f" ({more} more: see barrelside sites check)" if more else ""
        super().__init__(f"{problems[0]}{tail}")


def book_path(given: Path | None, environ: Mapping[str, str]) -> Path | None:
    """Return the address book: the file given, else the environment's, else the user's own if there is one.

    Raises WrongUse for a file that was named and is not there.
    """
    from pathlib import Path  # noqa: PLC0415 -- annotations alone do not need it

    named = given if given is not None else Path(environ[VARIABLE]) if environ.get(VARIABLE) else None
    path = named if named is not None else own_path()
    if path.is_file():
        return path
    if named is None:
        return None
    whose = "--sites" if given is not None else VARIABLE
    raise WrongUse(f"There is no address book {path}, which {whose} names; write one or name another.")


def own_path() -> Path:
    """Return where the user's own address book belongs, which need not exist yet."""
    from platformdirs import user_config_path  # noqa: PLC0415 -- only where a folder is needed

    return user_config_path("barrelside", appauthor=False) / FILE


def read_book(path: Path) -> Book:
    """Return the address book at `path`; raise WrongUse, as BookInvalid with every problem of it."""
    document = read_document(path)
    problems: list[Problem] = []
    book = checked(Book, document, problems)
    if book is not None:
        problems.extend(_problems(book, document))
    if book is None or problems:
        raise BookInvalid(tuple(sorted(problems, key=lambda problem: problem.line)))
    return book


def read_document(path: Path) -> Document:
    """Return the file as text with lines; raise WrongUse where the system does not give it to us."""
    try:
        text = path.read_bytes().decode("utf-8-sig", "surrogateescape")
    except OSError as error:
        reason = error.strerror or error
        raise WrongUse(
            f"Cannot read the address book {path} ({reason}); name another with --sites."
        ) from error
    return read(str(path), text)


def _problems(book: Book, document: Document) -> Iterator[Problem]:
    """Yield what is wrong with a book whatever the pack: names given twice, costs and dates that are none."""
    owners: dict[str, str] = {}
    for key, site in book.sites.items():
        here: Trail = ("sites", key)
        for name in dict.fromkeys((folded(key), folded(site.name))):
            if owners.setdefault(name, key) != key:
                what = f'"{site.name}" already means the site {owners[name]}.'
                yield _problem(document, (*here, "name"), what, "Give each site a name of its own.")
        yield from _costs(document, here, site.costs)
        yield from _units(document, here, site)
        for unit, machine in site.machines.items():
            trail = (*here, "machines", unit)
            yield from _costs(document, trail, machine.costs)
            if machine.installed:
                yield from _date(document, (*trail, "installed"), machine.installed)
            for name, day in machine.serviced.items():
                yield from _date(document, (*trail, "serviced", name), day)


def _units(document: Document, here: Trail, site: Site) -> Iterator[Problem]:
    owners: dict[str, str] = {}
    for unit, machine in site.machines.items():
        for name in dict.fromkeys((folded(unit), folded(machine.title(unit)))):
            if owners.setdefault(name, unit) != unit:
                what = f'"{machine.title(unit)}" already means the machine {owners[name]} of this site.'
                trail = (*here, "machines", unit)
                yield _problem(document, trail, what, "Give each machine of a site a name of its own.")


def _costs(document: Document, here: Trail, costs: Mapping[str, float]) -> Iterator[Problem]:
    yield from _unknown(document, (*here, "costs"), costs, "cost", Costs.model_fields)


def _date(document: Document, trail: Trail, text: str) -> Iterator[Problem]:
    if not _is_date(text):
        yield _problem(document, trail, f'"{text}" is no date.', "Write it as 2024-05-31.")


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def disagreements(path: Path, knowledge: Knowledge) -> tuple[Problem, ...]:
    """Return what in a sound book does not agree with a pack: profiles, flavours, switches, values."""
    return tuple(_disagreements(read_book(path), read_document(path), knowledge))


def _disagreements(book: Book, document: Document, knowledge: Knowledge) -> Iterator[Problem]:
    for key, site in book.sites.items():
        here: Trail = ("sites", key)
        yield from _switches(document, here, site.switches, knowledge)
        for unit, machine in site.machines.items():
            trail = (*here, "machines", unit)
            yield from _switches(document, trail, machine.switches, knowledge)
            yield from _profile(document, trail, machine, knowledge)
            service = (*trail, "serviced")
            yield from _unknown(document, service, machine.serviced, "piece of service", knowledge.service)


def _profile(
    document: Document, here: Trail, machine: SiteMachine, knowledge: Knowledge
) -> Iterator[Problem]:
    profile = knowledge.profiles.get(machine.profile)
    if profile is None:
        yield _stranger(document, (*here, "profile"), machine.profile, "profile", knowledge.profiles)
    elif machine.flavours and len(machine.flavours) != profile.barrels:
        what = f"{len(machine.flavours)} flavours, but {machine.profile} has {profile.barrels} barrels."
        yield _problem(document, (*here, "flavours"), what, "Name one for each barrel, in order, or none.")


def _switches(
    document: Document, here: Trail, switches: Mapping[str, str], knowledge: Knowledge
) -> Iterator[Problem]:
    known = knowledge.pack.switches
    yield from _unknown(document, (*here, "switches"), switches, "switch", known)
    for switch, value in switches.items():
        if switch in known and value not in known[switch].values:
            trail = (*here, "switches", switch)
            yield _stranger(document, trail, value, f"value of {switch}", known[switch].values)


def _unknown(
    document: Document, here: Trail, names: Iterable[str], kind: str, known: Iterable[str]
) -> Iterator[Problem]:
    options = tuple(known)
    yield from (_stranger(document, (*here, n), n, kind, options) for n in names if n not in options)


def _stranger(document: Document, trail: Trail, name: str, kind: str, known: Iterable[str]) -> Problem:
    options = tuple(known)
    remedy = did_you_mean(name, options) or f"There are: {', '.join(options)}."
    return _problem(document, trail, f'"{name}" is no {kind}.', remedy)


def _problem(document: Document, trail: Trail, what: str, remedy: str) -> Problem:
    return Problem(document.file, document.line(trail), dotted(trail), what, remedy)
