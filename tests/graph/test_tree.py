"""The fault tree against slow, obvious second methods: recursion, truth tables, enumeration."""

import math
import time
from itertools import chain, combinations, product

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from graph.cutsets import minimal_cut_sets
from graph.errors import GraphError, TreeInvalid
from graph.importance import importances, min_cut_upper_bound, probability, rare_event_sum
from graph.tree import EventSpec, ancestors_true, build_tree, joint_pairs, loose_ends, truth
from graph.tree_rules import tree_problems

FAULTS = ("f0", "f1", "f2", "f3", "f4", "f5")
FAST = 3.0  # seconds; each case takes a small part of one, the rest is for a busy machine


def any_of(*inputs):
    return EventSpec("any", None, inputs)


def all_of(*inputs):
    return EventSpec("all", None, inputs)


@st.composite
def small_trees(draw):
    """Draw event definitions over six faults: every gate, repeated events, several tops."""
    events = {}
    for number in range(draw(st.integers(1, 6))):
        names = st.sampled_from([*FAULTS, *events])
        inputs = tuple(draw(st.lists(names, min_size=1, max_size=4, unique=True)))
        gate = draw(st.sampled_from(["any", "all", "at_least"]))
        events[f"e{number}"] = EventSpec(gate, draw(st.integers(1, len(inputs))), inputs)
    # Written in any order: an event may stand before the events that it is made of.
    return {name: events[name] for name in draw(st.permutations(list(events)))}


chances = st.lists(st.floats(0.01, 0.99), min_size=6, max_size=6).map(
    lambda p: dict(zip(FAULTS, p, strict=True))
)


def holds(events, name, present):
    """Return whether a fault or event is true, by the definition of its gate."""
    if name not in events:
        return name in present
    true = [holds(events, one, present) for one in events[name].inputs]
    return {"any": any(true), "all": all(true), "at_least": sum(true) >= events[name].k}[events[name].gate]


def every_set(names=FAULTS):
    return [
        frozenset(one) for one in chain.from_iterable(combinations(names, n) for n in range(len(names) + 1))
    ]


def enumerated(events, name, p):
    """Return the probability of an event as a sum over every combination of faults."""
    return math.fsum(
        math.prod(p[fault] if fault in present else 1 - p[fault] for fault in FAULTS)
        for present in every_set()
        if holds(events, name, present)
    )


@settings(deadline=None)
@given(small_trees(), st.sets(st.sampled_from(FAULTS)))
def test_truth_is_what_the_gates_say(events, present):
    tree = build_tree(events, FAULTS)

    assert truth(tree, present) == {name for name in events if holds(events, name, present)}


@settings(deadline=None)
@given(small_trees())
def test_minimal_cut_sets_are_complete_and_minimal(events):
    tree = build_tree(events, FAULTS)
    for event in events:
        makes = [present for present in every_set() if holds(events, event, present)]
        minimal = {one for one in makes if not any(other < one for other in makes)}

        found = minimal_cut_sets(tree, event)

        assert len(found) == len(set(found))
        assert set(found) == minimal


@settings(deadline=None)
@given(small_trees(), st.integers(0, 6))
def test_max_order_only_leaves_out_and_the_order_is_by_size_then_file(events, max_order):
    tree = build_tree(events, FAULTS)
    for event in events:
        found = minimal_cut_sets(tree, event)

        assert list(found) == sorted(found, key=lambda one: (len(one), sorted(one)))
        assert minimal_cut_sets(tree, event, max_order) == tuple(
            one for one in found if len(one) <= max_order
        )


@settings(deadline=None)
@given(small_trees(), chances)
def test_exact_probability_is_the_sum_over_all_combinations(events, p):
    tree = build_tree(events, FAULTS)
    for event in events:
        assert probability(tree, event, p) == pytest.approx(enumerated(events, event, p), rel=1e-9)


@settings(deadline=None)
@given(small_trees(), chances)
def test_the_approximations_are_the_formulae_and_never_below_the_exact_figure(events, p):
    tree = build_tree(events, FAULTS)
    for event in events:
        each = [math.prod(p[fault] for fault in found) for found in minimal_cut_sets(tree, event)]
        rare, bound = rare_event_sum(tree, event, p), min_cut_upper_bound(tree, event, p)

        assert rare == pytest.approx(sum(each), rel=1e-9)
        assert bound == pytest.approx(1 - math.prod(1 - one for one in each), rel=1e-9)
        assert rare >= bound * (1 - 1e-12)
        assert bound >= probability(tree, event, p) * (1 - 1e-12)


