"""A number as evidence: outcomes of one and the same band are not told apart by it."""

from dataclasses import replace

import numpy as np
import pytest
from strategies import sample_case

from graph import Case

READING = "gas_supply.reading"


def banded(*bands):
    """Return the sample case with other bands at the outcomes of its reading."""
    case = sample_case()
    checks = tuple(
        replace(check, outcomes=tuple(replace(o, band=b) for o, b in zip(check.outcomes, bands, strict=True)))
        if check.id == READING
        else check
        for check in case.machine.checks
    )
    return Case(replace(case.machine, checks=checks), case.tables)


@pytest.mark.parametrize(("value", "told"), [(20.0, (1.0, 1.0, 0.0)), (90.0, (0.0, 0.0, 1.0))])
def test_a_number_speaks_alike_for_all_outcomes_of_its_band(value, told):
    case = banded((None, 65.0), (None, 65.0), (65.0, None))

    assert case.read(READING, value, "psi", "operator").weights == pytest.approx(told, abs=1e-9)


def test_bands_that_differ_are_told_apart():
    case = banded((None, 65.0), (65.0, 72.0), (72.0, None))

    assert case.read(READING, 20.0, "psi", "operator").weights == pytest.approx((1.0, 0.0, 0.0), abs=1e-9)


def test_what_a_number_leaves_open_is_believed_like_one_or_the_other():
    """The law of total probability: P(f | b or c) is P(f | b) and P(f | c), weighed by P(b) and P(c).

    Triples are formed of the leading faults of each belief, so marginals agree to their small mass only.
    """
    case = banded((None, 65.0), (None, 65.0), (65.0, None))
    either = case.posterior((case.read(READING, 20.0, "psi", "technician"),))
    alone = [case.posterior((case.answer(READING, name, "technician"),)) for name in ("low", "in_window")]
    shares = np.exp([found.log_evidence for found in alone])

    assert np.exp(either.log_evidence) == pytest.approx(shares.sum(), rel=1e-9)
    mixed = sum(share * found.marginals for share, found in zip(shares, alone, strict=True)) / shares.sum()
    assert np.allclose(either.marginals, mixed, rtol=0.0, atol=1e-3)
