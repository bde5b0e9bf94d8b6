"""What is believed after what was seen: hypotheses, posterior, marginals.

A hypothesis is a set of faults present at once: none ("nothing is wrong"), one, two, three where they
matter, and one that stands for everything outside the graph. Faults are independent a priori, so the
weight of a set is the product of the odds of its members and of the likelihoods of all answers.

How the pairs stay cheap. For an answer with weights w over the outcomes let l(S) be the likelihood of
the set S and d that of the `otherwise` row. With the ratios r(a) = l(a) / d the weight of a pair is

    s(a) s(b) k(a, b),   s = odds times the ratios,   k(a, b) = l(a, b) d / (l(a) l(b)),

and k is 1 unless both faults have a row in that check. Faults that fell into the same classes of all
answered checks (a *signature*) are alike, so k is a small matrix over signatures and every sum over
pairs is a quadratic form in it: exact, and independent of the number of pairs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import MOST_COUPLED, RULED_OUT, TINY, tally
from graph.errors import ImpossibleEvidence
from graph.evidence import REPAIRED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from graph.arrays import Bools, Floats, Ints
    from graph.evidence import Evidence
    from graph.tables import Tables

LEVEL_SHARE = 0.05  # when the outermost level holds more belief than this, the next one is added
TRIPLE_POOL = 18  # how many leading faults triples are formed of


@dataclass(frozen=True)
class Pairs:
    """The pair level in compact form; see the head of this file."""

    signature: Ints  # (N,) which signature each fault has
    coupling: Floats  # (G, G) the matrix k
    held: Floats  # (G,) sum of s over the faults of each signature
    first: Ints  # (X,) pairs that make an event true together and are weighed apart
    second: Ints  # (X,)
    factor: Floats  # (X,) their weight relative to s(a) s(b) k(a, b)


@dataclass(frozen=True)
class Posterior:
    """Beliefs that sum to one: nothing + unknown + sum of singles + pairs + triples.

    `marginals[f]` is P(fault f is present). `single` and `pair_scale` let the gain recompute any
    sum over pairs: P(exactly {a, b}) = pair_scale * s(a) * s(b) * k(a, b) * factor.
    """

    strength: Floats  # (N,) s, scaled so that its largest value is one
    single_scale: float
    pair_scale: float
    pairs: Pairs
    nothing: float
    unknown: float
    pair_mass: float
    triple_mass: float
    marginals: Floats  # (N,)
    lead_share: Floats  # (N,) P(fault f is the one to deal with next), see `lead_partners`
    dealt: Bools  # (N,) faults that a repair has dealt with, whether it helped or not
    log_evidence: float  # log P(all answers) on hypotheses of up to two faults, natural

    @property
    def singles(self) -> Floats:
        """Return P(exactly this fault), shape (N,)."""
        probabilities: Floats = self.single_scale * self.strength
        return probabilities


@dataclass(frozen=True)
class Weighed:
    """Answers weighed so far: what `posterior` needs of them, so that one more costs little."""

    evidence: tuple[Evidence, ...]
    log_strength: Floats  # (N,) log odds plus log likelihood ratios to the otherwise row
    log_calm: float
    log_unknown: float  # relative to the otherwise row
    signature: Ints  # (N,)
    coupling: Floats  # (G, G)


def unweighed(tables: Tables) -> Weighed:
    """Return the state before any answer."""
    return Weighed(
        (), np.log(tables.odds), 0.0, 0.0, np.zeros(tables.faults, dtype=np.int64), np.ones((1, 1))
    )


def weigh(before: Weighed, seen: Evidence) -> Weighed:
    """Return the state after one more answer.

    Raises ImpossibleEvidence when the answer has no chance under the otherwise row, which no pack
    with slips or honest rows brings about.
    """
    calm = float(seen.class_likelihood[0])
    if calm <= 0.0 or seen.unknown_likelihood <= 0.0:
        raise ImpossibleEvidence("An answer that the otherwise row rules out cannot be weighed.")
    ratio = np.log(np.maximum(seen.class_likelihood, RULED_OUT) / calm)
    signature, coupling = before.signature, before.coupling
    if seen.coupled:
        size = len(seen.class_likelihood)
        kinds, where = np.unique(signature * size + seen.member, return_inverse=True)
        signature = where.reshape(-1).astype(np.int64)
        old, classes = kinds // size, kinds % size
        coupling = coupling[np.ix_(old, old)] * seen.coupling()[np.ix_(classes, classes)]
        coupling = np.minimum(coupling, MOST_COUPLED)
    return Weighed(
        evidence=(*before.evidence, seen),
        log_strength=before.log_strength + ratio[seen.member],
        log_calm=before.log_calm + float(np.log(calm)),
        log_unknown=before.log_unknown + float(np.log(seen.unknown_likelihood / calm)),
        signature=signature,
        coupling=coupling,
    )


def posterior(tables: Tables, evidence: Sequence[Evidence]) -> Posterior:
    """Return the exact posterior by Bayes' rule in log space."""
    state = unweighed(tables)
    for seen in evidence:
        state = weigh(state, seen)
    return posterior_of(tables, state)


