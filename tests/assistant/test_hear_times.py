"""When it began, in the many ways that people say a time or how long it has lasted; our own examples."""

import pytest
from hearing import heard


def began(said):
    return [fact.value for fact in heard(said)[0] if fact.kind == "began"]


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("flat since half ten", "half ten"),
        ("flat since 3pm", "3 pm"),
        ("it went thin overnight and now it is soft", "last night"),
        ("overnight the cherry went runny", "last night"),
        ("about two hours ago it all went soft", "hours"),
        ("came in this morning and the lot was runny", "this morning"),
        ("found it like this when we opened up", "this morning"),
        ("it has been soft for four days", "days"),
        ("weak for the last week", "weeks"),
        ("past few weeks it has been weak", "weeks"),
        ("been like this for ages", "ages"),
        ("soft since the hot spell", "heatwave"),
        ("since the power blip it is dead", "power cut"),
        ("since half term", "half term"),
        ("since the start of the season", "start of the season"),
        ("it was saturday it started", "saturday"),
    ],
)
def test_a_time_at_which_it_began(said, value):
    assert began(said) == [value]


@pytest.mark.parametrize(
    "said",
    [
        "3 went flat",
        "the filter has not been changed in five years",
        "been churning away for an hour and still thin",
        "the bottle was swapped three days ago",
        "the bag went in three weeks ago",
        "i ran it for ten minutes",
    ],
)
def test_a_time_of_something_else_is_none(said):
    assert began(said) == []


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("the van dropped the gas off thursday and its been froth since", "delivery"),
        ("right as rain till the co2 got delivered", "delivery"),
        ("theyd a new cylinder put on, and so did the trouble start", "delivery"),
        ("that delivery is what caused it", "delivery"),
        ("as of the last delivery they are flat", "delivery"),
        ("engineer was here and it has leaked since he left", "service"),
        ("the service is when it got noisy", "service"),
        ("cleaned it down last night now the left barrel wont turn", "cleaning"),
        ("the mains tripped, not frozen since", "power cut"),
        ("lights went out down the street, blank from that moment", "power cut"),
        ("lost the electric at dinner and thats when it stopped", "power cut"),
        ("it was the lightning that did it", "storm"),
        ("from the storm onwards no fizz", "storm"),
        ("as soon as the hot spell hit they went soft", "heatwave"),
        ("new cartridge went in the filter and its hammered ever since", "filter change"),
        ("we wheeled it into the hall and now it wont freeze", "move"),
        ("they moved it for the decorators, never right from then on", "move"),
        ("joiners were in, it has been dead since they finished", "building work"),
        ("ok at lock up, this morning its leaking", "this morning"),
        ("first thing today blue was solid", "this morning"),
        ("friday i reckon it began", "friday"),
        ("since weds its weak", "wednesday"),
        ("from tuesday on they are thin", "tuesday"),
        ("couple of hours its been going on", "hours"),
        ("hasnt poured right for days", "days"),
        ("been dripping three days now", "days"),
        ("a fortnight its been flat", "weeks"),
        ("for months and months its squeaked", "months"),
        ("sometime last week it got loud", "last week"),
        ("all weekend its been soup", "weekend"),
    ],
)
def test_events_and_times_in_every_position(said, value):
    assert began(said) == [value]


@pytest.mark.parametrize(
    "said",
    [
        "my shift started at four",
        "i only started here last month",
        "ive worked here two years",
        "the next delivery is on friday",
        "delivery was monday and it poured lovely, now there is no fizz",
        "he serviced it and it was fine",
        "not had a power cut in ages",
        "we cleaned it yesterday",
        "the film started at seven",
        "takes three hours to set",
        "gets busy about eight",
        "this morning there is a queue",
    ],
)
def test_what_happened_otherwise_is_no_beginning(said):
    assert began(said) == []


def test_looks_told_after_a_day_are_no_cleaning():
    assert began("since yesterday the drinks look washed out") == ["yesterday"]
