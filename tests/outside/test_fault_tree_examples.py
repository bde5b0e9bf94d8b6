"""Fault trees worked out elsewhere: published cut sets, probabilities and importance measures.

Figures marked "enumerated" are not printed in the source; they were worked out apart from this program
by summing over every combination of faults.
"""

from math import prod

import pytest

from graph.cutsets import minimal_cut_sets
from graph.importance import Importance, importances, min_cut_upper_bound, probability, rare_event_sum
from graph.tree import EventSpec, FaultTree, build_tree


def any_of(*inputs: str) -> EventSpec:
    return EventSpec("any", None, inputs)


def all_of(*inputs: str) -> EventSpec:
    return EventSpec("all", None, inputs)


def cut_sets(tree: FaultTree, event: str) -> set[str]:
    """Return the cut sets as words, "a b", so that a failing test reads well."""
    return {" ".join(sorted(found)) for found in minimal_cut_sets(tree, event)}


def by_fault(tree: FaultTree, event: str, p: dict[str, float]) -> dict[str, Importance]:
    return {one.fault: one for one in importances(tree, event, p)}


# NUREG-0492, Fault Tree Handbook (1981), pressure tank example, page VIII-13.
TANK = build_tree(
    {
        "E1": any_of("T", "E2"),
        "E2": any_of("K2", "E3"),
        "E3": all_of("S", "E4"),
        "E4": any_of("S1", "E5"),
        "E5": any_of("K1", "R"),
    }
)
TANK_P = {"T": 5e-6, "K2": 3e-5, "S": 1e-4, "S1": 3e-5, "K1": 3e-5, "R": 1e-4}


def test_pressure_tank_has_the_handbook_s_five_cut_sets():
    assert cut_sets(TANK, "E1") == {"T", "K2", "S S1", "K1 S", "R S"}


def test_pressure_tank_probabilities():
    """Inputs and structure from NUREG-0492 p. VIII-13; the totals enumerated.

    The handbook's own total, from memory, is 3.4e-5; its inputs add up to 3.5e-5.
    """
    assert rare_event_sum(TANK, "E1", TANK_P) == pytest.approx(3.5016e-5, rel=1e-3)
    assert probability(TANK, "E1", TANK_P) == pytest.approx(3.501584875e-5, rel=1e-9)
    assert min_cut_upper_bound(TANK, "E1", TANK_P) == pytest.approx(3.501584944e-5, rel=1e-9)


@pytest.mark.parametrize(
    "printed",
    [
        Importance("T", 0.99996998, 0.142788, 0.142792, 28558.5, 1.16657),
        Importance("K2", 0.99999498, 0.856751, 0.856751, 28558.5, 6.98083),
        Importance("S", 1.599875e-4, 4.569e-4, 4.56934e-4, 5.56855, 1.00046),
        Importance("S1", 9.99835e-5, 8.56614e-5, 8.56751e-5, 3.85529, 1.00009),
        Importance("K1", 9.99835e-5, 8.56614e-5, 8.56751e-5, 3.85529, 1.00009),
        Importance("R", 9.99905e-5, 2.85558e-4, 2.85584e-4, 3.85529, 1.00029),
    ],
)
def test_pressure_tank_importance(printed):
    """NUREG-0492 p. VIII-13 for the inputs; the measures enumerated, to the digits given."""
    found = by_fault(TANK, "E1", TANK_P)[printed.fault]

    assert found.birnbaum == pytest.approx(printed.birnbaum, rel=1e-5)
    assert found.criticality == pytest.approx(printed.criticality, rel=1e-4)
    assert found.fussell_vesely == pytest.approx(printed.fussell_vesely, rel=1e-5)
    assert found.raw == pytest.approx(printed.raw, rel=1e-5)
    assert found.rrw == pytest.approx(printed.rrw, rel=1e-5)


def test_pressure_tank_importance_in_the_handbook_s_percentages():
    """NUREG-0492, from memory: K2 86 %, T 14 %, S with R below 0.1 %."""
    share = {name: one.fussell_vesely for name, one in by_fault(TANK, "E1", TANK_P).items()}

    assert round(100 * share["K2"]) == 86
    assert round(100 * share["T"]) == 14
    assert share["R"] < 1e-3


def test_pressure_tank_as_the_ffort_collection_has_it():
    """FFORT (University of Twente), model "pt", K1 = 5e-6; published 3.5013348120867e-5.

    The published figure comes from a state-space solver; the closed form is 3.501334916e-5.
    """
    found = probability(TANK, "E1", {**TANK_P, "K1": 5e-6})

    assert found == pytest.approx(3.5013348120867e-5, rel=1e-7)
    assert found == pytest.approx(3.501334916e-5, rel=1e-9)


