"""Where a call comes from: the site and machine of the address book that a person means.

The rule: what is said by hand goes before what stands in the book, and a site that the book does not
have stays what the person called it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant import sites_wording as words
from assistant.errors import WrongUse
from assistant.history import folded

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from assistant.conversation import Setup
    from assistant.sites import Book, Site, SiteMachine

NEAR = 75  # of 100; how alike a name must be to be suggested


@dataclass(frozen=True, slots=True)
class Place:
    """A site and a machine as they are written down, with every name they go by and what the book says."""

    site: str
    unit: str
    sites: tuple[str, ...]
    units: tuple[str, ...]
    machine: SiteMachine | None = None
    switches: tuple[tuple[str, str], ...] = ()
    costs: tuple[tuple[str, float], ...] = ()
    remarks: tuple[str, ...] = ()


def anywhere(site: str, unit: str) -> Place:
    """Return a place that stands in no book."""
    return Place(site, unit, (site,), (unit,))


def find_place(book: Book, site: str, unit: str, *, profile: str = "") -> Place:
    """Return the place that a site and a machine name, by id or name, whatever the letter case.

    A site that is not in the book stays as written, with a remark. At a site that is, a machine must be
    one of its own unless the person says with `profile` what it is. Raises WrongUse naming those there are.
    """
    key = _named(site, {name: (name, each.name) for name, each in book.sites.items()})
    if key is None:
        near = _nearest(site, [each.name for each in book.sites.values()], book.sites)
        return replace(anywhere(site, unit), remarks=(words.unknown_site(site, near),))
    found = book.sites[key]
    machine = _machine(found, unit)
    if machine is None and not (unit and profile):
        raise WrongUse(_no_machine(found, unit))
    if machine is None:
        return replace(_at(key, found, unit), remarks=(words.unknown_machine(unit, found.name),))
    return of_machine(key, found, machine)


def place_of(book: Book, key: str) -> Place:
    """Return the place that a key means, `site/machine`; without a machine it is some other one there."""
    site, _, unit = key.partition("/")
    found = book.sites[site]
    return of_machine(site, found, unit) if unit in found.machines else _at(site, found, "")


def of_machine(key: str, site: Site, unit: str) -> Place:
    """Return the place of a machine of the book, by the keys of site and machine."""
    return _with_machine(_at(key, site, unit), site, unit)


def setup_at(place: Place, setup: Setup) -> Setup:
    """Return the setup of a call from a place; what the person gave goes before the book.

    The flavours of the book belong to its profile, so they are left where the person names another.
    """
    machine = place.machine
    own = machine is not None and setup.profile in ("", machine.profile)
    given = {pair[0] for pair in setup.switches}
    booked = tuple(pair for pair in place.switches if pair[0] not in given)
    return replace(
        setup,
        profile=setup.profile or (machine.profile if machine is not None else ""),
        flavours=setup.flavours or (machine.flavours if machine is not None and own else ()),
        switches=(*booked, *setup.switches),
        costs=setup.costs or place.costs,
    )


def _at(key: str, site: Site, unit: str) -> Place:
    return Place(
        site.name,
        unit,
        (key, site.name),
        (unit,),
        switches=tuple(site.switches.items()),
        costs=tuple(site.costs.items()),
    )


def _with_machine(place: Place, site: Site, key: str) -> Place:
    machine = site.machines[key]
    only = ("",) if len(site.machines) == 1 else ()  # where one machine stands, nobody needs to name it
    return replace(
        place,
        unit=machine.title(key),
        units=(key, machine.title(key), *only),
        machine=machine,
        switches=tuple({**site.switches, **machine.switches}.items()),
        costs=tuple({**site.costs, **machine.costs}.items()),
    )


def _machine(site: Site, unit: str) -> str | None:
    """Return the key of the machine that `unit` means; the only one needs no name."""
    if not unit:
        return next(iter(site.machines)) if len(site.machines) == 1 else None
    return _named(unit, {key: (key, each.title(key)) for key, each in site.machines.items()})


def _named(name: str, known: Mapping[str, Iterable[str]]) -> str | None:
    wanted = folded(name)
    return next((key for key, names in known.items() if wanted in map(folded, names)), None)


def _no_machine(site: Site, unit: str) -> str:
    titles = {each.title(key): each.profile for key, each in site.machines.items()}
    if not unit:
        return words.which_machine(site.name, titles)
    return words.no_machine(unit, site.name, _nearest(unit, titles, site.machines), titles)


def _nearest(name: str, titles: Iterable[str], keys: Iterable[str]) -> str:
    """Return the title, else the key, that is most like a name; empty where none is."""
    from rapidfuzz import fuzz, process, utils  # noqa: PLC0415 -- a name that is known never needs it

    for known in (tuple(titles), tuple(keys)):
        best = process.extractOne(
            name, known, scorer=fuzz.WRatio, processor=utils.default_process, score_cutoff=NEAR
        )
        if best is not None:
            return best[0]
    return ""