def posterior_of(tables: Tables, state: Weighed) -> Posterior:
    """Return the posterior of answers already weighed."""
    top = float(state.log_strength.max()) if len(state.log_strength) else 0.0
    strength = np.exp(state.log_strength - top)
    held = tally(state.signature, strength, len(state.coupling))
    pairs = Pairs(state.signature, state.coupling, held, *_apart(state.evidence))
    outside = float(np.log(max(tables.unknown, TINY))) + state.log_unknown
    base, log_total = _two_levels(tables, strength, top, pairs, outside, _dealt(tables, state.evidence))
    base = replace(base, log_evidence=log_total + state.log_calm - float(np.log(_prior_total(tables))))
    return _with_triples(tables, state.evidence, base, log_total) if base.pair_mass > LEVEL_SHARE else base


def _dealt(tables: Tables, evidence: Sequence[Evidence]) -> Bools:
    """Return which faults a repair has dealt with."""
    dealt = np.zeros(tables.faults, dtype=np.bool_)
    for seen in evidence:
        if seen.check < 0:
            dealt |= seen.member == REPAIRED
    return dealt


def _two_levels(
    tables: Tables, strength: Floats, top: float, pairs: Pairs, log_unknown: float, dealt: Bools
) -> tuple[Posterior, float]:
    """Return the posterior up to pairs, and the log of the weight it was divided by.

    Levels meet in log space, since the weight of a pair scales as the square of `strength`.
    """
    partner = pair_partners(strength, pairs)
    pair_sums = strength * partner  # (N,) over partners b of s(a) s(b) k, a fixed
    pair_total = 0.5 * float(pair_sums.sum())
    logs = {
        "nothing": float(np.log(max(tables.nothing, TINY))),
        "unknown": log_unknown,
        "single": top + float(np.log(strength.sum())),
    }
    if pair_total > 0.0:
        logs["pair"] = 2.0 * top + float(np.log(pair_total))
    total = _log_sum(list(logs.values()))
    share = {name: float(np.exp(value - total)) for name, value in logs.items()}
    single_scale = share["single"] / float(strength.sum())
    pair_mass = share.get("pair", 0.0)
    pair_scale = pair_mass / pair_total if pair_total > 0.0 else 0.0
    marginals = single_scale * strength + pair_scale * pair_sums
    lead = single_scale * strength + pair_scale * strength * lead_partners(strength, pairs, dealt, partner)
    base = Posterior(
        strength=strength,
        single_scale=single_scale,
        pair_scale=pair_scale,
        pairs=pairs,
        nothing=share["nothing"],
        unknown=share["unknown"],
        pair_mass=pair_mass,
        triple_mass=0.0,
        marginals=marginals,
        lead_share=lead,
        dealt=dealt,
        log_evidence=0.0,
    )
    return base, total


