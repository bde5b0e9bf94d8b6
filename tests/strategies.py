"""Hypothesis strategies for inference: rows, small tables, answers; and a case of the sample pack."""

from dataclasses import replace
from functools import cache

import numpy as np
from hypothesis import strategies as st
from oracles import REPAIR, Answer
from sample_packs import GOOD

from graph.case import Case
from graph.compile import Compiled, assemble, compile_tables
from graph.expand import expand
from graph.load import digest, load_texts, read_folder
from graph.prior import prior

SLIPS = st.sampled_from((0.0, 0.02, 0.08, 0.3))
REMEDIES = 3


@cache
def sample_case():
    """Return a case of the sample pack, for a machine with two barrels."""
    texts = read_folder(GOOD)
    machine = expand(load_texts(texts), "two_barrel", digest(texts))
    return Case(machine, compile_tables(machine))


@st.composite
def distributions(draw, size, *, zeros=False):
    """Return probabilities of `size` outcomes, exact zeros among them if asked for."""
    parts = draw(st.lists(st.integers(0 if zeros else 1, 40), min_size=size, max_size=size).filter(any))
    return tuple(part / sum(parts) for part in parts)


@st.composite
def compiled_checks(draw, faults, outcomes, *, zeros=False):
    """Return one compiled check: classes, masks, which fault has a row, pairs with a row of their own."""
    count = draw(st.integers(0, min(faults, 4)))
    rows = (
        draw(distributions(outcomes)),
        *(draw(distributions(outcomes, zeros=zeros)) for _ in range(count)),
    )
    masks = (False, *(draw(st.integers(0, 4)) == 0 for _ in range(count)))
    member = {f: c for f in range(faults) if (c := draw(st.integers(0, count)))}
    joint = ()
    if faults > 1 and draw(st.booleans()):
        first = draw(st.integers(0, faults - 2))
        second = draw(st.integers(first + 1, faults - 1))
        joint = ((first, second, draw(distributions(outcomes))),)
    return Compiled(rows, masks, member, joint)


@st.composite
def tables(draw, *, zeros=False, several=None, most_faults=6):
    """Return the tables of a small machine; every feature of a likelihood row occurs."""
    faults = draw(st.integers(2, most_faults))
    outcomes = draw(st.lists(st.integers(2, 4), min_size=1, max_size=4))
    checks = [draw(compiled_checks(faults, count, zeros=zeros)) for count in outcomes]
    rates = np.array(draw(st.lists(st.integers(1, 60), min_size=faults, max_size=faults))) / 1000.0
    share = draw(st.sampled_from((0.01, 0.1, 0.3))) if several is None else several
    remedy = draw(st.lists(st.integers(0, REMEDIES - 1), min_size=faults, max_size=faults))
    return assemble(
        checks,
        prior(rates, share, 0.03, 0.05),
        outcomes=outcomes,
        usual=[draw(st.integers(-1, count - 1)) for count in outcomes],
        slips=[np.nan] * len(outcomes),
        mixes=[0.5] * len(outcomes),
        remedy=remedy,
        component=remedy,
        remedies=REMEDIES,
        components=REMEDIES,
    )


@st.composite
def answers(draw, of, *, most=5, slips=SLIPS):
    """Return answers to checks of the tables `of`: plain, soft, after cures, and of repairs."""
    found = []
    for _ in range(draw(st.integers(0, most))):
        check = draw(st.integers(REPAIR, of.checks - 1))
        faults = frozenset(draw(st.lists(st.integers(0, of.faults - 1), max_size=2)))
        outcomes = 2 if check == REPAIR else int(of.outcomes[check])
        if draw(st.booleans()):
            seen = tuple(float(x) for x in np.eye(outcomes)[draw(st.integers(0, outcomes - 1))])
        else:
            seen = draw(distributions(outcomes, zeros=True))
        found.append(Answer(check, seen, draw(slips), faults))
    return tuple(found)


@st.composite
def situations(draw, **options):
    """Return tables, and answers to some of their checks."""
    of = draw(tables(**options))
    return of, draw(answers(of))


def renamed(of, order):
    """Return the tables with fault `order[i]` in the place of fault i."""
    place = np.argsort(order)
    entries = [
        start + np.argsort(place[of.entry_fault[start:stop]], kind="stable")
        for start, stop in zip(of.entry_start[:-1], of.entry_start[1:], strict=True)
    ]
    moved = np.concatenate(entries).astype(np.int64)
    first, second = place[of.joint_first], place[of.joint_second]
    return replace(
        of,
        odds=of.odds[order],
        remedy=of.remedy[order],
        component=of.component[order],
        entry_fault=place[of.entry_fault[moved]],
        entry_class=of.entry_class[moved],
        joint_first=np.minimum(first, second),
        joint_second=np.maximum(first, second),
    )


def moved_answers(told, order):
    """Return answers whose faults are named as in `renamed` tables."""
    place = np.argsort(order)
    return tuple(a._replace(faults=frozenset(int(place[f]) for f in a.faults)) for a in told)
