"""Which places of the address book a line names: the site, and the machine there.

The rule: a site is named by its whole name, or by the words of it that no other site has; a machine by any
such word of its own. What is near to a site's name, or leaves the machine open, is for the person to say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING, TypeVar

from assistant.facts import Fact

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from assistant.sites import Book

K = TypeVar("K")
Words = tuple[str, ...]

NEAR = 78.0  # of 100; how like a name some words must be to be asked about
SHORTEST = 4  # letters of a word that stands for a whole name, or may be misspelled
PART = 0.7  # score of one word out of a site's name
_SMALL = """
the a an at in on of by to and or its it's it is i'm im we're were we here hi hello this that
from site one ones cinema place machine unit called calling please er um uh no yes sorry our my
for there think mean meant which with i you know as speaking just
"""
SMALL = frozenset(_SMALL.split())
_FIGURES = {"2": "two", "3": "three", "4": "four"}
_OF_A_BARREL = frozenset(("barrel", "barrels", "side", "bowl", "head", "nozzle", "tap", "handle", "flavour"))


@dataclass(frozen=True, slots=True)
class Stretch:
    """Words of a line that call something, and how surely: 1 is to the letter."""

    words: Words
    score: float

    @property
    def sure(self) -> bool:
        """Return whether the words are a name to the letter."""
        return self.score >= 1.0


def spotted(book: Book, text: str, among: Iterable[str] = ()) -> tuple[Fact, ...]:
    """Return the places that a line names, as facts; a certain one stands alone.

    `among` are places that were just offered, as `site/machine`: a word of its own picks one of them.
    """
    line = _words(text)
    offered = [(site, unit) for site, _, unit in (each.partition("/") for each in among)]
    known = [pair for pair in offered if pair[0] in book.sites and pair[1] in book.sites[pair[0]].machines]
    picked = _by_profile(book, line, known) or _by_own_words(
        line, {pair: _both_names(book, *pair) for pair in known}
    )
    if len(picked) == 1:
        return (_fact(book, *picked[0], line, certain=True),)
    return _by_site(book, line) or _by_machine(book, line)


def without(text: str, facts: Iterable[Fact]) -> str:
    """Return a line without the words that places were read off; empty where only small words are left."""
    for word in dict.fromkeys(chain(*(fact.words.split() for fact in facts))):
        text = re.sub(rf"(?<!\w){re.escape(word)}(?!\w)", " ", text, count=1, flags=re.IGNORECASE)
    left = " ".join(text.split()).strip(" ,.;:-")
    return left if any(word not in SMALL for word in _words(left)) else ""


def _words(text: str) -> Words:
    return tuple(re.findall(r"[^\W_]+(?:['\u2019][^\W_]+)?", text.casefold()))


def _both_names(book: Book, site: str, unit: str) -> str:
    return f"{book.sites[site].name} {site} {book.sites[site].machines[unit].title(unit)} {unit}"


def _own(names: Mapping[K, str]) -> dict[K, Words]:
    """Return for each thing the words of its names that are in no other's, but for small ones."""
    words = {key: _words(name) for key, name in names.items()}
    others = {key: set(chain(*(words[k] for k in words if k != key))) for key in words}
    return {
        key: tuple(dict.fromkeys(w for w in words[key] if w not in others[key] and w not in SMALL))
        for key in words
    }


def _by_own_words(line: Words, names: Mapping[K, str]) -> list[K]:
    """Return the things that a line calls by any word that only they have; "the left barrel" calls none."""
    said = {word for word, behind in zip(line, (*line[1:], ""), strict=False) if behind not in _OF_A_BARREL}
    return [key for key, own in _own(names).items() if said & set(own)]


