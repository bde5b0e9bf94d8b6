"""The sums behind acting or asking, as they are shown on request."""

from __future__ import annotations

import re

from casts import Told, parlour_case
from repairing import offered

from assistant.engine import narrowing
from assistant.facts import Fact


def narrowed(role="operator"):
    return Told(parlour_case()).began(role).chose("none", "dry").said("flat", Fact("symptom", "gas.flat"))


def lines(told):
    return [effect.text for effect in told.word("costs").shown if getattr(effect, "topic", "") == "costs"]


def test_the_sums_are_those_that_decided():
    told = narrowed()
    advice, ranked = narrowing.advised(told.case, told.state)
    first, *_ = lines(told)
    title = told.case.check(ranked[0].check).title.rstrip("?").casefold()

    assert first.casefold() == (
        f"acting now is expected to cost {advice.cost_act:.0f}. asking first ({title}): {advice.cost_ask:.0f}."
    )


def priced(told):
    """Return (probability, price) of the repairs in the order in which they are listed."""
    shown = told.word("costs").shown
    believed = dict(told.case.believe(tuple(each.finding for each in told.state.answers)).remedies)
    names = [each.id for each in shown if getattr(each, "topic", "") == "costs" and each.id]
    return [(believed[name], told.case.price(name, told.state.role)) for name in names]


def test_repairs_are_priced_in_the_order_of_chance_over_price():
    ratios = [p / price for p, price in priced(narrowed())]

    assert len(ratios) == 5
    assert ratios == sorted(ratios, reverse=True)


def test_each_line_says_the_chance_and_the_price_that_were_reckoned_with():
    told = narrowed()
    said = [re.search(r"(\d+) %, costs (\d+)", line) for line in lines(told)[1:-1]]

    assert [(int(row[1]), int(row[2])) for row in said] == [
        (round(100 * p), round(c)) for p, c in priced(told)
    ]


def test_the_sum_is_that_of_trying_one_after_the_other():
    """A repair is paid for when none before it helped: Heckerman, Breese and Rommelse (1995)."""
    told = narrowed()
    still, total = 1.0, 0.0
    for p, price in priced(told):
        total, still = total + still * price, still - p

    assert f"come to {total:.0f}" in lines(told)[-1]


def test_a_visit_is_in_the_price_of_what_the_person_here_may_not_do():
    operator, technician = narrowed("operator"), narrowed("technician")

    assert operator.case.price("barrel.change_lead@1", "operator") >= 90
    assert lines(operator) != lines(technician)


def test_a_repair_that_was_refused_is_not_priced_and_asking_changes_nothing():
    told = offered().chose("no")

    assert not [line for line in lines(told) if "open the cylinder valve" in line]
    assert told.word("costs").state == told.state


def test_where_no_cause_is_sought_there_is_nothing_to_weigh():
    told = offered().chose("yes").word("costs")

    assert "nothing to weigh" in told.said_back()
