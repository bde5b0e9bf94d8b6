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

from graph.arrays import tally
from graph.errors import ImpossibleEvidence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from graph.arrays import Floats, Ints
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
    lead_share: Floats  # (N,) P(fault f is the one to deal with): marginal, pairs shared equally
    log_evidence: float  # log P(all answers), natural

    @property
    def singles(self) -> Floats:
        """Return P(exactly this fault), shape (N,)."""
        probabilities: Floats = self.single_scale * self.strength
        return probabilities


def posterior(tables: Tables, evidence: Sequence[Evidence]) -> Posterior:
    """Return the exact posterior by Bayes' rule in log space.

    Raises ImpossibleEvidence when no hypothesis gives the answers a probability above zero.
    """
    log_strength = np.log(tables.odds)
    log_calm, log_unknown = 0.0, 0.0
    for seen in evidence:
        calm = float(seen.class_likelihood[0])
        if calm <= 0.0 or seen.unknown_likelihood <= 0.0:
            raise ImpossibleEvidence("An answer that the otherwise row rules out cannot be weighed.")
        log_strength = log_strength + np.log(seen.class_likelihood / calm)[seen.member]
        log_calm += float(np.log(calm))
        log_unknown += float(np.log(seen.unknown_likelihood)) - float(np.log(calm))
    top = float(log_strength.max()) if len(log_strength) else 0.0
    strength = np.exp(log_strength - top)
    outside = float(np.log(tables.unknown)) + log_unknown
    base, log_total = _two_levels(tables, strength, top, _pairs(evidence, strength), outside)
    base = replace(base, log_evidence=log_total + log_calm - float(np.log(_prior_total(tables))))
    return _with_triples(tables, evidence, base, log_total) if base.pair_mass > LEVEL_SHARE else base


def _two_levels(
    tables: Tables, strength: Floats, top: float, pairs: Pairs, log_unknown: float
) -> tuple[Posterior, float]:
    """Return the posterior up to pairs, and the log of the weight it was divided by.

    Levels meet in log space, since the weight of a pair scales as the square of `strength`.
    """
    partner = pair_partners(strength, pairs)
    pair_sums = strength * partner  # (N,) over partners b of s(a) s(b) k, a fixed
    pair_total = 0.5 * float(pair_sums.sum())
    logs = {
        "nothing": float(np.log(tables.nothing)),
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
    lead = single_scale * strength + 0.5 * pair_scale * pair_sums
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


def _pairs(evidence: Sequence[Evidence], strength: Floats) -> Pairs:
    """Return signatures, couplings, and the pairs that are weighed apart."""
    signature = np.zeros(len(strength), dtype=np.int64)
    for seen in evidence:
        if seen.coupled:
            mixed = signature * len(seen.class_likelihood) + seen.member
            signature = np.unique(mixed, return_inverse=True)[1].reshape(-1)
    groups = int(signature.max()) + 1 if len(signature) else 1
    sample = np.zeros(groups, dtype=np.int64)
    sample[signature] = np.arange(len(signature))
    coupling = np.ones((groups, groups))
    for seen in evidence:
        if seen.coupled:
            classes = seen.member[sample]
            coupling *= seen.coupling()[np.ix_(classes, classes)]
    held = tally(signature, strength, groups)
    first, second, factor = _apart(evidence)
    return Pairs(signature.astype(np.int64), coupling, held, first, second, factor)


def _apart(evidence: Sequence[Evidence]) -> tuple[Ints, Ints, Floats]:
    """Return the pairs whose likelihood in an answered check is not that of their classes."""
    factors: dict[tuple[int, int], float] = {}
    for seen in evidence:
        for a, b, likelihood in seen.joint:
            usual = float(seen.pair_likelihood[seen.member[a], seen.member[b]])
            factors[(a, b)] = factors.get((a, b), 1.0) * likelihood / usual
    pairs = sorted(factors)
    first = np.array([a for a, _ in pairs], dtype=np.int64)
    second = np.array([b for _, b in pairs], dtype=np.int64)
    factor = np.array([factors[pair] for pair in pairs], dtype=np.float64)
    return first, second, factor


def pair_partners(strength: Floats, pairs: Pairs) -> Floats:
    """Return for every fault a the sum over b != a of s(b) k(a, b) factor(a, b), shape (N,)."""
    own = np.diagonal(pairs.coupling)[pairs.signature]
    partner = (pairs.coupling @ pairs.held)[pairs.signature] - strength * own
    if len(pairs.first):
        k = pairs.coupling[pairs.signature[pairs.first], pairs.signature[pairs.second]]
        extra = k * (pairs.factor - 1.0)
        np.add.at(partner, pairs.first, extra * strength[pairs.second])
        np.add.at(partner, pairs.second, extra * strength[pairs.first])
    floor: Floats = np.maximum(partner, 0.0)  # rounding can leave a hair below zero
    return floor


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
        a, b, c = np.sort(seen.member[triples], axis=1).T
        logs += np.log(seen.triple_ratio[a, b, c])
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
        log_evidence=base.log_evidence + float(np.log(total)),
    )
