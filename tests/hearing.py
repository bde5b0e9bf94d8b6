"""The shipped machine and its phrasebook for the tests of hearing, and a line's facts as short strings."""

from functools import cache

from assistant.hear import hear
from assistant.hear.shelf import phrasebook
from assistant.library import load_case


@cache
def shipped_machine():
    """Return the shipped machine with three barrels: cola, cherry, blue raspberry."""
    return load_case().machine


@cache
def shipped_book():
    """Return the phrasebook of the shipped machine, made once for all workers of a run."""
    return phrasebook(shipped_machine())


def heard(text, asked=None):
    """Return what is understood of a line: facts and rest."""
    return hear(shipped_machine(), text, asked, shipped_book())


def short(fact):
    """Return a fact as "kind ref value unit [barrels]", with a question mark where it is doubtful."""
    value = "" if fact.kind in {"correct", "yes"} else fact.value  # there it tells what sort of one it is
    value = f"{value}..{fact.high}" if fact.high else value
    barrels = f"[{','.join(map(str, fact.which))}]" if fact.which else ""
    parts = (fact.kind, fact.ref, value, fact.unit, barrels)
    return " ".join(part for part in parts if part) + ("" if fact.certain else "?")


def firsts(text, asked=None):
    """Return the facts of a line as short strings: of rivals the first, certain or not."""
    found = {}
    for number, fact in enumerate(heard(text, asked)[0]):
        found.setdefault(number if fact.certain else fact.words, short(fact).removesuffix("?"))
    return list(found.values())


def shorts(text, asked=None):
    """Return the facts of a line as short strings."""
    return [short(fact) for fact in heard(text, asked)[0]]
