"""Posterior and expected information gain against exact inference by a library of Bayesian networks.

pyAgrum (Ducamp, Gonzales and Wuillemin 2020, aGrUM/pyAgrum: a toolbox to build models and algorithms for
probabilistic graphical models in Python, PGM 2020), LazyPropagation: Madsen and Jensen (1999), Lazy
propagation, Artificial Intelligence 113. Its own mutual information of joint targets ignores evidence,
so it is worked out here from the joint posterior.
"""

from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from network import UNKNOWN, Generative, Shared, climb, true_events, unknown_row
from oracles import REPAIR, Answer, drawn, evidence_list, mutual_information, random_tables
from strategies import sample_case

from assistant.library import load_case
from graph.belief import posterior
from graph.compile import compile_tables
from graph.evidence import slipped
from graph.gain import gains, single_gains
from graph.machine import Row
from graph.plan import make_plan

AGREE = 1e-9
NEGLIGIBLE = 1e-30  # as a factor of all odds: two faults at once then weigh nothing


def random_weights(rng, outcomes):
    """Return a plain answer, or a soft one as a reading near the edge of a band gives it."""
    return (
        np.eye(outcomes)[rng.integers(outcomes)] if rng.random() < 0.6 else rng.dirichlet(np.ones(outcomes))
    )


# -- small machines: faults, draws and combinations as nodes -----------------------------------


@cache
def small(seed):
    """Return random tables, their checks (two of them after a cure), and networks for two and three faults."""
    of = random_tables(seed, faults=5, checks=3, joint=False)
    rng = np.random.default_rng(seed)
    cured, repaired = (frozenset({int(rng.integers(5))}) for _ in range(2))
    checks = [*((c, frozenset()) for c in range(3)), (0, cured), (1, cured), (REPAIR, repaired)]
    slip = (0.0, 0.05)[seed % 2]
    return of, checks, slip, {depth: Generative(of, checks, slip, depth) for depth in (2, 3)}


def evidence_sets(seed, count):
    """Yield random evidence for a small machine: a weight per outcome for some of its checks."""
    of, checks, slip, networks = small(seed)
    rng = np.random.default_rng(1000 + seed)
    for _ in range(count):
        chosen = rng.permutation(len(checks))[: int(rng.integers(0, 5))]
        sizes = {int(n): 2 if checks[n][0] == REPAIR else int(of.outcomes[checks[n][0]]) for n in chosen}
        weights = {n: random_weights(rng, size) for n, size in sizes.items()}
        told = [Answer(checks[n][0], tuple(w), slip, checks[n][1]) for n, w in weights.items()]
        yield of, checks, slip, networks, weights, posterior(of, evidence_list(of, told))


@pytest.mark.parametrize("seed", range(10))
def test_the_posterior_is_that_of_a_network_of_faults_and_draws(seed):
    """Masks, no usual outcome, slips, soft answers, answers after a cure, a repair that helped or not."""
    for of, _, _, networks, weights, now in evidence_sets(seed, 20):
        network = networks[3 if now.triple_mass > 0.0 else 2]
        network.observe(weights)
        exact = network.hypotheses()

        assert now.marginals == pytest.approx(network.present(), abs=AGREE)
        assert now.singles == pytest.approx([exact[(f,)] for f in range(of.faults)], abs=AGREE)
        assert (now.nothing, now.unknown) == pytest.approx((exact[()], exact[UNKNOWN]), abs=AGREE)
        assert now.pair_mass == pytest.approx(
            sum(p for s, p in exact.items() if s and len(s) == 2), abs=AGREE
        )


@pytest.mark.parametrize("seed", range(10))
def test_gains_are_the_mutual_information_of_a_network_of_faults_and_draws(seed):
    for of, checks, slip, networks, weights, now in evidence_sets(seed, 20):
        networks[2].observe(weights)
        dealt = frozenset().union(*(checks[n][1] for n in weights if checks[n][0] == REPAIR))
        for cured in {c for check, c in checks if check != REPAIR}:
            plan = make_plan(of, range(of.checks), [slip] * of.checks, cured)
            found = gains(of, plan, now)
            for number, (check, before) in enumerate(checks):
                if check == REPAIR or before != cured or number in weights:
                    continue
                for target, bits in (
                    ("hypothesis", found.fault_bits),
                    (networks[2].todo[dealt], found.remedy_bits),
                ):
                    exact = mutual_information(networks[2].joint(target, number))
                    assert bits[check] == pytest.approx(exact, abs=AGREE)


# -- a machine as its authors wrote it: rows of events, a gate of two faults ---------------------


