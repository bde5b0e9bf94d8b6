"""Numbers that are readings: of which quantity, of which barrel.

Rule of the file: a number counts as a reading only if it was asked for, or stands beside the name of a
quantity with nothing but small words between, in a unit that the quantity can have.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import CARDINALS, SIDES
from assistant.hear.differences import difference
from assistant.hear.english import FILLERS, SMALL_WORDS, listed
from assistant.hear.meant import meant
from assistant.hear.mention import Mention, text_at
from assistant.hear.numbers import Number
from assistant.hear.placing import owned, placed
from assistant.hear.quantities import PRESSURE, Measured, Quantities
from assistant.hear.recalled import recalled

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

LINKS = FILLERS | listed(
    """
    is are was be at says say said reads read reading showing shows show shown about around roughly nearly
    almost on only just under over up down to sat sitting stuck pressure number numbers gauge dial display
    screen of has have had gone go dropped went fell dropping still steady in for by like him her and says
    currently approx approximately supposedly pressures readings its gives giving holding holds hovering
    between from always constantly showed needle value figure left right order one degrees degree deg
    according smack bang , : = - / reckons think i what looks looking get getting got low high too above
    below past normal normally psi very really exactly temperature minus bottle tank cylinder machine front
    top wall glass saying regulator sensor transducer static idle rest resting line
    way miles well tad bit somewhere someplace anywhere anything round mid ish socket mark
    """
)
# What stands between a quantity and its number and tells something besides: that it stays, or has moved.
TELLING = listed(
    """
    sits sit stays stay stuck parked resting never leaves leave off whole time flatlined pegged shot jumped
    flat climbed crept risen rocketed fallen sunk sank plummeted slipped drifted moved rose settled back as
    dead glued pinned jammed locked frozen nailed camped planted lodged bolted welded flagged marked
    warning alarm alert message come comes budge budges shift shifts leaves clear
    """
)
BETWEEN = LINKS | TELLING
BEHIND = frozenset(
    [
        "on",
        "for",
        "of",
        "at",
        "the",
        "in",
        "is",
        "my",
        "coming",
        "from",
        "out",
        "and",
        "psi",
        "bar",
        "degrees",
        "degree",
        "deg",
    ]
)
PREPOSITIONS = frozenset(["on", "for", "of"])
ARTICLES = frozenset(["the", "my", "our", "all", "each", "every", "both", "of"])
# How a place is named that has a warmth.
PLACES = frozenset(["in", "at", "on", "out", "round", "around", "back", "by"])
DEGREES = frozenset(["degrees", "degree", "deg", "about", "or", "so"])
SAYS = frozenset(["at", "is", "on", "says", "reads", "reading", "showing", "shows", "to", "=", ":"])
OFF_SCALE = ("off the scale", "off the clock", "off the end", "off scale", "full scale")
ZERO_WORDS = frozenset(["flat", "nothing", "nil", "none", "dead", "empty", "nada", "zilch", "naught"])
NEARLY = frozenset(["nearly", "almost", "about", "roughly", "near", "close"])
UNCOUNTED = LINKS | ZERO_WORDS | SMALL_WORDS
BOTH_WAYS = ("_offset", "_change")  # how quantities are called that may be above or below nothing
SHORT_OF = frozenset(["low", "under", "below", "down", "short", "light", "less", "lean", "lower"])
FALLEN = frozenset(["down", "fell", "fallen", "dropped", "lost", "sank", "minus", "dipped", "low", "under"])
# What a number only tells apart: "screen 2 went in", and a figure that is spoken of: "I missed a nought off".
LABELS = listed("screen page menu site till door gate room table option bay kiosk row step film theatre")
NOUGHTS = frozenset(["nought", "zero", "naught"])
POINTED = frozenset(["that", "this", "the", "down", "far", "other"])
SUPPLIES = frozenset(["rail", "feed", "bus", "line"])  # which a voltage names: "the 5 V rail"
MOVING = listed("ticked gone went dropped fell crept climbed rose moved jumped up down slid")
MISSED = frozenset(["off", "short", "missing", "extra"])
FEW = 4.0  # a count of taps or barrels, told in words
TOP = 99.0
HOURS = 12
DONE_TO = listed(
    "changed swapped replaced fitted opened closed shut delivered changing swapping filled ordered got"
)
PER_HOUR = 60.0


def free_numbers(
    words: Sequence[Word], numbers: Sequence[Number], mentions: Sequence[Mention]
) -> list[Number]:
    """Return the numbers that name no barrel and are not denied ("not forty five")."""
    taken = {at for mention in mentions for at in range(mention.start, mention.end)}
    return [
        number
        for number in numbers
        if number.start not in taken and not (number.start and words[number.start - 1].text == "not")
        if not (number.start and words[number.start - 1].text in LABELS and not number.unit)
        if not _is_count(words, number)
        if not (words[number.start].text in NOUGHTS and text_at(words, number.end) in MISSED)
        if not (number.unit == "V" and text_at(words, number.end) in SUPPLIES)
    ]


def _is_count(words: Sequence[Word], number: Number) -> bool:
    """Tell whether a number counts what follows: "two syrups", "with one or two going"."""
    following, before = text_at(words, number.end), text_at(words, number.start - 1)
    few = number.value <= FEW and not words[number.start].is_number and not number.unit
    return (
        few
        and (following.endswith("ing") or following in {"syrups", "barrels", "flavours"})
        and before != "at"
    ) or (words[number.start].text == "nil" and following.isalpha() and following not in UNCOUNTED)


def named_readings(
    words: Sequence[Word], numbers: Sequence[Number], mentions: Sequence[Mention], quantities: Quantities
) -> list[Measured]:
    """Return the numbers of a line that stand beside the name of their quantity."""
    names = _names(words, quantities, mentions)
    found, named_at, used = _before_names(words, numbers, mentions, names, quantities)
    names = [name for name in names if name[1] not in named_at]
    numbers = [number for number in numbers if number.start not in used]
    left: list[tuple[str, int, int]] = []
    for order, (base, first, end) in enumerate(names):
        stop = names[order + 1][1] if order + 1 < len(names) else len(words)
        run = _run(words, [number for number in numbers if end <= number.start < stop], end, mentions)
        run, mentions = _numbered(words, run, mentions, quantities.barrels)
        run = [number for number in run if quantities.takes(base, number) and quantities.plain(base, number)]
        run = [number for number in _fallen(words, run) if not _is_hour_of(words, first, number)]
        if base in quantities.per_barrel and first and words[first - 1].text in {"every", "each"}:
            mentions = [*mentions, Mention(first - 1, first, "all")]
        here = next((m.start for m in mentions if m.start <= first < m.end), -1)  # "b1 29 b2 31"
        mentions = [m for m in mentions if m.start >= here] if run and here > 0 else mentions
        if base not in quantities.per_barrel and any(word.text == "now" for word in words[end:stop]):
            run = meant(words, run)
        if not run and base in quantities.displayed:
            run = _off_scale(words, end)
        if not run and order == 0:
            run = [n for n in numbers if (n.unit and n.end == first) or _all_in(words, n.end, first, BEHIND)]
            run = [n for n in run if quantities.takes(base, n) and quantities.plain(base, n)]
            run = run[-1:]
        told = [_reaching(each, end) for each in placed(base, run, first, mentions, quantities)]
        left = left if told else [*left, (base, first, end)]
        found.extend(told)
    used |= {at for each in found for at in range(*each.span)}
    numbers = [number for number in numbers if number.start not in used]
    return [*found, *recalled(words, numbers, left, mentions, quantities)]


def _before_names(
    words: Sequence[Word],
    numbers: Sequence[Number],
    mentions: Sequence[Mention],
    names: Sequence[tuple[str, int, int]],
    quantities: Quantities,
) -> tuple[list[Measured], set[int], set[int]]:
    """Return the numbers told before their quantity, "71 on the water", with where both stand."""
    found: list[Measured] = []
    named_at: set[int] = set()
    used: set[int] = set()
    barrels = {at for mention in mentions for at in range(mention.start, mention.end)}
    for base, first, end in names:
        for number in numbers:
            gap = [words[at].text for at in range(number.end, first) if at not in barrels]
            on = bool(gap) and gap[0] in PREPOSITIONS and set(gap[1:]) <= ARTICLES
            begins = (
                not number.start or words[number.start - 1].is_mark or words[number.start - 1].text == "and"
            )
            ends = end == len(words) or words[end].is_mark or words[end].text == "and"
            place = words[first].text in PLACES and quantities.units[base] == "c"
            warm = bool(number.unit or DEGREES & set(gap))
            here = words[first].text in PLACES and set(gap) <= DEGREES  # "it's 30 degrees in the kiosk"
            bound = on or here or (number.end == first and begins and ends)
            bound = bound and (warm or not place)  # "12 in the cup" are no degrees
            if (
                bound
                and number.end <= first
                and quantities.takes(base, number)
                and quantities.plain(base, number)
            ):
                near = [m for m in mentions if number.end <= m.start <= end + 2]
                near = near or [m for m in mentions if _all_in(words, m.end, number.start, BETWEEN)]
                found.extend(
                    _reaching(each, end) for each in placed(base, [number], number.start, near, quantities)
                )
                named_at.add(first)
                used.add(number.start)
    return found, named_at, used


def _numbered(
    words: Sequence[Word], run: list[Number], mentions: Sequence[Mention], barrels: int
) -> tuple[list[Number], Sequence[Mention]]:
    """Return numbers and mentions, those numbers that are barrels as mentions: "1 at 65, 2 at 66"."""
    begun = {mention.end for mention in mentions if words[mention.start].text in CARDINALS}
    found, left = list(mentions), list[Number]()
    for place, number in enumerate(run):
        following = run[place + 1] if place + 1 < len(run) else None
        small = number.value in range(1, barrels + 1) and number.high is None and not number.unit
        joined = following is not None and _all_in(words, number.end, following.start, SAYS)
        if begun and small and joined:
            found.append(Mention(number.start, number.end, "some", (int(number.value),)))
        else:
            left.append(number)
    return left, sorted(found, key=lambda mention: mention.start)


def _is_hour_of(words: Sequence[Word], first: int, number: Number) -> bool:
    """Tell whether a number says when something was done to what is named: "swapped the gas at five"."""
    done = {word.text for word in words[max(first - 3, 0) : first]} & DONE_TO
    return (
        bool(done)
        and words[number.start - 1].text in {"at", "by"}
        and number.value <= HOURS
        and not number.unit
    )


def _reaching(measured: Measured, end: int) -> Measured:
    """Return a reading whose words take in the name of its quantity."""
    return replace(measured, span=(measured.span[0], max(measured.span[1], end)))


def _off_scale(words: Sequence[Word], end: int) -> list[Number]:
    """Return the top of the display for "gas is off the scale"."""
    for at in range(end, min(end + 5, len(words))):
        for way in OFF_SCALE:
            said = way.split()
            if [word.text for word in words[at : at + len(said)]] == said and _all_in(words, end, at, LINKS):
                return [Number(TOP, at, at + len(said))]
    return []


def asked_readings(
    words: Sequence[Word],
    numbers: Sequence[Number],
    mentions: Sequence[Mention],
    base: str,
    quantities: Quantities,
) -> list[Measured]:
    """Return the numbers of a reply to a question that asks for a quantity."""
    unit = quantities.units.get(base, "")
    places = {at for mention in mentions for at in range(mention.start, mention.end)}
    places |= quantity_words(words, quantities)
    between = (
        difference(words, numbers, quantities.differences[base]) if base in quantities.differences else None
    )
    if between is not None and quantities.takes(base, between):
        return placed(base, [between], between.start, mentions, quantities)
    numbers, mentions = _labelled(numbers, mentions, quantities, base)
    numbers = _fallen(words, list(numbers))
    numbers = [_with_sign(words, number) for number in numbers] if base.endswith(BOTH_WAYS) else numbers
    places |= {number.start for number in numbers}  # "sixty-two sixty-eight"
    told = [_as_asked(words, number, unit, beside=number.end in places) for number in numbers]
    run = [number for number in told if number and quantities.takes(base, number)]
    if base not in quantities.per_barrel or len(run) == 1:
        run = meant(words, run, quantities.typical.get(base))
    if not run:
        run = _said_otherwise(words, base, quantities)
    first = min((number.start for number in run), default=0)
    found = placed(base, run, first, mentions, quantities)
    return owned(found, words, mentions) if base in quantities.per_barrel else found


def _labelled(
    numbers: Sequence[Number],
    mentions: Sequence[Mention],
    quantities: Quantities,
    base: str,
) -> tuple[list[Number], Sequence[Mention]]:
    """Return numbers and mentions, those that number the barrels as mentions: "1-62 2-64 3-61"."""
    count, values = quantities.barrels, [number.value for number in numbers]
    order = [float(barrel) for barrel in range(1, count + 1)]
    labels = values[1::2] if len(values) == 2 * count - 1 else values[::2]
    if base not in quantities.per_barrel:
        return list(numbers), mentions
    if values == order and all(number.high is not None for number in numbers):
        places = [(n.start, n.start + 1, Number(n.high or 0.0, n.end - 1, n.end)) for n in numbers]
    elif labels == order and len(values) == 2 * count:
        places = [(n.start, n.end, value) for n, value in zip(numbers[::2], numbers[1::2], strict=True)]
    elif labels == order[1:] and _first(mentions, numbers):
        places = [(mentions[0].start, mentions[0].end, numbers[0])]
        places += [(n.start, n.end, value) for n, value in zip(numbers[1::2], numbers[2::2], strict=True)]
    else:
        return list(numbers), mentions
    found = [Mention(first, end, "some", (at,)) for at, (first, end, _) in enumerate(places, start=1)]
    return [number for _, _, number in places], found


def _first(mentions: Sequence[Mention], numbers: Sequence[Number]) -> bool:
    """Tell whether the first barrel alone is named before all numbers: "barrel one 29 two 30"."""
    some = [mention for mention in mentions if mention.scope == "some"]
    return [mention.barrels for mention in some] == [(1,)] and some[0].end <= numbers[0].start


def _with_sign(words: Sequence[Word], number: Number) -> Number:
    """Return a number with the sign that words give it: "1 low", "down 3"."""
    before, after = (words[at].text if 0 <= at < len(words) else "" for at in (number.start - 1, number.end))
    less = after in SHORT_OF or before in FALLEN
    return replace(number, value=-number.value) if less and number.value > 0 and not number.high else number


def _as_asked(words: Sequence[Word], number: Number, unit: str, *, beside: bool) -> Number | None:
    """Return a number in the terms of the quantity asked for: hours as minutes, quarters as percent."""
    following = words[number.end].text if number.end < len(words) else ""
    if unit == "min":
        factor = PER_HOUR if following.startswith("hour") else 1.0
        clock = text_at(words, number.start - 1) == "at"
        timed = following.startswith(("min", "hour")) or not (following or number.unit or clock)
        return replace(number, value=number.value * factor, unit="min", counts=False) if timed else None
    is_share = number.value < 1 and words[number.end - 1].text.startswith(("quarter", "half", "¼", "½", "¾"))
    if unit == "%" and is_share:
        return replace(number, value=number.value * 100)
    counted = following.isalpha() and following not in UNCOUNTED and not number.unit and not beside
    return None if is_share or counted else number


def _said_otherwise(words: Sequence[Word], base: str, quantities: Quantities) -> list[Number]:
    text = " ".join(word.text for word in words)
    if quantities.units.get(base) in PRESSURE:
        content = [word.text for word in words if not word.is_mark and word.text not in LINKS]
        if content and all(word in ZERO_WORDS for word in content) and not NEARLY & set(text.split()):
            return [Number(0.0, 0, len(words))]
        if base in quantities.displayed and any(way in text for way in OFF_SCALE):
            return [Number(TOP, 0, len(words))]
    return []


def quantity_words(words: Sequence[Word], quantities: Quantities) -> set[int]:
    """Return the places of the words that name quantities."""
    return {at for _, first, end in _names(words, quantities) for at in range(first, end)}


def _names(
    words: Sequence[Word], quantities: Quantities, mentions: Sequence[Mention] = ()
) -> list[tuple[str, int, int]]:
    """Return the quantities named, with where; in "syrup on the cherry side" the side is none."""
    found: list[tuple[str, int, int]] = []
    ends = {mention.end for mention in mentions}
    at = 0
    while at < len(words):
        base, end = quantities.named_at(words, at)
        side = words[at].text in SIDES and at in ends and bool(found)
        placed_there = text_at(words, at - 1) == "the" and text_at(words, at - 2) in {"across", "between"}
        side = side or (placed_there and bool(found))  # "syrup pressures are level across the barrels"
        if words[at].text == "side" and text_at(words, at - 1) in POINTED:  # "70 that side"
            base, end = "", at
        if base and not (side and found[-1][0] in quantities.per_barrel):
            found.append((base, at, end))
        at = max(end, at + 1)
    return found


def _run(words: Sequence[Word], numbers: list[Number], end: int, mentions: Sequence[Mention]) -> list[Number]:
    """Return the numbers that follow a name with only small words and barrels between them."""
    barrels = {at for mention in mentions for at in range(mention.start, mention.end)}
    run: list[Number] = []
    at = end
    for number in numbers:
        between = [
            word.text for place, word in enumerate(words[at : number.start], start=at) if place not in barrels
        ]
        allowed = BETWEEN | SIDES | (ZERO_WORDS if number.value == 0.0 else frozenset())
        if any(text not in allowed for text in between):
            break
        run.append(number)
        at = number.end
    return run


def _all_in(words: Sequence[Word], first: int, end: int, allowed: frozenset[str]) -> bool:
    return first < end and all(word.text in allowed for word in words[first:end])


def _fallen(words: Sequence[Word], run: list[Number]) -> list[Number]:
    """Return the numbers, of "dropped from 70 to 45" the last."""
    fell = len(run) > 0 and run[0].start > 0 and words[run[0].start - 1].text == "from"
    moved = fell and bool({word.text for word in words[max(run[0].start - 4, 0) : run[0].start]} & MOVING)
    if moved and run[0].high is not None:  # "ticked over from 69 to 70"
        return [replace(run[0], value=run[0].high, high=None), *run[1:]]
    fell = fell and len(run) > 1
    return run[1:] if fell and words[run[0].end].text == "to" else run
