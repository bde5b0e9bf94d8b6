"""Bayesian networks of our machines, for a reference library to solve.

Nothing of the engine's compact form is used: faults are nodes, each fault draws an outcome for each
check, and what the check shows is a deterministic node over the draws. Which row a fault has is found
here a second time, from the events of the machine.

Importing the library warns about its own extension types, and crashes where a warning is an error.
"""

import warnings
from functools import partial
from itertools import combinations, product

import numpy as np
from oracles import PAIR, REPAIR

from graph.evidence import HELPED, HELPED_NOTHING, HELPED_UNKNOWN

with warnings.catch_warnings():
    warnings.simplefilter("ignore", DeprecationWarning)
    import pyagrum as gum

UNKNOWN = "unknown"


def node(net, name, size, parents=(), cells=None):
    """Add a variable; `cells[p1, p2, ..., value]` is its conditional table, parents in order."""
    net.add(gum.LabelizedVariable(name, "", size))
    for parent in parents:
        net.addArc(parent, name)
    names = net.cpt(name).names
    order = [names.index(n) for n in (*parents, name)][::-1]
    axes = np.argsort([len(names) - 1 - i for i in order[::-1]])
    net.cpt(name)[:] = np.ascontiguousarray(np.transpose(cells, axes)) if parents else np.asarray(cells)


def table(sizes, row_of, width):
    """Return the conditional table whose row under the parents' values `v` is `row_of(v)`."""
    cells = np.zeros((*sizes, width))
    for values in product(*map(range, sizes)):
        cells[values] = row_of(values)
    return cells


def sets_of(faults, depth):
    """Return the hypotheses in label order: none, each set of up to `depth` faults, unknown, impossible."""
    known = [s for size in range(depth + 1) for s in combinations(range(faults), size)]
    return [*known, UNKNOWN, None]


class Generative:
    """Faults, an unknown cause, draws and combinations, with at most `depth` faults at once.

    `checks` are pairs of a check number and the faults cured before it was seen; REPAIR with the faults
    that the repair deals with stands for "did it help?".
    """

    def __init__(self, of, checks, slip, depth):
        self.of, self.slip = of, slip
        self.net = gum.BayesNet()
        self.faults = [f"fault{f}" for f in range(of.faults)]
        self.everything = (*self.faults, UNKNOWN)
        self.sets = sets_of(of.faults, depth)
        self._prior(depth)
        repairs = [faults for check, faults in checks if check == REPAIR]
        groups = [
            frozenset().union(*some)
            for size in range(len(repairs) + 1)
            for some in combinations(repairs, size)
        ]
        self.todo = {dealt: f"todo{index}" for index, dealt in enumerate(dict.fromkeys(groups))}
        self._targets()
        self.seen = [self._check(number, *check) for number, check in enumerate(checks)]
        self.solver = gum.LazyPropagation(self.net)
        for name in self.seen:
            self.solver.addJointTarget({"hypothesis", name})
            for todo in self.todo.values():
                self.solver.addJointTarget({todo, name})

    def _prior(self, depth):
        """Independent causes, and an always observed node that lets only our hypotheses through."""
        of = self.of
        for name, odds in zip(self.everything, (*of.odds, of.unknown), strict=True):
            node(self.net, name, 2, (), [1.0 / (1.0 + odds), odds / (1.0 + odds)])
        most = max(1.0, of.nothing)

        def let_through(values):
            *faults, outside = values
            count = sum(faults)
            weight = of.nothing if count + outside == 0 else float(count <= depth and not (count and outside))
            return [1.0 - weight / most, weight / most]

        node(self.net, "allowed", 2, self.everything, table([2] * len(self.everything), let_through, 2))

    def _targets(self):
        of, sizes = self.of, [2] * len(self.everything)
        place = {members: index for index, members in enumerate(self.sets)}

        def members_of(values):
            return UNKNOWN if values[-1] else tuple(f for f, there in enumerate(values[:-1]) if there)

        def hypothesis(values):
            return np.eye(len(self.sets))[place.get(members_of(values), len(self.sets) - 1)]

        def todo(values, dealt):
            members = members_of(values)
            each = np.eye(of.remedies + 2)
            if members in (UNKNOWN, ()):
                return each[-1 if members else -2]
            due = [f for f in members if f not in dealt] if len(members) == PAIR else []
            return sum(each[int(of.remedy[f])] for f in due or members) / len(due or members)

        node(
            self.net, "hypothesis", len(self.sets), self.everything, table(sizes, hypothesis, len(self.sets))
        )
        for dealt, name in self.todo.items():
            cells = table(sizes, partial(todo, dealt=dealt), of.remedies + 2)
            node(self.net, name, of.remedies + 2, self.everything, cells)

    def _check(self, number, check, faults):
        if check == REPAIR:
            return self._repair(number, faults)
        of, name = self.of, f"seen{number}"
        outcomes, start = int(of.outcomes[check]), int(of.class_start[check])
        drawing, masks = [], []
        for entry in range(int(of.entry_start[check]), int(of.entry_start[check + 1])):
            fault, row = int(of.entry_fault[entry]), int(of.entry_class[entry])
            if fault in faults:
                continue
            silent = [0.0] * outcomes + [1.0]
            drawing.append(f"draw{number}_{fault}")
            masks.append(bool(of.masks[row]))
            node(
                self.net,
                drawing[-1],
                outcomes + 1,
                (self.faults[fault],),
                [silent, [*of.rows[row, :outcomes], 0.0]],
            )

        def shown(values):
            *draws, outside = values
            if outside:
                return of.unknown_rows[check, :outcomes]
            said = [(d, m) for d, m in zip(draws, masks, strict=True) if d < outcomes]
            heard = [d for d, m in said if m] or [d for d, _ in said]
            if not heard:
                return of.rows[start, :outcomes]
            usual = int(of.usual[check])
            unusual = [d for d in heard if d != usual] or [usual]
            return np.bincount(unusual, minlength=outcomes) / len(unusual)

        sizes = [outcomes + 1] * len(drawing) + [2]
        node(self.net, f"shown{number}", outcomes, (*drawing, UNKNOWN), table(sizes, shown, outcomes))
        wrong = self.slip / (outcomes - 1)
        node(
            self.net,
            name,
            outcomes,
            (f"shown{number}",),
            np.full((outcomes, outcomes), wrong) + np.eye(outcomes) * (1.0 - self.slip - wrong),
        )
        return name

    def _repair(self, number, faults):
        def cured(values):
            *there, outside = values
            members = [f for f, present in enumerate(there) if present]
            p = HELPED_UNKNOWN[0] if outside else HELPED_NOTHING[0] if not members else 1.0
            for member in members:
                p *= HELPED[0][0] if member in faults else HELPED[1][0]
            return [p, 1.0 - p]

        name = f"seen{number}"
        node(self.net, name, 2, self.everything, table([2] * len(self.everything), cured, 2))
        return name

    def observe(self, weights):
        """Enter the likelihood of each outcome for some of the nodes, numbered as the checks were."""
        self.solver.setEvidence({self.seen[n]: list(w) for n, w in weights.items()} | {"allowed": 1})
        self.solver.makeInference()

    def hypotheses(self):
        """Return the posterior by set."""
        return dict(zip(self.sets, self.solver.posterior("hypothesis").toarray().tolist(), strict=True))

    def present(self):
        """Return P(fault is present) for every fault."""
        return [float(self.solver.posterior(name).toarray()[1]) for name in self.faults]

    def joint(self, target, number):
        """Return the joint posterior of a target and what a check will show."""
        return self.solver.jointPosterior({target, self.seen[number]}).toarray()


