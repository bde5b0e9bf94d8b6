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
