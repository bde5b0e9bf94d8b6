"""How likely an event is, and how much each fault matters to it; faults are independent.

The exact figures come from the event's binary decision diagram. The rare-event sum and the upper
bound are the two approximations of the handbooks; both are never below the exact figure.

Vesely, Goldberg, Roberts and Haasl 1981, Fault Tree Handbook, NUREG-0492, chapters VI and XI.
IEC 61025:2006, Fault tree analysis (FTA). Rauzy 1993, New algorithms for fault trees analysis,
Reliability Engineering and System Safety 40(3), 203-211. Birnbaum 1969, On the importance of different
components in a multicomponent system, in Multivariate Analysis II, 581-592.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from graph.cutsets import EventFunctions, Function, event_functions, minimal_cut_sets
from graph.errors import GraphError
from graph.tree import FaultTree


@dataclass(frozen=True, slots=True)
class Importance:
    """The importance measures of one fault for one event; q is the event's exact probability.

    * birnbaum: q(fault there) - q(fault not there)
    * criticality: birnbaum * p / q, the share of the event's probability in which the fault decides it
    * fussell_vesely: the sum form, sum of the cut sets with the fault over the sum of all cut sets
      (not 1 - q0/q, nor the probability of their union over q; the three part for p above about 0.01)
    * raw: risk achievement worth, q(fault there) / q
    * rrw: risk reduction worth, q / q(fault not there); infinite when the event needs the fault
    """

    fault: str
    birnbaum: float
    criticality: float
    fussell_vesely: float
    raw: float
    rrw: float


def probability(tree: FaultTree, event: str, p: Mapping[str, float]) -> float:
    """Return the exact probability of an event.

    `p` is the probability of each fault under the event. Raises GraphError for a name that is no
    event, and for a probability that is missing or not between 0 and 1.
    """
    function = event_functions(tree, event).truth
    return _exact(function, _chances(function, p))


def rare_event_sum(tree: FaultTree, event: str, p: Mapping[str, float]) -> float:
    """Return the sum of the probabilities of the minimal cut sets, which may exceed 1.

    Good while all are small: it counts an overlap of cut sets once for each (NUREG-0492, chapter
    VI). Raises as `probability` does.
    """
    function = event_functions(tree, event).cut_sets
    return _rare(function, _chances(function, p))


def min_cut_upper_bound(tree: FaultTree, event: str, p: Mapping[str, float]) -> float:
    """Return 1 - product over the minimal cut sets of (1 - probability of the set).

    Exact when no fault is in two cut sets (Esary and Proschan 1963, Technometrics 5(2), 191-206).
    It lists the cut sets one by one. Raises as `probability` does.
    """
    function = event_functions(tree, event).cut_sets
    chance = dict(zip(function.faults, _chances(function, p), strict=True))
    each = [math.prod(chance[fault] for fault in found) for found in minimal_cut_sets(tree, event)]
    if 1.0 in each:
        return 1.0  # the logarithm below has no value there
    return -math.expm1(math.fsum(math.log1p(-one) for one in each))


def importances(tree: FaultTree, event: str, p: Mapping[str, float]) -> tuple[Importance, ...]:
    """Return the importance measures of every fault under an event, in file order.

    Raises as `probability` does, and GraphError when the event cannot happen with these
    probabilities, since a share of nothing means nothing.
    """
    functions = event_functions(tree, event)
    faults = functions.truth.faults
    chances = _chances(functions.truth, p)
    if _exact(functions.truth, chances) == 0:
        raise GraphError(f'event "{event}" has probability 0; give a fault that leads to it more than 0')
    return tuple(
        _importance(functions, chances, faults.index(fault)) for fault in tree.faults if fault in faults
    )


def _importance(functions: EventFunctions, chances: Sequence[float], at: int) -> Importance:
    there = [*chances[:at], 1.0, *chances[at + 1 :]]
    absent = [*chances[:at], 0.0, *chances[at + 1 :]]
    q, q_there, q_absent = (_exact(functions.truth, given) for given in (chances, there, absent))
    rare, rare_absent = (_rare(functions.cut_sets, given) for given in (chances, absent))
    birnbaum = q_there - q_absent
    return Importance(
        fault=functions.truth.faults[at],
        birnbaum=birnbaum,
        criticality=birnbaum * chances[at] / q,
        fussell_vesely=(rare - rare_absent) / rare,
        raw=q_there / q,
        rrw=q / q_absent if q_absent else math.inf,
    )


def _exact(function: Function, chances: Sequence[float]) -> float:
    """Return the probability of a Boolean function by Shannon's expansion at each node."""
    return function.diagram.fold(
        function.root, lambda v, high, low: chances[v] * high + (1 - chances[v]) * low
    )


def _rare(function: Function, chances: Sequence[float]) -> float:
    """Return the sum over a family of sets of the product over each, without listing them."""
    return function.diagram.fold(function.root, lambda v, high, low: chances[v] * high + low)


def _chances(function: Function, p: Mapping[str, float]) -> list[float]:
    for fault in function.faults:
        if fault not in p:
            raise GraphError(f'fault "{fault}" has no probability; give it one between 0 and 1')
        if not 0 <= p[fault] <= 1:  # not-a-number fails this too
            raise GraphError(f'fault "{fault}" has the probability {p[fault]}; give one between 0 and 1')
    return [p[fault] for fault in function.faults]
