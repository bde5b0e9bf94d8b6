"""Numbers read off an instrument: the bands they fall into, and what electrical signals mean.

The rule this file keeps: a reading is evidence about a quantity under the instrument's own error, so
near the edge of a band it counts for both sides in proportion. A signal that no pressure can make is
a wiring or sensor fault, never a pressure.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from typing import TYPE_CHECKING

from graph.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Band:
    """One outcome's share of a scale, from `low` to `high` in one unit; None is an open end."""

    low: float | None
    high: float | None
    outcome: str


@dataclass(frozen=True, slots=True)
class Display:
    """A display that stops at the ends of its range: 0 covers "-3", 99 covers "104"."""

    low: float = 0.0
    high: float = 99.0


def outcome_weights(
    value: float, sigma: float, bands: Sequence[Band], display: Display | None = None
) -> tuple[float, ...]:
    """Return the probability that the true quantity lies in each band, in the order of `bands`.

    The error is normal around the reading with standard deviation `sigma`, in the unit of the bands.
    A gap between neighbouring bands is closed at its midpoint, the outer bands reach outward without
    end, so the weights sum to one. With `sigma` 0 one band takes all; a value on the edge that two
    bands share, or on the midpoint of a gap, belongs to the lower band.

    On a `display`, a value at either end says "this or beyond": its error is folded outward, because
    the true quantity is as likely beyond the end as a free reading would be on either side of it.

    Raises OutOfRange for a value that is no finite number, a negative sigma, no bands at all, or
    bands that overlap.
    """
    if not (math.isfinite(value) and math.isfinite(sigma) and sigma >= 0):
        raise OutOfRange(
            f"A reading of {value} with an error of {sigma} cannot be: give finite numbers, error 0 or more."
        )
    order = sorted(range(len(bands)), key=lambda i: (_low(bands[i]), _high(bands[i])))
    cuts = _cuts([bands[i] for i in order])
    weights = [0.0] * len(bands)
    for i, weight in zip(order, _between(cuts, value, sigma, display), strict=True):
        weights[i] = weight
    return tuple(weights)


def _low(band: Band) -> float:
    return -math.inf if band.low is None else band.low


def _high(band: Band) -> float:
    return math.inf if band.high is None else band.high


def _cuts(bands: Sequence[Band]) -> list[float]:
    """Return where each band, in rising order, gives way to the next one."""
    if not bands:
        raise OutOfRange("A reading needs at least one band to fall into.")
    for band in bands:
        if not _low(band) <= _high(band):
            raise OutOfRange(
                f'Band "{band.outcome}" runs from {band.low} down to {band.high}: swap its ends.'
            )
    for lower, upper in pairwise(bands):
        if _high(lower) > _low(upper):
            raise OutOfRange(
                f'Bands "{lower.outcome}" and "{upper.outcome}" overlap: move one of their ends.'
            )
    return [(_high(lower) + _low(upper)) / 2 for lower, upper in pairwise(bands)]


def _between(cuts: list[float], value: float, sigma: float, display: Display | None) -> list[float]:
    """Return the probability of each interval that the cuts leave."""
    if sigma == 0:
        at = bisect_left(cuts, value)
        return [1.0 if i == at else 0.0 for i in range(len(cuts) + 1)]
    below = [0.0, *(_share_below((cut - value) / sigma, value, display) for cut in cuts), 1.0]
    return [upper - lower for lower, upper in pairwise(below)]


def _share_below(z: float, value: float, display: Display | None) -> float:
    """Return the probability that the true quantity lies below `z` sigmas from the reading."""
    free = (1 + math.erf(z / math.sqrt(2))) / 2
    if display is not None and value <= display.low:
        return min(1.0, 2 * free)
    if display is not None and value >= display.high:
        return max(0.0, 2 * free - 1)
    return free


class Signal(Enum):
    """What an electrical signal says before any pressure is read from it."""

    FAULT_LOW = "wiring or sensor fault, signal at the low end"
    UNDER = "below the range"
    GOOD = "in range"
    OVER = "above the range"
    FAULT_HIGH = "wiring or sensor fault, signal at the high end"
    UNDEFINED = "between the range and the fault limits"


@dataclass(frozen=True, slots=True)
class SensorRange:
    """A ratiometric pressure sensor: `full_scale` psi spans two fractions of its supply in volts."""

    full_scale: float = 100.0
    low_fraction: float = 0.1
    high_fraction: float = 0.9
    supply: float = 5.0

    def __post_init__(self) -> None:
        if not (self.full_scale > 0 and self.supply > 0 and math.isfinite(self.full_scale + self.supply)):
            raise OutOfRange("A sensor needs a full scale and a supply voltage above zero.")
        if not 0 <= self.low_fraction < self.high_fraction <= 1:
            raise OutOfRange("A sensor's low fraction must lie below its high one, both between 0 and 1.")


# Typical diagnostic bands of ratiometric sensors, as fractions of the supply: tutorials of
# sensor-interface circuits clamp an open or shorted line below 4 % or above 96 %.
FAULT_BELOW, FAULT_ABOVE = 0.04, 0.96


def volts_from_pressure(psi: float, sensor: SensorRange) -> float:
    """Return the signal in volts of a healthy sensor at a gauge pressure, beyond its range too.

    Generic ratiometric map: V = supply * (low + (high - low) * P / full scale).
    """
    span = sensor.high_fraction - sensor.low_fraction
    return sensor.supply * (sensor.low_fraction + span * psi / sensor.full_scale)


def pressure_from_volts(volts: float, sensor: SensorRange) -> float:
    """Return the gauge pressure in psi that a signal stands for; ask `volts_signal` whether to believe it."""
    span = sensor.high_fraction - sensor.low_fraction
    return (volts / sensor.supply - sensor.low_fraction) / span * sensor.full_scale


def volts_signal(volts: float, sensor: SensorRange) -> Signal:
    """Return what a signal says by its share of the supply: fault, out of range, or good."""
    share = volts / sensor.supply
    if share < FAULT_BELOW:
        return Signal.FAULT_LOW
    if share > FAULT_ABOVE:
        return Signal.FAULT_HIGH
    return _within(share, sensor.low_fraction, sensor.high_fraction)


def _within(share: float, low: float, high: float) -> Signal:
    """Return on which side of its range a signal lies, rounding aside."""
    if share < low - 1e-12:
        return Signal.UNDER
    return Signal.OVER if share > high + 1e-12 else Signal.GOOD


def percent_from_loop(milliamps: float) -> float:
    """Return the percent of span that a 4-20 mA signal stands for, beyond its range too."""
    return (milliamps - 4) / 16 * 100


def loop_from_percent(percent: float) -> float:
    """Return the 4-20 mA signal of a percent of span."""
    return 4 + 16 * percent / 100


def loop_signal(milliamps: float) -> Signal:
    """Return what a loop current says under the limits of NAMUR NE 43 (2003).

    3.8 to 20.5 mA carries measuring information; 3.6 and less, 21 and more, is failure
    information (0 mA is an open loop); what lies between the two is defined as neither.
    """
    if milliamps <= 3.6:  # noqa: PLR2004 - the recommendation's own limit, named in the docstring
        return Signal.FAULT_LOW
    if milliamps >= 21.0:  # noqa: PLR2004 - as above
        return Signal.FAULT_HIGH
    if not 3.8 <= milliamps <= 20.5:  # noqa: PLR2004 - as above
        return Signal.UNDEFINED
    return _within(milliamps, 4.0, 20.0)
