"""A machine as arrays: what two classes of a check show together."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from oracles import drawn
from strategies import distributions

from graph.compile import pair_table


@st.composite
def classes(draw):
    """Return the rows of one to four classes, class 0 first, the usual outcome (or -1), and which rows mask."""
    outcomes = draw(st.integers(2, 4))
    rows = draw(st.lists(distributions(outcomes, zeros=True), min_size=1, max_size=4))
    masks = [False, *draw(st.lists(st.booleans(), min_size=len(rows) - 1, max_size=len(rows) - 1))]
    return rows, draw(st.integers(-1, outcomes - 1)), masks


@given(classes())
def test_a_pair_shows_what_going_through_the_draws_of_both_gives_and_class_0_draws_nothing(case):
    rows, usual, masks = case

    table = pair_table(rows, masks, usual)

    for number, (a, b) in enumerate(np.ndindex(len(rows), len(rows))):
        drawing = [c for c in (a, b) if c] or [0]
        expected = drawn([rows[c] for c in drawing], usual, [masks[c] for c in drawing])
        assert np.allclose(table[number], expected, rtol=0.0, atol=1e-12)