@settings(deadline=None)
@given(small_trees(), chances)
def test_importance_measures_follow_their_definitions(events, p):
    tree = build_tree(events, FAULTS)
    event = tree.upward[-1]
    sets = minimal_cut_sets(tree, event)
    q = enumerated(events, event, p)

    measures = importances(tree, event, p)

    assert {one.fault for one in measures} >= frozenset().union(*sets)
    for one in measures:
        there = enumerated(events, event, {**p, one.fault: 1.0})
        absent = enumerated(events, event, {**p, one.fault: 0.0})
        with_it = sum(math.prod(p[f] for f in found) for found in sets if one.fault in found)
        assert one.birnbaum == pytest.approx(there - absent, abs=1e-12)
        assert one.criticality == pytest.approx((there - absent) * p[one.fault] / q, abs=1e-9)
        assert one.fussell_vesely == pytest.approx(with_it / rare_event_sum(tree, event, p), abs=1e-9)
        assert one.raw == pytest.approx(there / q, rel=1e-9)
        assert one.rrw == (pytest.approx(q / absent, rel=1e-9) if absent else math.inf)


@settings(deadline=None)
@given(small_trees())
def test_joint_pairs_make_an_event_true_that_neither_makes_alone(events):
    tree = build_tree(events, FAULTS)
    expected = [
        (a, b, event)
        for a, b in combinations(FAULTS, 2)
        for event in events
        if holds(events, event, {a, b}) and not holds(events, event, {a}) and not holds(events, event, {b})
    ]

    assert list(joint_pairs(tree)) == expected


@settings(deadline=None)
@given(small_trees())
def test_ancestors_are_the_true_events_with_their_shortest_way_up(events):
    tree = build_tree(events, FAULTS)
    for fault in FAULTS:
        true = {name for name in events if holds(events, name, {fault})}
        lengths = nx.single_source_shortest_path_length(tree.graph.subgraph({*true, fault}), fault)

        found = ancestors_true(tree, fault)

        assert dict(found) == {name: lengths[name] for name in true}
        assert list(found) == sorted(found, key=lambda pair: (pair[1], list(events).index(pair[0])))


def test_a_pair_that_two_inputs_of_an_all_share_is_a_joint_pair():
    events = {
        "top": all_of("left", "right"),
        "left": any_of("ab", "cd"),
        "right": any_of("ba", "ce"),
        "ab": all_of("a", "b"),
        "ba": all_of("b", "a"),
        "cd": all_of("c", "d"),
        "ce": all_of("c", "e"),
    }
    tree = build_tree(events, "abcde")

    assert ("a", "b", "top") in joint_pairs(tree)
    assert minimal_cut_sets(tree, "top") == (frozenset("ab"), frozenset("cde"))


def test_steps_go_through_true_events_only():
    tree = build_tree(
        {
            "top": any_of("short", "long_2"),
            "short": all_of("a", "b"),
            "long_2": any_of("long_1"),
            "long_1": any_of("a"),
        }
    )

    assert ancestors_true(tree, "a") == (("long_1", 1), ("long_2", 2), ("top", 3))
    assert ancestors_true(tree, "b") == ()


def test_the_graph_runs_from_cause_to_effect_and_carries_the_gates():
    tree = build_tree({"top": EventSpec("at_least", 2, ("a", "b", "mid")), "mid": all_of("b", "c")})

    assert list(tree.graph.edges) == [("a", "top"), ("b", "top"), ("b", "mid"), ("c", "mid"), ("mid", "top")]
    assert tree.graph.nodes["top"] == {"gate": "at_least", "k": 2}
    assert tree.graph.nodes["mid"] == {"gate": "all", "k": 2}
    assert tree.faults == ("a", "b", "c")
    assert tree.events == ("top", "mid")
    assert tree.upward == ("mid", "top")
    assert tree.tops == ("top",)
    assert tree.inputs("top") == ("a", "b", "mid")
    assert tree.effects("b") == ("top", "mid")