class Shared:
    """One node for the hypothesis, and one for each check below it: `rows[hypothesis]` by check."""

    def __init__(self, prior, checks):
        self.net = gum.BayesNet()
        node(self.net, "hypothesis", len(prior), (), np.array(prior) / sum(prior))
        for name, rows in checks.items():
            node(self.net, name, rows.shape[1], ("hypothesis",), rows)
        self.solver = gum.LazyPropagation(self.net)
        self.solver.setTargets({"hypothesis"})

    def observe(self, weights):
        """Enter the likelihood of each outcome for some of the checks."""
        self.solver.setEvidence({name: list(w) for name, w in weights.items()})
        self.solver.makeInference()
        self.now = self.solver.posterior("hypothesis")

    def hypotheses(self):
        """Return the posterior over the hypotheses."""
        return self.now.toarray()

    def joint(self, check):
        """Return the joint posterior of hypothesis and a check not yet answered, shape (hypotheses, K)."""
        both = self.now * self.net.cpt(check)
        return both.toarray() if both.names[-1] == "hypothesis" else both.toarray().T


def true_events(machine, present):
    """Return the events that the faults make true, gate by gate until nothing changes."""
    true, before = set(present), -1
    while len(true) != before:
        before = len(true)
        for event in machine.events:
            need = {"any": 1, "all": len(event.of)}.get(event.gate, event.k)
            if sum(name in true for name in event.of) >= need:
                true.add(event.id)
    return true - set(present)


def climb(machine, fault):
    """Return the fault, and the events it makes true alone: nearest first, then in file order."""
    true = true_events(machine, {fault})
    order, near = [fault], [fault]
    while near:
        near = [e.id for e in machine.events if e.id in true and e.id not in order and set(near) & set(e.of)]
        order += near
    return order


def unknown_row(machine, rows, mix):
    """Return what a cause outside the graph shows: the mean over faults by rate, mixed with anything."""
    rates = np.array([fault.rate for fault in machine.faults])
    mean = rates @ rows / rates.sum()
    return (1.0 - mix) * mean + mix / rows.shape[1]