def _log_sum(values: list[float]) -> float:
    largest = max(values)
    return largest + float(np.log(sum(np.exp(value - largest) for value in values)))


def _prior_total(tables: Tables) -> float:
    """Return the prior weight of everything up to pairs."""
    first, second = float(tables.odds.sum()), float((tables.odds**2).sum())
    return tables.nothing + tables.unknown + first + 0.5 * (first * first - second)


def _apart(evidence: Sequence[Evidence]) -> tuple[Ints, Ints, Floats]:
    """Return the pairs whose likelihood in an answered check is not that of their classes."""
    factors: dict[tuple[int, int], float] = {}
    for seen in evidence:
        for a, b, likelihood in seen.joint:
            usual = max(float(seen.pair_likelihood[seen.member[a], seen.member[b]]), RULED_OUT)
            factors[(a, b)] = factors.get((a, b), 1.0) * likelihood / usual
    pairs = sorted(factors)
    first = np.array([a for a, _ in pairs], dtype=np.int64)
    second = np.array([b for _, b in pairs], dtype=np.int64)
    factor = np.array([factors[pair] for pair in pairs], dtype=np.float64)
    return first, second, factor


def pair_partners(strength: Floats, pairs: Pairs) -> Floats:
    """Return for every fault a the sum over b != a of strength(b) k(a, b) factor(a, b), shape (N,)."""
    own = np.diagonal(pairs.coupling)[pairs.signature]
    held = tally(pairs.signature, strength, len(pairs.coupling))
    partner = (pairs.coupling @ held)[pairs.signature] - strength * own
    if len(pairs.first):
        k = pairs.coupling[pairs.signature[pairs.first], pairs.signature[pairs.second]]
        extra = k * (pairs.factor - 1.0)
        np.add.at(partner, pairs.first, extra * strength[pairs.second])
        np.add.at(partner, pairs.second, extra * strength[pairs.first])
    floor: Floats = np.maximum(partner, 0.0)  # rounding can leave a hair below zero
    return floor


def next_share(dealt: Bools, first: Ints, second: Ints) -> Floats:
    """Return the chance that `first` is the one to deal with next when both faults are present.

    One half, unless a repair has dealt with one of them: then it is the other.
    """
    share: Floats = np.where(dealt[first] == dealt[second], 0.5, np.where(dealt[first], 0.0, 1.0))
    return share


def lead_partners(strength: Floats, pairs: Pairs, dealt: Bools, partner: Floats) -> Floats:
    """Return for every fault the part of `partner` in which that fault is the one to deal with next."""
    if not dealt.any():
        halves: Floats = 0.5 * partner
        return halves
    repaired = pair_partners(np.where(dealt, strength, 0.0), pairs)
    share: Floats = np.where(dealt, 0.5 * repaired, 0.5 * (partner + repaired))
    return share


def _with_triples(
    tables: Tables, evidence: Sequence[Evidence], base: Posterior, log_total: float
) -> Posterior:
    """Return the posterior with triples of the leading faults added as a third level."""
    pool = np.argsort(-base.marginals, kind="stable")[:TRIPLE_POOL]
    triples = np.array(list(combinations(sorted(int(f) for f in pool), 3)), dtype=np.int64)
    if not len(triples):
        return base
    logs = np.log(tables.odds[triples]).sum(axis=1) - log_total
    for seen in evidence:
        logs += np.log(seen.triple_ratio(triples))
    mass = np.exp(logs)
    total = 1.0 + float(mass.sum())
    extra = np.zeros(len(base.strength))
    np.add.at(extra, triples.reshape(-1), np.repeat(mass, 3))
    return replace(
        base,
        single_scale=base.single_scale / total,
        pair_scale=base.pair_scale / total,
        nothing=base.nothing / total,
        unknown=base.unknown / total,
        pair_mass=base.pair_mass / total,
        triple_mass=float(mass.sum()) / total,
        marginals=(base.marginals + extra) / total,
        lead_share=(base.lead_share + extra / 3.0) / total,
    )
