"""What a visit should bring: a part or tool is carried when leaving it behind is expected to cost more."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable


def worth_carrying(
    needs: Iterable[tuple[float, tuple[str, ...]]],
    second_visit: float,
    carry: float,
    stock: Collection[str] = (),
) -> tuple[str, ...]:
    """Return the things worth carrying, the most probably needed first, ties in the order met.

    `needs` are (probability, things that a repair then needs), one per repair. A thing is carried
    when the chance of needing it times the cost of a second visit exceeds the cost of carrying it;
    what is in `stock` is aboard anyway and not listed.
    """
    chance: dict[str, float] = {}
    for probability, things in needs:
        for thing in things:
            chance[thing] = chance.get(thing, 0.0) + probability
    worth = [thing for thing, p in chance.items() if p * second_visit > carry and thing not in stock]
    return tuple(sorted(worth, key=lambda thing: -round(chance[thing], 9)))