def _by_profile(book: Book, line: Words, known: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Return those of some places whose kind of machine a line names: "the 4 barrel" is `four_barrel`."""
    said = tuple(_FIGURES.get(word, word) for word in line)
    kinds = {pair: _words(book.sites[pair[0]].machines[pair[1]].profile.replace("_", " ")) for pair in known}
    return [
        pair for pair, kind in kinds.items() if any(said[i : i + len(kind)] == kind for i in range(len(said)))
    ]


def _by_site(book: Book, line: Words) -> tuple[Fact, ...]:
    """Return the places at the site that a line names; at several sites where it is only near to a name."""
    own = _own({key: site.name for key, site in book.sites.items()})
    phrases = {key: (_words(site.name), _words(key), own[key]) for key, site in book.sites.items()}
    found = {key: _called(line, phrases[key], own[key]) for key in book.sites}
    sure = [key for key, each in found.items() if each.sure]
    whole = [
        key for key in sure if not any(set(found[key].words) < set(found[other].words) for other in sure)
    ]
    keys = whole or [key for key, each in found.items() if each.score] or _all_alike(book, line)
    return tuple(chain(*(_at(book, key, line, found[key], sure=whole == [key]) for key in keys)))


def _all_alike(book: Book, line: Words) -> list[str]:
    """Return every site where a line has nothing but the words that their names share."""
    names = [set(_words(site.name)) for site in book.sites.values()]
    said = {word for word in line if word not in SMALL}
    shared = said and len(names) > 1 and all(said <= name for name in names)
    return list(book.sites) if shared else []


def _called(line: Words, phrases: Iterable[Words], own: Words) -> Stretch:
    """Return what calls a site in a line: a phrase, something near to one, or one word of its own."""
    best = Stretch((), 0.0)
    for phrase in filter(None, phrases):
        for size in range(max(1, len(phrase) - 1), len(phrase) + 2):
            for at in range(len(line) - size + 1):
                best = max(best, _like(line[at : at + size], phrase), key=lambda s: (s.score, len(s.words)))
    part = next((word for word in own if word in line and len(word) >= SHORTEST), "")
    return Stretch((part,), PART) if part and not best.score else best


def _like(said: Words, phrase: Words) -> Stretch:
    """Return how like a phrase some words are, spaces aside; 0 where that is too little to ask."""
    if said == phrase:
        return Stretch(said, 1.0)
    from rapidfuzz import fuzz  # noqa: PLC0415 -- a name that is known never needs it

    one, other = "".join(said), "".join(phrase)
    ratio = fuzz.ratio(one, other, score_cutoff=NEAR) if len(one) >= SHORTEST else 0.0
    return Stretch(said, ratio / 100)


def _at(book: Book, key: str, line: Words, site: Stretch, *, sure: bool) -> Iterable[Fact]:
    """Yield the machines of a site that a line may mean: the one that it names, else every one."""
    at = next(i for i in range(len(line)) if line[i : i + len(site.words)] == site.words)
    rest = (*line[:at], *line[at + len(site.words) :])
    machines = book.sites[key].machines
    named = _by_own_words(rest, {unit: f"{each.title(unit)} {unit}" for unit, each in machines.items()})
    if len(named) == 1:
        words = _words(f"{machines[named[0]].title(named[0])} {named[0]}")
        said = tuple(word for word in line if word in site.words or word in words)
        yield _fact(book, key, named[0], said, certain=sure, score=site.score)
        return
    for unit in named or machines:
        yield _fact(book, key, unit, site.words, certain=sure and len(machines) == 1, score=site.score)


def _by_machine(book: Book, line: Words) -> tuple[Fact, ...]:
    """Return the places whose machine a line names and nothing else ("the foyer one")."""
    said = {word for word in line if word not in SMALL}
    titles = {
        (key, unit): {word for word in _words(each.title(unit)) if word not in SMALL}
        for key, site in book.sites.items()
        for unit, each in site.machines.items()
    }
    found = [pair for pair, own in titles.items() if said and said == own]
    return tuple(_fact(book, *pair, line, certain=False, score=PART) for pair in found)


def _fact(book: Book, key: str, unit: str, words: Words, *, certain: bool, score: float = 1.0) -> Fact:
    site = book.sites[key]
    title = site.machines[unit].title(unit)
    called = " ".join(words)
    return Fact("place", f"{key}/{unit}", title, site.name, score=score, certain=certain, words=called)
