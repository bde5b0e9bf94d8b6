"""The sums behind acting or asking, shown when somebody wants to see them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import evidence, narrowing
from assistant.engine.candidates import out_of_question
from assistant.engine.state import Stage
from graph.repair import plan

if TYPE_CHECKING:
    from assistant.engine.state import State, Turn
    from graph import Case

MOST_REPAIRS = 5  # that are priced
WORTH_PRICING = 0.01  # probability of a repair


def costs(case: Case, state: State, argument: str = "") -> Turn:
    """Say what acting now and asking on are expected to cost, and what the likely repairs cost in order."""
    del argument
    if state.stage is not Stage.NARROWING:
        return state, (wording.nothing_to_weigh(),)
    advice, ranked = narrowing.advised(case, state)
    check = case.check(ranked[0].check) if ranked else None
    likely = [
        (case.remedy(name), p, case.price(name, state.role))
        for name, p in case.believe(evidence.findings(state)).remedies
        if p >= WORTH_PRICING and not out_of_question(state, name)
    ][:MOST_REPAIRS]
    told = (wording.act_or_ask(advice.cost_act, advice.cost_ask, check),)
    if not likely:
        return state, told
    found = plan([p for _, p, _ in likely], [price for _, _, price in likely])
    listed = (wording.priced(place, *likely[at]) for place, at in enumerate(found.order, start=1))
    return state, (*told, *listed, wording.in_order(found.cost, found.likeliest_first))
