"""Several barrels by where they stand: "the left two", "both on the right hand side", "the outer ones"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.hear.mention import Mention

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

LONGEST = 9  # words of a way to say it
TWO = r"(?:two|2|both|pair)"
NOUN = r"(?:two|2|pair|ones|barrels|sides|taps|tubs|heads|bowls|cylinders)"
MEASURED = r"(?= (?:syrups?|flavours?|drinks?|pressures?|numbers?)\b)"  # "the outer syrups" names those too
SIDE = r"(?P<side>left|right)(?: hand)?"
ENDS = r"(?:outer|outside|outermost|end)"
AT = r"(?:ones )?(?:over )?(?:on|to|at|towards) (?:the |either |each )?"
WAYS = tuple(
    re.compile(rf"{way}\b")
    for way in (
        rf"(?:{TWO} )?{SIDE} (?:two|2|pair)",
        rf"{TWO} {SIDE}(?: {NOUN})",
        rf"{TWO} (?:of (?:them|the three) )?{AT}{SIDE}(?: sides?)?(?: {NOUN})?",
        rf"(?:(?:{TWO}|ones) {AT}|either |both |two )(?P<ends>ends?|outsides?|outer)",
        rf"(?:{TWO} )?(?P<outer>{ENDS}) {NOUN}",
        rf"(?:{TWO} )?(?P<all>{ENDS}){MEASURED}",
        r"first and (?P<last>last)(?! (?:time|day|week|month|thing))",
        r"(?P<begin>first|last) (?:two|2)(?! (?:times|days|weeks|months|hours|minutes|years|nights))",
    )
)


def several(words: Sequence[Word], at: int, count: int) -> Mention | None:
    """Return the mention of several barrels that begins at a word; two of two are both, and none here."""
    if count < 3:  # noqa: PLR2004 - see above
        return None
    texts = [word.text for word in words[at : at + LONGEST]]
    for way in WAYS:
        match = way.match(" ".join(texts))
        if match is None:
            continue
        groups = match.groupdict()
        side = groups.get("side") or {"first": "left", "last": "right"}.get(groups.get("begin") or "", "")
        barrels = {"left": (1, 2), "right": (count - 1, count)}.get(side, (1, count))
        return Mention(at, at + len(match[0].split()), "some", barrels)
    return None
