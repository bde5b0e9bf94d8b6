"""Which of several numbers is meant, what only compares, and what is told in a clause of its own.

The expectations are our own.
"""

import pytest
from hearing import firsts, heard, shorts

from assistant.hear import hear
from assistant.hear.shelf import phrasebook
from assistant.library import load_case
from assistant.live import UNKNOWN


def unknown_machine():
    return load_case(flavours=UNKNOWN).machine


@pytest.mark.parametrize(
    ("said", "asked", "fact"),
    [
        ("it's sat between the sixty and the seventy mark", "K035", "reading gas_low_dial 60..70"),
        ("halfway between 50 and 60 by my eye", "K035", "reading gas_low_dial 55"),
        ("second one's fifty eight psi", "K098", "reading gas_regulated 58 psi"),
        ("bit over fifty, fifty three", "K098", "reading gas_regulated 53"),
        ("somewhere in the forties, forty to forty five", "K097", "reading gas_supply 40..45"),
        ("a six then an eight", "K096", "reading water 68"),
        ("card tied to it says 70 but its on 58", "K035", "reading gas_low_dial 58"),
        ("started the shift on 71, three hours later its 49", "K097", "reading gas_supply 49"),
        ("gas was 72 last week now its 50", "K097", "reading gas_supply 50"),
        ("just ticked over from 69 to 70", "K097", "reading gas_supply 70"),
        ("kilopascals on ours for some reason, 530", "K096", "reading water 530 kPa"),
        ("5,9 MPa", "K036", "reading cylinder_contents 5.9 MPa"),
        ("gained two if anything", "K118", "reading gas_decay -2"),
        ("71 this side 70 that side", "K116", "reading inlet_filter_loss 1"),
        ("refractometer says 11.2, card wants 13", "K147", "reading brix_offset -1.8"),
        ("put it on 25 minutes ago, opened up at ten", "K033", "reading minutes_since_start 25 min"),
        ("caller says seventy two, no she says sorry twenty seven", "K096", "reading water 27"),
    ],
)
def test_one_number_is_meant(said, asked, fact):
    assert [each for each in firsts(said, asked) if each.startswith("reading")] == [fact]


def test_a_number_that_is_not_plainly_meant_is_in_doubt():
    told = [fact for fact in heard("71, 54", "K097")[0] if fact.kind == "reading"]

    assert told
    assert not any(fact.certain for fact in told)


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("28, same as before", "K103"),
        ("was 28, now 28", "K103"),
        ("76, same as the screen", "K123"),
        ("no, 27 then 22 then 18", "K145"),
        ("four psi high at both points", "K152"),
        ("says 4:10 and its twenty to nine here", "K092"),
    ],
)
def test_what_is_compared_is_no_reading(said, asked):
    assert not [fact for fact in shorts(said, asked) if fact.startswith("reading")]


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("going across in bar: 4.5, 4.6, 1.2", ["4.5 bar [1]", "4.6 bar [2]", "1.2 bar [3]"]),
        ("sixty, sixty, sixty. all of a muchness", ["60 [1]", "60 [2]", "60 [3]"]),
        ("64 on the left and 65 on the right, 20 in between", ["64 [1]", "65 [3]", "20 [2]"]),
        ("left to right sixty-two sixty-eight sixty", ["62 [1]", "68 [2]", "60 [3]"]),
        ("red: 66, brown: 68, blue: 9", ["66 [2]", "68 [1]", "9 [3]"]),
    ],
)
def test_each_barrel_has_its_number(said, facts):
    assert [each.removeprefix("reading syrup ") for each in firsts(said, "K099")] == facts


@pytest.mark.parametrize(
    ("said", "reading"),
    [
        ("gas is low, 24 at the moment", "gas_supply 24"),
        ("LOW WATER alarm up since this morning, reading 24", "water 24"),
        ("barrel one keeps losing pressure, its on 9 now", "barrel 9 [1]"),
    ],
)
def test_a_number_in_a_clause_of_its_own_is_of_what_was_named(said, reading):
    assert f"reading {reading}" in firsts(said)


def test_two_numbers_are_those_of_the_two_quantities_asked_about():
    told = shorts("theyve both gone up, 70 and 60", "K046")

    assert told == ["answer K046 both_in_window", "reading gas_supply 70", "reading gas_regulated 60"]


