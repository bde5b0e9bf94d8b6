"""Which places of the address book a line names."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.sites import read_book
from assistant.spotting import spotted, without

DEMO = Path(__file__).parents[2] / "demo_sessions" / "sites.yaml"
SALTMERE = ("saltmere/upstairs", "saltmere/downstairs")
OLD_QUAY = ("old_quay/first", "old_quay/second")


@pytest.fixture(scope="module")
def book():
    return read_book(DEMO)


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("westhaven", "westhaven/foyer"),
        ("hi, it's the Westhaven one", "westhaven/foyer"),
        ("Pier Lantern Cinemas, Westhaven", "westhaven/foyer"),
        ("saltmere upstairs", "saltmere/upstairs"),
        ("the upstairs machine at saltmere", "saltmere/upstairs"),
        ("old quay, second machine", "old_quay/second"),
        ("gull sand", "gullsand/bar"),
        ("marram bay and the right barrel is soup", "marram_bay/foyer"),
    ],
)
def test_a_site_and_machine_named_to_the_letter_are_certain(book, line, place):
    (fact,) = spotted(book, line)

    assert (fact.kind, fact.id, fact.certain) == ("place", place, True)


def test_of_several_machines_at_a_site_each_is_possible(book):
    facts = spotted(book, "saltmere, and the left barrel is soup")

    assert tuple(fact.id for fact in facts) == SALTMERE
    assert not any(fact.certain for fact in facts)
    assert {fact.score for fact in facts} == {1.0}


@pytest.mark.parametrize(
    ("line", "places"),
    [
        ("westhavn", ("westhaven/foyer",)),
        ("saltmeer", SALTMERE),
        ("quay", OLD_QUAY),
        ("marram", ("marram_bay/foyer",)),
        ("upstairs", ("saltmere/upstairs",)),
        ("the foyer one", ("westhaven/foyer", "marram_bay/foyer")),
    ],
)
def test_what_is_near_to_a_name_or_only_part_of_it_is_doubtful(book, line, places):
    facts = spotted(book, line)

    assert tuple(fact.id for fact in facts) == places
    assert not any(fact.certain for fact in facts)


def test_words_that_all_names_share_may_mean_any_site(book):
    assert len(spotted(book, "pier lantern")) == 7
    assert {fact.certain for fact in spotted(book, "pier lantern")} == {False}


@pytest.mark.parametrize("line", ["Gull Point", "its the old machine by the till", "no fizz at all", ""])
def test_what_the_book_does_not_have_names_nothing(book, line):
    assert spotted(book, line) == ()


@pytest.mark.parametrize(
    ("line", "place"), [("downstairs", SALTMERE[1]), ("the upstairs one please", SALTMERE[0])]
)
def test_of_offered_machines_a_word_of_its_own_picks_one(book, line, place):
    (fact,) = spotted(book, line, SALTMERE)

    assert (fact.id, fact.certain) == (place, True)


def test_the_number_of_barrels_picks_one_of_offered_machines(book):
    (fact,) = spotted(book, "the 4 barrel one", OLD_QUAY)

    assert (fact.id, fact.certain) == (OLD_QUAY[1], True)


def test_a_barrel_is_no_machine(book):
    """At a site whose machines are called left and right, "the left barrel" leaves the machine open."""
    westhaven = book.sites["westhaven"]
    machines = {
        name: westhaven.machines["foyer"].model_copy(update={"name": name}) for name in ("left", "right")
    }
    sites = {"westhaven": westhaven.model_copy(update={"machines": machines})}
    two = book.model_copy(update={"sites": sites})

    assert len(spotted(two, "westhaven, the left barrel is soup")) == 2
    assert [fact.id for fact in spotted(two, "westhaven, the left one")] == ["westhaven/left"]


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ("saltmere, upstairs, cola side is flat", "cola side is flat"),
        ("it's the westhaven one", ""),
        ("Old Quay second, since this morning", "since this morning"),
    ],
)
def test_what_is_left_of_a_line_is_what_else_it_says(book, line, left):
    assert without(line, spotted(book, line)) == left