def test_the_graph_cannot_be_changed():
    tree = build_tree({"top": any_of("a")})

    with pytest.raises(nx.NetworkXError):
        tree.graph.add_edge("b", "top")


def test_loose_ends_are_what_leads_to_no_symptom():
    tree = build_tree(
        {"seen": any_of("a", "mid"), "mid": any_of("b"), "unseen": any_of("c")}, ("a", "b", "c", "d")
    )

    assert loose_ends(tree, ("seen",)) == ("c", "d", "unseen")
    assert loose_ends(tree, tree.tops) == ("d",)


@pytest.mark.parametrize(
    ("events", "words"),
    [
        ({"e": any_of()}, ['"e" has no inputs']),
        ({"e": EventSpec("at_least", 0, ("a",))}, ["at least 0 of 1", "from 1 to 1"]),
        ({"e": EventSpec("at_least", 3, ("a", "b"))}, ["at least 3 of 2", "from 1 to 2"]),
        ({"e": EventSpec("at_least", None, ("a", "b"))}, ["not how many", "from 1 to 2"]),
        ({"e": EventSpec("xor", None, ("a", "b"))}, ['unknown gate "xor"', "any, all or at_least"]),
        ({"e": any_of("a", "a")}, ['"a" more than once']),
        ({"e": any_of("pump_wrn")}, ['"pump_wrn"', 'did you mean "pump_worn"?']),
        ({"e": any_of("zzz")}, ['"zzz", which is no fault or event', "take it out"]),
        ({"a": any_of("b")}, ['"a" has the id of a fault']),
        ({"e": any_of("e")}, ['circle: "e" needs "e"']),
        (
            {"x": any_of("y", "a"), "y": all_of("z", "b"), "z": any_of("x")},
            ['circle: "x" needs "y" needs "z" needs "x"'],
        ),
    ],
)
def test_an_unsound_tree_is_refused_in_words_that_help(events, words):
    with pytest.raises(TreeInvalid) as caught:
        build_tree(events, ("a", "b", "pump_worn"))

    assert all(one in str(caught.value) for one in words)
    assert len(tree_problems(events, ("a", "b", "pump_worn"))) == 1


def test_every_problem_is_said_at_once():
    events = {
        "p": any_of("q"),
        "q": any_of("p"),
        "e": any_of(),
        "r": any_of("s", "p"),
        "s": any_of("r"),
        "u": any_of("nothing"),
    }

    assert [one.event for one in tree_problems(events, ("a",))] == ["e", "u", "p", "r"]


def test_without_a_list_of_faults_every_other_name_is_a_fault():
    assert build_tree({"e": any_of("x", "y")}).faults == ("x", "y")


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda tree: truth(tree, ("ghost",)), '"ghost" is no fault'),
        (lambda tree: truth(tree, ("top",)), '"top" is no fault'),
        (lambda tree: ancestors_true(tree, "ghost"), '"ghost" is no fault'),
        (lambda tree: minimal_cut_sets(tree, "a"), '"a" is no event'),
        (lambda tree: minimal_cut_sets(tree, "top", -1), "max_order of 0 or more"),
        (lambda tree: loose_ends(tree, ("ghost",)), '"ghost" is no event'),
        (lambda tree: probability(tree, "top", {"a": 0.1}), 'fault "b" has no probability'),
        (lambda tree: probability(tree, "top", {"a": 0.1, "b": 1.1}), "between 0 and 1"),
        (lambda tree: rare_event_sum(tree, "top", {"a": 0.1, "b": -0.1}), "between 0 and 1"),
        (lambda tree: min_cut_upper_bound(tree, "top", {"a": math.nan, "b": 0.1}), "between 0 and 1"),
        (lambda tree: importances(tree, "top", {"a": 0.0, "b": 0.1}), '"top" has probability 0'),
    ],
)
def test_a_wrong_question_gets_a_clear_sentence(ask, words):
    tree = build_tree({"top": all_of("a", "b")})

    with pytest.raises(GraphError) as caught:
        ask(tree)

    assert words in str(caught.value)


def test_certain_and_impossible_faults():
    tree = build_tree({"top": any_of("a", "b")})

    assert probability(tree, "top", {"a": 1.0, "b": 0.5}) == 1.0
    assert min_cut_upper_bound(tree, "top", {"a": 1.0, "b": 0.5}) == 1.0
    assert probability(tree, "top", {"a": 0.0, "b": 0.0}) == 0.0