@pytest.mark.parametrize(
    ("said", "asked", "taken"),
    [
        ("actually 45", "K035", True),
        ("actually it was shut", "K037", True),
        ("actually it's quite cold, that air", "K085", False),
        ("actually could you ring me back later", None, False),
        ("reckon thats a 35, havent got my glasses on", "K035", False),
        ("it does say 35 but it should say 70", "K097", False),
    ],
)
def test_what_takes_something_back(said, asked, taken):
    assert ("correct" in shorts(said, asked)) is taken


@pytest.mark.parametrize(
    ("said", "asked", "fact"),
    [
        ("not just the blue like i said, the cherrys doing it too", "K025", "which 2,3 [2,3]"),
        ("erm the one furthest over on your right as you look at it", "K025", "which 3 [3]"),
        ("first one's fine, second and third are the trouble", "K025", "which 2,3 [2,3]"),
        ("it was the cherry to begin with but its spread to all of them now", "K025", "which all [1,2,3]"),
        ("its the cola, nothing wrong with the blue or the cherry", "K025", "which 1 [1]"),
        ("brown and blue run, reds a no show", "K030", "which 2 [2]"),
        ("cola's good, cherry's good, blue's the problem", None, "which 3 [3]"),
        ("2 n 3 not 1", None, "which 2,3 [2,3]"),
    ],
)
def test_which_barrel_it_is(said, asked, fact):
    assert fact in shorts(said, asked)


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("left side panel's hanging off", "K091"),
        ("boxes jammed right up against the left side", "K086"),
        ("sudden, middle of the interval it was", "K015"),
        ("outdoor tank gauge is lying right down in the red", "K044"),
        ("handles over to the left one n thats flat, other ones brimming", "K044"),
        ("got both ends unplugged, every core rings through", "K159"),
        ("one psi on each if that", "K111"),
        ("the blue hose is folded right over", "K050"),
        ("middle tap giving me blue stuff", None),
    ],
)
def test_what_names_no_barrel(said, asked):
    assert not [fact for fact in shorts(said, asked) if fact.startswith("which")]


@pytest.mark.parametrize(
    ("said", "began"),
    [
        ("water low light, been on since last night", "last night"),
        ("compressor hums then clicks off, been months of that", "months"),
        ("yesterday, thats when it began", "yesterday"),
        ("cherry hasnt frozen for days its just liquid", "days"),
        ("we cleaned it sunday night and it started then", "cleaning"),
        ("its been at it from tuesday, syrup pump out back ticking away", "tuesday"),
        ("the red light went off an hour ago, and yet the cups stay empty", ""),
        ("gas man knows my kids names by now, third cylinder this week", ""),
        ("been on hold with you lot since half past four", ""),
    ],
)
def test_when_it_began(said, began):
    assert [fact for fact in shorts(said) if fact.startswith("began")] == (
        [f"began {began}"] if began else []
    )


@pytest.mark.parametrize(
    ("said", "asked", "fact"),
    [
        ("gas valve on the cylinder is shut", "K080", "answer K037 shut?"),
        ("water tap at the wall is shut", None, "answer K047 across?"),
        ("no it pours, just watery", "product.nothing_comes_out@2", "answer S08 absent"),
        ("no its runny", "product.flat_all", "answer S10 absent"),
        ("no its 45 now not 72", "K097", "correct"),
        ("spits a bit at start", "K072", "answer K072 first_second"),
    ],
)
def test_what_was_told_beside_the_point_is_heard(said, asked, fact):
    assert fact in shorts(said, asked)


@pytest.mark.parametrize("asked", ["K006", "K077"])
def test_a_barrel_alone_answers_no_question_of_taste(asked):
    assert shorts("cherry", asked) == ["which 2 [2]"]


def test_flavours_that_are_only_listed_are_no_trouble():
    machine = unknown_machine()

    for said in (
        "cola left cherry in middle n blue rasp on the right",
        "cola, cherry, blue raspberry left to right",
    ):
        assert hear(machine, said, None, phrasebook(machine)) == ((), said)
    assert hear(machine, "the cherry on the left is flat", None, phrasebook(machine))[0]
