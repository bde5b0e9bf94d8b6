"""One machine in the hands of a conversation: ids on the outside, numbers inside.

`Case` is the only object that translates between the two, in both directions. Everything it returns is
frozen and named by id. Its memory of what it worked out before is a cache only: the same question
always gets the same answer.
"""

from __future__ import annotations

from functools import cached_property, lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from graph.arrays import TINY, tally
from graph.belief import Posterior, Weighed, posterior_of, unweighed, weigh
from graph.candidates import may_do
from graph.choose import LOOK_AHEAD, By, Stop, rank, verdict
from graph.elements import Elements
from graph.evidence import Evidence, check_evidence, decibans, repair_evidence
from graph.findings import Advice, Belief, Conflict, Finding, Ranked
from graph.plan import Plan, make_plan
from graph.reading import Band, Display, outcome_weights
from graph.search import Found, best_checks
from graph.units import convert

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping, Sequence

    from graph.arrays import Floats, Ints
    from graph.machine import (
        Machine,
        Remedy,
    )
    from graph.tables import Tables

WORK = "work:"  # a finding about a remedy: cured, not cured
REMEMBERED = 192  # posteriors kept; each holds a matrix over signatures, up to half a megabyte
CALM_CONFLICT = 0.0  # bits; answers that fit worse than chance lie above


