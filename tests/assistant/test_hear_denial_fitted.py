"""Whether words deny a trouble: by how both readings compare."""

from dataclasses import replace

import pytest
from hearing import heard

from assistant.hear import denial

EVEN = denial.Readings(lead=0.0, close=0.5, agreement=0.0, probability=0.5, fine=0.0, early=0.0)


@pytest.mark.parametrize(
    "change",
    [{"lead": 0.4}, {"close": 0.9}, {"agreement": -1.0}, {"probability": 1.0}, {"fine": 1.0}, {"early": 1.0}],
)
def test_what_speaks_for_a_denial_makes_it_more_probable(change):
    assert denial.probability(replace(EVEN, **change)) > denial.probability(EVEN)


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("the cherry has no more fizz than pond water", "symptom"),
        ("it isn't leaking", "not_symptom"),
        ("there is no burning smell", "not_symptom"),
        ("the screen is blank and nothing lights up", "symptom"),
    ],
)
def test_what_is_told_and_what_is_denied(said, kind):
    assert heard(said)[0][0].kind == kind


def test_where_it_is_in_doubt_both_readings_are_offered():
    facts = heard("screen and gauge not the same number")[0]

    assert {fact.kind for fact in facts} == {"symptom", "not_symptom"}
    assert not any(fact.certain for fact in facts)