def test_seal_leak():
    """FFORT, model "csd", after the NASA Fault Tree Handbook with Aerospace Applications (2002)."""
    tree = build_tree(
        {
            "leak": any_of("common", "all_fail"),
            "common": all_of("TC", "CCF"),
            "all_fail": all_of("M", "S1", "S2", "Fp"),
        }
    )
    p = {"TC": 0.1, "CCF": 1e-5, "M": 1e-3, "S1": 1e-3, "S2": 1e-3, "Fp": 1e-3}

    assert probability(tree, "leak", p) == pytest.approx(1.000000999999e-6, rel=1e-9)
    assert cut_sets(tree, "leak") == {"CCF TC", "Fp M S1 S2"}


def test_mooring():
    """FFORT, model SMS_A1, after Mentes and Helvacioglu 2011, doi 10.1016/j.oceaneng.2010.11.003."""
    rates = (1.73e-5, 4.20e-3, 9.31e-3, 8.64e-3, 8.95e-6, 8.95e-6, 9.93e-5, 4.37e-5, 5.46e-8, 4.17e-3)
    p = {f"x{number}": rate for number, rate in enumerate(rates, start=1)}
    tree = build_tree({"parted": any_of(*p)})

    assert probability(tree, "parted", p) == pytest.approx(0.026246389824230341, rel=1e-12)


def test_power_loss():
    """Course notes, scribd document 372155262: T = (E1*E2)+E3, printed as 0.005025 and T = 0.01."""
    tree = build_tree({"T": any_of("both", "E3"), "both": all_of("E1", "E2")})
    p = {"E1": 0.067, "E2": 0.075, "E3": 0.005}

    assert probability(tree, "both", p) == pytest.approx(0.005025, rel=1e-12)
    assert probability(tree, "T", p) == pytest.approx(0.01, abs=5e-4)
    assert probability(tree, "T", p) == pytest.approx(0.009999875, rel=1e-9)  # enumerated


def test_absorption_leaves_single_faults():
    """Course notes, scribd document 372155262: E1(E3 E4) + E2 + E5 + E3 reduces to E2 + E3 + E5."""
    tree = build_tree(
        {
            "T": any_of("first", "E2", "E5", "E3"),
            "first": all_of("E1", "second"),
            "second": all_of("E3", "E4"),
        }
    )

    assert cut_sets(tree, "T") == {"E2", "E3", "E5"}


def test_theatre():
    """Theatre example, input/Theatre/theatre.xml of rakhimov/scram; cut sets as printed for it.

    The figures are enumerated.
    """
    tree = build_tree({"dark": all_of("Mains", "backup"), "backup": any_of("Gen", "Relay")})
    p = {"Mains": 0.03, "Gen": 0.02, "Relay": 0.05}
    birnbaum = {name: one.birnbaum for name, one in by_fault(tree, "dark", p).items()}

    assert cut_sets(tree, "dark") == {"Gen Mains", "Mains Relay"}
    assert probability(tree, "dark", p) == pytest.approx(0.00207, rel=1e-9)
    assert rare_event_sum(tree, "dark", p) == pytest.approx(0.0021, rel=1e-9)
    assert min_cut_upper_bound(tree, "dark", p) == pytest.approx(0.0020991, rel=1e-9)
    assert birnbaum == pytest.approx({"Mains": 0.069, "Gen": 0.0285, "Relay": 0.0294}, rel=1e-9)


def test_rare_event_sum_exceeds_one_when_faults_are_not_rare():
    """onriskof.com, 29 December 2016: 1.125 "cannot be right"; the exact .78125 enumerated."""
    tree = build_tree({"top": any_of("1", "2", "three"), "three": all_of("3", "4", "5")})
    p = dict.fromkeys("12345", 0.5)

    assert cut_sets(tree, "top") == {"1", "2", "3 4 5"}
    assert rare_event_sum(tree, "top", p) == pytest.approx(1.125, rel=1e-12)
    assert probability(tree, "top", p) == pytest.approx(0.78125, rel=1e-12)


def test_two_out_of_three():
    """The textbook vote, p = .1: 3 p^2 - 2 p^3; IEC 61025 for the gate; the rest enumerated."""
    tree = build_tree({"top": EventSpec("at_least", 2, ("a", "b", "c"))})
    p = dict.fromkeys("abc", 0.1)
    measures = by_fault(tree, "top", p)

    assert cut_sets(tree, "top") == {"a b", "a c", "b c"}
    assert probability(tree, "top", p) == pytest.approx(3 * 0.1**2 - 2 * 0.1**3, rel=1e-12)
    assert probability(tree, "top", p) == pytest.approx(0.028, rel=1e-12)
    assert rare_event_sum(tree, "top", p) == pytest.approx(0.03, rel=1e-12)
    assert min_cut_upper_bound(tree, "top", p) == pytest.approx(0.029701, rel=1e-12)
    for one in measures.values():
        assert one.birnbaum == pytest.approx(0.18, rel=1e-12)
        assert one.fussell_vesely == pytest.approx(0.6667, abs=5e-5)  # the sum form, not 1 - q0/q
        assert one.criticality == pytest.approx(0.642857, abs=5e-7)