def test_an_any_over_800_faults_is_fast():
    names = tuple(f"f{n}" for n in range(800))
    tree = build_tree({"top": any_of(*names)})
    start = time.perf_counter()

    found = minimal_cut_sets(tree, "top")
    exact = probability(tree, "top", dict.fromkeys(names, 1e-3))

    assert time.perf_counter() - start < FAST
    assert found == tuple(frozenset([name]) for name in names)
    assert exact == pytest.approx(1 - (1 - 1e-3) ** 800, rel=1e-9)


def test_an_all_of_anys_three_levels_deep_is_fast():
    """Eight groups of two blocks of five: 10 ** 8 cut sets, which the sums never list."""
    events = {"top": all_of(*(f"g{n}" for n in range(8)))}
    for group in range(8):
        events[f"g{group}"] = any_of(f"g{group}a", f"g{group}b")
        events |= {f"g{group}{side}": any_of(*(f"x{group}{side}{n}" for n in range(5))) for side in "ab"}
    tree = build_tree(events)
    p = dict.fromkeys(tree.faults, 0.01)
    start = time.perf_counter()

    exact, rare = probability(tree, "top", p), rare_event_sum(tree, "top", p)
    none = minimal_cut_sets(tree, "top", max_order=7)

    assert time.perf_counter() - start < FAST
    assert exact == pytest.approx((1 - 0.99**10) ** 8, rel=1e-9)
    assert rare == pytest.approx((10 * 0.01) ** 8, rel=1e-9)
    assert none == ()


def test_a_vote_over_many_faults_is_fast():
    names = tuple(f"f{n}" for n in range(60))
    tree = build_tree({"top": EventSpec("at_least", 3, names)})
    start = time.perf_counter()

    found = minimal_cut_sets(tree, "top")

    assert time.perf_counter() - start < FAST
    assert list(found) == [frozenset(one) for one in combinations(names, 3)]


def test_a_chain_of_thousands_of_events_is_no_recursion():
    events = {f"e{n}": any_of(f"e{n + 1}", f"f{n}") for n in range(3000)} | {"e3000": all_of("a", "b")}
    tree = build_tree(events)

    assert len(minimal_cut_sets(tree, "e0")) == 3001
    assert ancestors_true(tree, "f2999")[-1] == ("e0", 3000)


def machine_like_tree():
    """Return 800 faults under 300 events, nearly all `any`, with redundant pairs here and there."""
    events = {f"leaf{n}": any_of(*(f"f{4 * n + i}" for i in range(4))) for n in range(200)}
    events |= {f"pair{n}": all_of(f"leaf{8 * n}", f"leaf{8 * n + 1}") for n in range(25)}
    events |= {
        f"mid{n}": any_of(*(f"leaf{2 * n + i}" for i in range(2, 4)), f"pair{n % 25}", f"f{n}")
        for n in range(65)
    }
    events |= {f"top{n}": any_of(*(f"mid{(7 * n + i) % 65}" for i in range(9))) for n in range(10)}
    return build_tree(events, [f"f{n}" for n in range(800)])


def test_a_tree_of_machine_size_is_worked_out_fast():
    tree = machine_like_tree()
    start = time.perf_counter()

    pairs = joint_pairs(tree)
    alone = [ancestors_true(tree, fault) for fault in tree.faults]
    orders_two = {
        (event, found)
        for event in tree.events
        for found in minimal_cut_sets(tree, event, 2)
        if len(found) == 2
    }

    assert time.perf_counter() - start < 10 * FAST
    assert len(tree.events) == 300
    assert len(alone) == 800
    assert {(event, frozenset((a, b))) for a, b, event in pairs} == orders_two
    assert {("f0", "f4", "pair0"), ("f3", "f7", "pair0")} <= set(pairs)


def test_the_product_of_two_wide_anys_gives_every_pair():
    left, right = [f"l{n}" for n in range(60)], [f"r{n}" for n in range(60)]
    tree = build_tree({"l": any_of(*left), "r": any_of(*right), "top": all_of("l", "r")}, [*left, *right])

    assert list(joint_pairs(tree)) == [(a, b, "top") for a, b in product(left, right)]