class Case(Elements):
    """See the head of this file."""

    def __init__(self, machine: Machine, tables: Tables) -> None:
        super().__init__(machine)
        self.tables = tables
        self._posterior: Callable[[tuple[Finding, ...]], Posterior] = lru_cache(REMEMBERED)(self._weigh)
        self._weighed: Callable[[tuple[Finding, ...]], Weighed] = lru_cache(REMEMBERED)(self._fold)
        self._evidence: Callable[[Finding], Evidence] = lru_cache(REMEMBERED)(self._see)
        self._price_lists: dict[str, Floats] = {}
        self._plans: dict[tuple[str, tuple[str, ...]], tuple[Plan, Mapping[str, int]]] = {}

    # -- evidence ------------------------------------------------------------------------------

    def answer(self, check: str, outcome: str, role: str, cured: tuple[str, ...] = ()) -> Finding:
        """Return the finding of a plain answer, the outcome by id or ref.

        Raises KeyError for an unknown check and ValueError for an unknown outcome.
        """
        index = self.check(check).outcome_index(outcome)
        if index < 0:
            raise ValueError(f'"{check}" has no outcome "{outcome}".')
        count = len(self.check(check).outcomes)
        return Finding(check, tuple(float(i == index) for i in range(count)), role, cured)

    def read(self, check: str, value: float, unit: str, role: str, cured: tuple[str, ...] = ()) -> Finding:
        """Return the finding of a number, spread over the bands by the instrument's own error.

        Outcomes of one and the same band are not told apart by the number: it speaks for each of them. An
        empty unit means the quantity's own. Raises UnitUnknown for a unit that does not fit, and
        ValueError where the check has no bands.
        """
        element = self.check(check)
        if not element.reading:
            raise ValueError(f'"{check}" is not answered with a number.')
        quantity = self.quantity(element.reading)
        number = convert(value, unit, quantity.unit) if unit else value
        banded: dict[tuple[float | None, float | None], list[int]] = {}
        for index, outcome in enumerate(element.outcomes):
            if outcome.band is not None:
                banded.setdefault(outcome.band, []).append(index)
        bands = tuple(Band(low, high, str(alike[0])) for (low, high), alike in banded.items())
        sensor = self.machine.sensor
        display = Display(sensor.display_low, sensor.display_high) if element.displayed else None
        shares = outcome_weights(number, quantity.sigma, bands, display)
        weights = [0.0] * len(element.outcomes)
        for alike, share in zip(banded.values(), shares, strict=True):
            for index in alike:
                weights[index] += share
        return Finding(check, tuple(weights), role, cured)

    def helped(self, remedy: str, cured: bool, role: str) -> Finding:  # noqa: FBT001 - the fact itself
        """Return the finding of a repair: the complaint is gone, or still there."""
        return Finding(WORK + remedy, (1.0, 0.0) if cured else (0.0, 1.0), role)

    def _see(self, finding: Finding) -> Evidence:
        if finding.check.startswith(WORK):
            return repair_evidence(
                self.tables, self._cured((finding.check.removeprefix(WORK),)), finding.weights
            )
        index = self._check_at[finding.check]
        slip = self._slip(index, finding.role)
        return check_evidence(self.tables, index, finding.weights, slip, self._cured(finding.cured))

    def _slip(self, check: int, role: str) -> float:
        own = float(self.tables.slip_own[check])
        return self.machine.settings.slips.get(role, 0.0) if np.isnan(own) else own

    def _cured(self, remedies: Collection[str]) -> frozenset[int]:
        """Return the faults that the remedies deal with."""
        done = {self._remedy_at[name] for name in remedies}
        return frozenset(int(f) for f in np.flatnonzero(np.isin(self.tables.remedy, list(done))))

    # -- belief --------------------------------------------------------------------------------

    def _weigh(self, findings: tuple[Finding, ...]) -> Posterior:
        return posterior_of(self.tables, self._weighed(findings))

    def _fold(self, findings: tuple[Finding, ...]) -> Weighed:
        """Return the answers weighed: one more than those before it, which are remembered."""
        if not findings:
            return unweighed(self.tables)
        return weigh(self._weighed(findings[:-1]), self._evidence(findings[-1]))

    def posterior(self, findings: tuple[Finding, ...]) -> Posterior:
        """Return the numbers behind `believe`, indexed by position."""
        return self._posterior(findings)

    def believe(self, findings: tuple[Finding, ...]) -> Belief:
        """Return what is believed after `findings`."""
        now = self._posterior(findings)
        tables, machine = self.tables, self.machine
        lead = now.lead_share
        todo = tally(tables.remedy, lead, tables.remedies)
        parts = tally(tables.component, now.marginals, tables.components)
        target = np.concatenate([todo, [now.nothing, now.unknown]])
        kept = target[target > 0.0]
        return Belief(
            causes=_named([fault.id for fault in machine.faults], now.marginals),
            remedies=_named([remedy.id for remedy in machine.remedies], todo),
            components=_named([part.id for part in machine.components], parts),
            nothing=now.nothing,
            unknown=now.unknown,
            several=now.pair_mass + now.triple_mass,
            bits=float(-(kept * np.log2(kept)).sum()),
        )

    def explain(self, findings: tuple[Finding, ...], fault: str) -> tuple[float, ...]:
        """Return each finding's weight of evidence for `fault` in decibans, in the order given.

        Each is the change of ten times the log odds when the finding joins those before it, so that
        they add up to the whole (I. J. Good 1950).
        """
        index = self._fault_at[fault]
        odds = []
        for count in range(len(findings) + 1):
            p = float(self._posterior(findings[:count]).marginals[index])
            p = min(max(p, 1e-300), 1.0 - 1e-16)
            odds.append(p / (1.0 - p))
        return tuple(decibans(later / earlier) for earlier, later in pairwise(odds))

    def conflict(self, findings: tuple[Finding, ...]) -> Conflict:
        """Return the conflict measure of the answers, and the one to ask again.

        conf = log2 of the product of the single probabilities over the joint one. Jensen, F. V.,
        Chamberlain, B., Nordahl, T. and Jensen, F. (1990). Analysis in HUGIN of data conflict. UAI 6.
        Answers that surprise because a rare fault explains them are no conflict: where the answers raise
        the leading fault by at least as many bits as they conflict, nobody is asked again (ibid., on
        rare cases).
        """
        bits = self._conflict_bits(findings)
        if len(findings) < 2 or bits <= CALM_CONFLICT or self._rare_case(findings) >= bits:  # noqa: PLR2004
            return Conflict(bits, None)
        without = [
            self._conflict_bits(findings[:index] + findings[index + 1 :]) for index in range(len(findings))
        ]
        return Conflict(bits, min(range(len(findings)), key=lambda index: (without[index], index)))

    def _rare_case(self, findings: tuple[Finding, ...]) -> float:
        """Return by how many bits the answers raise the leading fault."""
        before, after = self._posterior(()).marginals, self._posterior(findings).marginals
        lead = int(np.argmax(after))
        return float(np.log2(max(after[lead], TINY) / before[lead]))

    def _conflict_bits(self, findings: tuple[Finding, ...]) -> float:
        single = sum(self._posterior((finding,)).log_evidence for finding in findings)
        return float((single - self._posterior(findings).log_evidence) / np.log(2.0))

    # -- the next check ------------------------------------------------------------------------

    def rank(
        self,
        findings: tuple[Finding, ...],
        candidates: Sequence[str],
        *,
        role: str,
        here: str = "",
        by: By = "minutes",
        cured: tuple[str, ...] = (),
        top: int = 0,
    ) -> tuple[Ranked, ...]:
        """Return the candidate checks, best first, with what each is expected to tell.

        `here` is the place where the person stands; a check elsewhere costs the way there too. With
        `top` only that many are sure to be listed, which is faster.
        """
        if not candidates:
            return ()
        found, minutes = self._search(findings, candidates, role, here, by, cured, top or len(candidates))
        order = rank(found.gains, minutes, found.positions, by)
        return tuple(self._ranked(found, minutes, int(index), by) for index in order)

    def decide(
        self,
        findings: tuple[Finding, ...],
        candidates: Sequence[str],
        *,
        role: str,
        here: str = "",
        by: By = "minutes",
        cured: tuple[str, ...] = (),
        costs: Mapping[str, float] | None = None,
    ) -> tuple[Advice, tuple[Ranked, ...]]:
        """Return whether to act or to ask, with the leading checks it rests on, best first.

        `costs` gives what trying a remedy costs where that differs from the default: minutes on site
        and parts, and a visit where the role here may not do it. A remedy that is out of the question has
        an infinite cost and is never proposed.
        """
        found, minutes = self._search(findings, candidates, role, here, by, cured, LOOK_AHEAD)
        order = rank(found.gains, minutes, found.positions, by)
        price = self._prices(role, costs or {})
        result = verdict(found.gains, [int(i) for i in order], minutes, price, self._stop(role))
        share = float(found.gains.remedy_mass[result.remedy])
        name = self.machine.remedies[result.remedy].id
        act = result.reason != "ask"
        advice = Advice(act, name, share, result.cost_act, result.cost_ask, result.reason)
        return advice, tuple(self._ranked(found, minutes, int(i), by) for i in order)

    def _search(
        self,
        findings: tuple[Finding, ...],
        candidates: Sequence[str],
        role: str,
        here: str,
        by: By,
        cured: tuple[str, ...],
        top: int,
    ) -> tuple[Found, Floats]:
        """Return the reckoned checks and the minutes that each of them costs."""
        worked = (f.check.removeprefix(WORK) for f in findings if f.check.startswith(WORK))
        plan, position = self._plan(role, candidates, tuple(dict.fromkeys((*cured, *worked))))
        minutes = self._minutes(plan, here)
        keep = np.array([position[name] for name in candidates], dtype=np.int64)
        found = best_checks(self.tables, plan, self._posterior(findings), minutes, keep, by=by, top=top)
        return found, minutes[found.positions]

    def _plan(
        self, role: str, candidates: Sequence[str], cured: tuple[str, ...]
    ) -> tuple[Plan, Mapping[str, int]]:
        """Return a plan that covers the candidates; kept, since it outlives many questions."""
        known = self._plans.get((role, cured))
        if known is not None and known[1].keys() >= set(candidates):
            return known
        wanted = {*candidates, *(known[1] if known is not None else ())}
        names = [check.id for check in self.machine.checks if check.id in wanted]
        checks = [self._check_at[name] for name in names]
        plan = make_plan(
            self.tables, checks, [self._slip(check, role) for check in checks], self._cured(cured)
        )
        made = (plan, {name: index for index, name in enumerate(names)})
        self._plans[(role, cured)] = made
        return made

    def _minutes(self, plan: Plan, here: str) -> Floats:
        """Return what each check of a plan costs in minutes, the way there included."""
        checks = plan.checks
        away = (self._place_of[checks] != self._places.get(here, -1)) & bool(here)
        return self._own_minutes[checks] + np.where(away, self._way_minutes[checks], 0.0)

    @cached_property
    def _places(self) -> Mapping[str, int]:
        return {place.id: index for index, place in enumerate(self.machine.places)}

    @cached_property
    def _place_of(self) -> Ints:
        return np.array([self._places.get(check.place, -1) for check in self.machine.checks], dtype=np.int64)

    @cached_property
    def _own_minutes(self) -> Floats:
        return np.array([check.minutes for check in self.machine.checks], dtype=np.float64)

    @cached_property
    def _way_minutes(self) -> Floats:
        return np.array([self.place(check.place).minutes for check in self.machine.checks], dtype=np.float64)

    def _ranked(self, found: Found, minutes: Floats, index: int, by: By) -> Ranked:
        check = self.machine.checks[int(found.plan.checks[index])]
        bits = float(found.gains.remedy_bits[index])
        return Ranked(
            check=check.id,
            bits_remedy=bits,
            bits_fault=float(found.gains.fault_bits[index]),
            minutes=float(minutes[index]),
            score=bits / float(minutes[index]) if by == "minutes" else bits,
            outcomes=tuple(float(p) for p in found.gains.outcomes[index, : len(check.outcomes)]),
        )

    def _prices(self, role: str, own: Mapping[str, float]) -> Floats:
        known = self._price_lists.get(role)
        if known is None:
            known = np.array([self.price(remedy.id, role) for remedy in self.machine.remedies])
            self._price_lists[role] = known
        if not own:
            return known
        return np.array([own.get(r.id, float(p)) for r, p in zip(self.machine.remedies, known, strict=True)])

    def price(self, remedy: str, role: str) -> float:
        """Return what trying a remedy costs when `role` is here: minutes, parts, and a visit if need be."""
        costs, element = self.machine.settings.costs, self.remedy(remedy)
        prices = self.machine.settings.part_prices
        parts = sum(prices.get(part, costs["part_default"]) for part in element.parts)
        here = may_do(role, element.by)
        minute = (
            costs["minute_on_phone"] if here and role in {"operator", "helpdesk"} else costs["minute_on_site"]
        )
        return float(element.minutes * minute + parts + (0.0 if here else costs["visit"]))

    def work_of(self, role: str, belief: Belief) -> tuple[tuple[float, Remedy], ...]:
        """Return the repairs that `role` may do, each with how probable it is to be what to do."""
        pairs = ((p, self.remedy(name)) for name, p in belief.remedies)
        return tuple((p, remedy) for p, remedy in pairs if may_do(role, remedy.by))

    def worth_a_try(self, role: str, belief: Belief) -> tuple[str, ...]:
        """Return the repairs to try here before anyone is sent, though it is likely that one won't help.

        Each is likelier than that nothing is wrong or that nobody knows the cause, and its chance of saving
        the visit is worth more than the try costs. The likeliest comes first.
        """
        floor, visit = max(belief.nothing, belief.unknown), self.machine.settings.costs["visit"]
        return tuple(
            remedy.id
            for p, remedy in self.work_of(role, belief)
            if p > floor and p * visit > self.price(remedy.id, role)
        )

    def _stop(self, role: str) -> Stop:
        settings = self.machine.settings
        costs, rule = settings.costs, settings.stop
        phone = role in {"operator", "helpdesk"}
        return Stop(
            certain=rule["certain"],
            try_at=rule["try_at"],
            leftover=costs["not_found"],
            minute=costs["minute_on_phone"] if phone else costs["minute_on_site"],
            unknown=rule["unknown"],
            humble=rule["humble"],
            tells_nothing=rule["tells_nothing"],
        )


def _named(names: Sequence[str], values: Floats) -> tuple[tuple[str, float], ...]:
    """Return (name, value) pairs, the largest value first, ties in file order."""
    order = np.argsort(-np.round(values, 12), kind="stable")
    return tuple((names[int(i)], float(values[int(i)])) for i in order)