def test_two_in_row_or_a_third():
    """(A*B)+C with .1, .2, .3: textbook example, no single source; enumerated."""
    tree = build_tree({"top": any_of("ab", "C"), "ab": all_of("A", "B")})
    p = {"A": 0.1, "B": 0.2, "C": 0.3}
    birnbaum = {name: one.birnbaum for name, one in by_fault(tree, "top", p).items()}

    assert probability(tree, "top", p) == pytest.approx(0.314, rel=1e-12)
    assert birnbaum == pytest.approx({"A": 0.14, "B": 0.07, "C": 0.98}, rel=1e-12)


def test_bridge():
    """The bridge network of the reliability textbooks, p = .1, no single source; enumerated."""
    tree = build_tree(
        {
            "open": any_of("ab", "cd", "ade", "bce"),
            "ab": all_of("a", "b"),
            "cd": all_of("c", "d"),
            "ade": all_of("a", "d", "e"),
            "bce": all_of("b", "c", "e"),
        }
    )
    p = dict.fromkeys("abcde", 0.1)
    birnbaum = {name: one.birnbaum for name, one in by_fault(tree, "open", p).items()}

    assert cut_sets(tree, "open") == {"a b", "c d", "a d e", "b c e"}
    assert probability(tree, "open", p) == pytest.approx(0.02152, rel=1e-12)
    assert birnbaum == pytest.approx({**dict.fromkeys("abcd", 0.1062), "e": 0.0162}, rel=1e-9)


def test_three_motor():
    """Three-motor example, input/ThreeMotor/three_motor.xml of rakhimov/scram, every p = .02.

    The switches KT1 to KT3 are set to failed, as there. The gates here are our own arrangement of the
    published logic, with K5 in two places, so that one cut set has to absorb others. The exact figure
    is enumerated.
    """
    tree = build_tree(
        {
            "top": any_of("K5", "held_on"),
            "held_on": all_of("T2", "no_stop"),
            "no_stop": any_of("K5", "K1", "S1", "T1inc", "timers"),
            "timers": all_of("first", "second", "third"),
            "first": any_of("KT1inc", "T2inc"),
            "second": any_of("KT2inc", "T3inc"),
            "third": any_of("KT3inc", "T4inc"),
        }
    )
    p = dict.fromkeys(tree.faults, 0.02)
    timers = {
        " ".join(sorted(("T2", one, two, three)))
        for one in ("KT1inc", "T2inc")
        for two in ("KT2inc", "T3inc")
        for three in ("KT3inc", "T4inc")
    }

    assert cut_sets(tree, "top") == {"K5", "K1 T2", "S1 T2", "T1inc T2"} | timers
    assert len(minimal_cut_sets(tree, "top")) == 12
    assert [len(found) for found in minimal_cut_sets(tree, "top")] == [1, 2, 2, 2] + [4] * 8
    assert probability(tree, "top", p) == pytest.approx(0.021153782365, rel=1e-10)


def test_mocus_toy():
    """README of iamumairs/fault-tree-mcs: (a+b)+(c*d) has the cut sets a, b and c d."""
    tree = build_tree({"top": any_of("left", "right"), "left": any_of("a", "b"), "right": all_of("c", "d")})

    assert cut_sets(tree, "top") == {"a", "b", "c d"}


@pytest.mark.parametrize(("k", "n"), [(1, 4), (2, 4), (3, 5), (5, 5)])
def test_a_vote_over_like_faults_follows_the_binomial_distribution(k, n):
    """IEC 61025, m-out-of-n gate over equal, independent inputs; scipy's binomial survival function."""
    stats = pytest.importorskip("scipy.stats")
    names = tuple("abcde"[:n])
    tree = build_tree({"top": EventSpec("at_least", k, names)})

    found = probability(tree, "top", dict.fromkeys(names, 0.07))

    assert found == pytest.approx(float(stats.binom.sf(k - 1, n, 0.07)), rel=1e-12)
    assert rare_event_sum(tree, "top", dict.fromkeys(names, 0.07)) == pytest.approx(
        sum(prod([0.07] * len(found)) for found in minimal_cut_sets(tree, "top")), rel=1e-12
    )