def together(machine, hypotheses, alone):
    """Return for each pair of faults the events that they make true and neither makes alone, in file order."""
    found = {}
    for members in hypotheses:
        if members != UNKNOWN and len(members) == 2:
            true = true_events(machine, set(members)) - set().union(*(alone[m] for m in members))
            found[members] = [event.id for event in machine.events if event.id in true]
    return found


def rows_of(machine, check, hypotheses, alone, joint):
    """Return P(outcome | hypothesis), from the machine itself: rows, events, masks, combination.

    `alone` are the fault and its events, nearest first; `joint` the events that only a pair makes true.
    """
    written = {row.key: row.probabilities for row in check.rows}
    faults = {fault.id: fault for fault in machine.faults}
    key = {name: next((k for k in alone[name] if k in written), None) for name in faults}
    mix = machine.settings.unknown_mix
    single = np.array([written[key[name]] if key[name] else check.otherwise for name in faults])
    unknown = unknown_row(machine, single, mix if check.kind == "check" else 0.0)

    def row(members):
        if members == UNKNOWN:
            return unknown
        drawing = [
            (written[key[m]], check.displayed and faults[m].falsifies_reading)
            for m in members
            if key[m] and written[key[m]] != check.otherwise
        ]
        spoken = [event for event in joint.get(members, ()) if event in written]
        drawing += [(written[event], False) for event in spoken[:1]]
        if not drawing:
            return check.otherwise
        return drawn([r for r, _ in drawing], check.usual, [m for _, m in drawing])

    return np.array([row(members) for members in hypotheses])


def weights_of(tables, names, hypotheses):
    """Return the prior weight of each hypothesis: the product of the odds of its members."""
    odds = dict(zip(names, tables.odds, strict=True))
    special = {(): tables.nothing, UNKNOWN: tables.unknown}
    return [special[s] if s in special else float(np.prod([odds[m] for m in s])) for s in hypotheses]


def network_of(machine, tables, hypotheses, slip):
    """Return the network of all checks under the given hypotheses."""
    alone = {fault.id: climb(machine, fault.id) for fault in machine.faults}
    joint = together(machine, hypotheses, alone)
    checks = {}
    for check in machine.checks:
        own = slip if check.slip is None else check.slip
        rows = rows_of(machine, check, hypotheses, alone, joint)
        checks[check.id] = slipped(rows, own, rows.shape[1])
    return Shared(weights_of(tables, [f.id for f in machine.faults], hypotheses), checks)


def targets_of(machine, hypotheses):
    """Return the share of each remedy, of nothing and of unknown in each hypothesis."""
    place = {remedy.id: number for number, remedy in enumerate(machine.remedies)}
    remedy = {fault.id: place[fault.remedy] for fault in machine.faults}
    share = np.zeros((len(place) + 2, len(hypotheses)))
    for column, members in enumerate(hypotheses):
        if members in ((), UNKNOWN):
            share[-1 if members else -2, column] = 1.0
            continue
        for member in members:
            share[remedy[member], column] += 1.0 / len(members)
    return share


def slips_of(machine, slip):
    return [slip if check.slip is None else check.slip for check in machine.checks]


def random_evidence(machine, rng, most):
    """Return weights over the outcomes of some checks, by id."""
    chosen = rng.permutation(len(machine.checks))[: int(rng.integers(0, most + 1))]
    checks = [machine.checks[int(number)] for number in chosen]
    return {check.id: random_weights(rng, len(check.outcomes)) for check in checks}


def believed(machine, tables, weights, slip):
    position = {check.id: number for number, check in enumerate(machine.checks)}
    own = slips_of(machine, slip)
    told = [Answer(position[name], tuple(w), own[position[name]]) for name, w in weights.items()]
    return posterior(tables, evidence_list(tables, told))


def agree_on_gains(machine, network, share, weights, *found):
    """Compare the gains of every check that is not yet answered, reckoned in one way or several."""
    left = [number for number, check in enumerate(machine.checks) if check.id not in weights]
    joint = [network.joint(machine.checks[number].id) for number in left]
    about_fault = [mutual_information(table) for table in joint]
    about_remedy = [mutual_information(share @ table) for table in joint]
    for one in found:
        assert np.allclose(one.fault_bits[left], about_fault, rtol=0.0, atol=AGREE)
        assert np.allclose(one.remedy_bits[left], about_remedy, rtol=0.0, atol=AGREE)


def hypotheses_of(machine, depth):
    names = [fault.id for fault in machine.faults]
    return [*(s for size in range(depth + 1) for s in combinations(names, size)), UNKNOWN]


def agree_up_to_pairs(machine, seed, count, slip):
    """Compare posterior and gains of a machine with its network over random evidence."""
    tables = compile_tables(machine)
    hypotheses = hypotheses_of(machine, 2)
    network, share = network_of(machine, tables, hypotheses, slip), targets_of(machine, hypotheses)
    plan = make_plan(tables, range(tables.checks), slips_of(machine, slip))
    rng = np.random.default_rng(seed)
    for _ in range(count):
        weights = random_evidence(machine, rng, 4)
        network.observe(weights)
        exact = dict(zip(hypotheses, network.hypotheses(), strict=True))
        now = believed(machine, tables, weights, slip)
        level = 1.0 - now.triple_mass

        pairs = sum(p for s, p in exact.items() if s != UNKNOWN and len(s) == 2)
        assert now.singles / level == pytest.approx([exact[(f.id,)] for f in machine.faults], abs=AGREE)
        assert now.pair_mass / level == pytest.approx(pairs, abs=AGREE)
        assert now.unknown / level == pytest.approx(exact[UNKNOWN], abs=AGREE)
        agree_on_gains(machine, network, share, weights, gains(tables, plan, now))


def test_a_pair_that_makes_an_event_true_and_a_dead_sensor_agree_with_the_network():
    """The sample machine, its reading extended by rows for an `all` gate and for the sensor itself."""
    machine = sample_case().machine
    more = (
        Row("gas_supply.shut_and_empty", (0.0, 0.0, 1.0)),
        Row("sensors.sensor.dead_low@gas_supply", (1.0, 0.0, 0.0)),
    )
    checks = tuple(
        replace(c, rows=(*c.rows, *more)) if c.id == "gas_supply.reading" else c for c in machine.checks
    )

    agree_up_to_pairs(replace(machine, checks=checks), seed=1, count=60, slip=0.05)


# -- the shipped pack --------------------------------------------------------------------------


@cache
def shipped():
    return load_case(cache=False).machine


def chapter_of(machine, chapter):
    """Return the machine with the faults of one chapter only, and the events and checks that speak of them."""
    faults = tuple(fault for fault in machine.faults if fault.chapter == chapter)
    known, events = {fault.id for fault in faults}, machine.events
    while True:
        named = known | {event.id for event in events}
        kept = tuple(
            replace(event, of=tuple(name for name in event.of if name in named))
            for event in events
            if any(name in named for name in event.of)
            and (event.gate == "any" or all(name in named for name in event.of))
        )
        if kept == events:
            break
        events = kept
    named = known | {event.id for event in events}
    checks = tuple(
        replace(check, rows=tuple(row for row in check.rows if row.key in named))
        for check in machine.checks
        if any(row.key in named for row in check.rows)
    )
    return replace(machine, faults=faults, events=events, checks=checks)


@pytest.mark.parametrize("chapter", ["machine_water", "dispensing"])
def test_a_chapter_of_the_shipped_pack_agrees_up_to_pairs(chapter):
    machine = chapter_of(shipped(), chapter)

    assert len(machine.faults) > 5
    agree_up_to_pairs(machine, seed=2, count=30, slip=0.08)


@cache
def whole():
    """Return the shipped machine, tables whose double faults weigh nothing, and the network of single faults."""
    machine = shipped()
    tables = compile_tables(machine)
    tables = replace(
        tables,
        odds=tables.odds * NEGLIGIBLE,
        nothing=tables.nothing * NEGLIGIBLE,
        unknown=tables.unknown * NEGLIGIBLE,
    )
    hypotheses = hypotheses_of(machine, 1)
    return machine, tables, network_of(machine, tables, hypotheses, 0.08), targets_of(machine, hypotheses)


@pytest.mark.parametrize("seed", range(15))
def test_the_whole_shipped_pack_agrees_on_single_faults_for_every_check(seed):
    machine, tables, network, share = whole()
    rng = np.random.default_rng(seed)
    weights = random_evidence(machine, rng, 8)
    network.observe(weights)
    exact = network.hypotheses()
    now = believed(machine, tables, weights, 0.08)
    plan = make_plan(tables, range(tables.checks), slips_of(machine, 0.08))

    assert now.nothing == pytest.approx(exact[0], abs=AGREE)
    assert now.singles == pytest.approx(exact[1:-1], abs=AGREE)
    assert now.unknown == pytest.approx(exact[-1], abs=AGREE)
    agree_on_gains(
        machine, network, share, weights, gains(tables, plan, now), single_gains(tables, plan, now)
    )


def test_the_posterior_of_the_whole_shipped_pack_agrees_for_hundreds_of_evidence_sets():
    machine, tables, network, _ = whole()
    rng = np.random.default_rng(99)
    for _ in range(300):
        weights = random_evidence(machine, rng, 12)
        network.observe(weights)
        now = believed(machine, tables, weights, 0.08)

        assert np.allclose(
            [now.nothing, *now.singles, now.unknown], network.hypotheses(), rtol=0.0, atol=AGREE
        )
