"""Numbers in a line, in figures or spoken, with units and ranges.

Rule of the file: only what a number *is*; which quantity it belongs to is decided in `readings.py`.
"Sixty odd" is 60 to 69, "between 55 and 60" and "fifty to sixty" are ranges, "four and three
quarters" is 4.75, "one seven" is 17, "4,5" is 4.5, "minus two and a half" is -2.5.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

DIGITS = {
    name: float(value)
    for value, names in enumerate(
        ("zero nil nought naught oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
    )
    for name in names.split()
}
TEENS = {
    name: 10.0 + value
    for value, name in enumerate(
        (
            *("ten", "eleven", "twelve", "thirteen", "fourteen"),
            *("fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
        )
    )
}
TENS = {
    name: 10.0 * (2 + value)
    for value, name in enumerate(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
    )
} | {"fourty": 40.0, "fity": 50.0, "ninty": 90.0}
DECADES = {name.removesuffix("y") + "ies": value for name, value in TENS.items()}
PARTS = {"low": (0.0, 3.0), "mid": (4.0, 6.0), "middle": (4.0, 6.0), "high": (7.0, 9.0), "upper": (7.0, 9.0)}
FRACTIONS = {"half": 0.5, "quarter": 0.25, "quarters": 0.25, "½": 0.5, "¼": 0.25, "¾": 0.75}
WRITTEN_FRACTIONS = [["1", "/", "2"], ["1", "/", "4"], ["3", "/", "4"]]
UNITS = {
    "psi": ("psi", "pounds per square inch", "then p s i", "p s i", "psis", "spi", "pis", "psl"),
    "bar": ("bar", "bars"),
    "kPa": ("kpa", "kilopascal", "kilopascals"),
    "MPa": ("mpa", "megapascal", "megapascals"),
    "C": ("c", "celsius", "degrees c", "degrees celsius", "° c", "centigrade", "degrees centigrade"),
    "F": ("f", "fahrenheit", "degrees f", "degrees fahrenheit", "° f"),
    "V": ("v", "volt", "volts"),
    "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"),
    "lb": ("lb", "lbs", "pound", "pounds"),
    "brix": ("brix", "bx", "° bx", "degrees brix"),
    "%": ("%", "percent", "per cent", "pc"),
}
UNIT_OF = {tuple(said.split()): unit for unit, ways in UNITS.items() for said in ways}
LONGEST_UNIT = max(len(said) for said in UNIT_OF)
OPENERS = frozenset(
    [
        *DIGITS,
        *TEENS,
        *TENS,
        "double",
        "between",
        "minus",
        "-",
        "a",
        "hundred",
        "half",
        "point",
        *DECADES,
        *PARTS,
    ]
)
# What makes a number a count or a time, never a reading.
COUNTED = re.compile(
    r"(am|pm|morning|afternoon|oclock|o|clock|minute|min|hour|hr|second|secs?|day|week|month|year|time|cup|drink|kid|people|"
    r"person|"
    r"bottle|box|bag|barrel|tap|side|head|flavour|drop|drip|stroke|star|shot|litre|inch|cm|mm|machine|"
    r"st|nd|rd|th|good|lad|girl|refund|complaint|show|screen|of|or|one|ones|people|odd cup)s?"
)


OWNED = frozenset(["syrup", "barrel", "side", "tub", "tap", "head", "number", "motor"])
OTHERS = frozenset(["other", "others", "rest"])
HOURS = 12
MIDWAY = frozenset(["halfway", "midway", "way"])
ODD = frozenset(["odd", "something", "summat"])  # "sixty odd", "seventy something"
NEARLY = frozenset(["ish"])  # between a number and its unit
CLOSE = 10.0  # numbers no further apart are one with "or" between: "64 or 65"
# "At that point two": no decimal point.
NO_DECIMAL = frozenset(["this", "that", "the", "a", "some", "one", "what", "which", "no", "at"])
TIMED = frozenset([*DIGITS, *TEENS, *TENS, "half"])


@dataclass(frozen=True, slots=True)
class Number:
    """A number at words[start:end]; `high` is the upper end of a range; `counts` things or time."""

    value: float
    start: int
    end: int
    high: float | None = None
    unit: str = ""
    counts: bool = False
    doubtful: bool = False  # one of several, none of which is plainly meant


def numbers_in(words: Sequence[Word]) -> tuple[Number, ...]:
    """Return the numbers of a line in order."""
    found: list[Number] = []
    at = 0
    while at < len(words):
        number = _range_at(words, at) if words[at].text in OPENERS or words[at].is_number else None
        if number is None:
            at += 1
            continue
        found.append(number)
        at = number.end
    return tuple(found)


def plain(value: float) -> str:
    """Return a number as text without a needless ".0"."""
    return f"{value:g}"


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


def _range_at(words: Sequence[Word], at: int) -> Number | None:
    """Return the number, or range of numbers, that begins at a word."""
    known = _decade(words, at) or _clock(words, at)
    if known is not None:
        return known
    between = _text(words, at) == "between"
    low = _number_at(words, at + between + (between and _text(words, at + 1) == "the"))
    if low is None:
        return None
    low = replace(low, start=at)
    joiners = ("and", "to", "-", "\u2013") if between else ("to", "-", "\u2013", "or")
    joiner = _text(words, low.end)
    after = low.end + 1 + (between and _text(words, low.end + 1) == "the")
    high = _number_at(words, after) if joiner in joiners else None
    far = high is not None and joiner == "or" and (high.value - low.value > CLOSE or high.value < CLOSE)
    middle = _text(words, at - 1) in MIDWAY or (
        _text(words, at - 1) == "from" and _text(words, at - 2) in MIDWAY
    )
    if high is not None and middle and high.value > low.value:  # "halfway between 50 and 60"
        return replace(low, value=(low.value + high.value) / 2, end=high.end, unit=low.unit or high.unit)
    if high is not None and high.value > low.value and not far and high.unit in ("", low.unit or high.unit):
        return replace(low, high=high.value, end=high.end, unit=low.unit or high.unit, counts=high.counts)
    return None if between else _with_odd(words, low)


def _clock(words: Sequence[Word], at: int) -> Number | None:
    """Return a time of day, which counts and is no reading: "4:10", "twenty to nine"."""
    parts = words[at : at + 3]
    if len(parts) < 3:  # noqa: PLR2004 - hour, mark and minutes, or minutes, "to" and hour
        return None
    whole = parts[0].end == parts[1].start and parts[1].end == parts[2].start
    hour, mark, minutes = (word.text for word in parts)
    if mark == ":" and whole and hour.isdecimal() and len(minutes) == len("00") and minutes.isdecimal():
        return Number(float(hour), at, at + 3, counts=True)
    minute = TEENS.get(hour, TENS.get(hour, DIGITS.get(hour, 0.0)))
    late = mark == "to" and minute in {5.0, 10.0, 20.0} and not _text(words, at - 1).startswith("from")
    known = {**DIGITS, **TEENS}.get(minutes, HOURS + 1.0)
    late = late and 0 < known < minute and _text(words, at + 3) not in TENS
    return Number(minute, at, at + 3, counts=True) if late else None


def _decade(words: Sequence[Word], at: int) -> Number | None:
    """Return "mid sixties" as 64 to 66, "the sixties" as 60 to 69."""
    part = _text(words, at) if _text(words, at) in PARTS else ""
    place = at + bool(part)
    low = DECADES.get(_text(words, place))
    if low is None:
        return None
    first, last = PARTS.get(part, (0.0, 9.0))
    return _with_unit(words, Number(low + first, at, place + 1, high=low + last))


def _with_odd(words: Sequence[Word], number: Number) -> Number:
    """Return "sixty odd" or "sixty something" as 60 to 69."""
    if _text(words, number.end) not in ODD or number.value % 10 or not number.value or number.unit:
        return number
    return _with_unit(words, replace(number, high=number.value + 9, end=number.end + 1))


def _number_at(words: Sequence[Word], at: int) -> Number | None:
    if _text(words, at) == "half":
        return _half(words, at)
    negative = _text(words, at) == "minus" or (_text(words, at) == "-" and _is_sign(words, at))
    begin = at + negative
    value, end = (
        _figures(words, begin) if begin < len(words) and words[begin].is_number else _spoken(words, begin)
    )
    if end == begin:
        return None
    value, end = _fraction(words, begin, value, end)
    return _with_unit(words, Number(-value if negative else value, at, end))


def _half(words: Sequence[Word], at: int) -> Number | None:
    """Return "half a pound" as 0.5; a half of anything but a unit is no number."""
    found = _with_unit(words, Number(0.5, at, at + 1 + (_text(words, at + 1) == "a")))
    return found if found.unit else None


def _is_sign(words: Sequence[Word], at: int) -> bool:
    """Tell whether a dash is a minus: right before a figure, and not right behind a word."""
    joined = at + 1 < len(words) and words[at + 1].start == words[at].end
    return joined and (at == 0 or words[at - 1].end < words[at].start)


def _with_unit(words: Sequence[Word], number: Number) -> Number:
    if number.unit:
        return number
    bit = [_text(words, at) for at in range(number.end, number.end + 3)] == ["and", "a", "bit"]
    after = number.end + (3 if bit else _text(words, number.end) in NEARLY)
    for length in range(LONGEST_UNIT, 0, -1):
        said = tuple(word.text for word in words[after : after + length])
        if said in UNIT_OF:
            return replace(number, unit=UNIT_OF[said], end=after + len(said))
    following, before = _text(words, number.end), _text(words, number.start - 1)
    to_hour = following == "past" and _is_hour(_text(words, number.end + 1))
    if to_hour or before == "past" or (before == "to" and _text(words, number.start - 2) == "quarter"):
        return replace(number, counts=True)  # "ten past two"
    if (
        before == "in"
        and following != "out"
        and any(word.is_number or word.text in TIMED for word in words[: number.start])
    ):
        return replace(number, counts=True)  # "half a pound in fifteen"
    waited = before == "full" and not following.isalnum() and number.value % 5 == 0
    if waited or _is_hour_told(words, number.end):
        return replace(number, counts=True)  # "watched it the full five", "9 in the morning"
    always = [_text(words, at) for at in range(number.end, number.end + 3)] == ["day", "and", "night"]
    so = following == "or" and _text(words, number.end + 1) == "so"
    after = number.end + 1  # "syrup 67 barrels 27", "barrel one 27 barrel two 26"
    begins = after < len(words) and (words[after].is_number or words[after].text in DIGITS)
    return replace(number, counts=bool(COUNTED.fullmatch(following)) and not so and not begins and not always)


def _is_hour_told(words: Sequence[Word], end: int) -> bool:
    """Tell whether a part of the day follows a number: "9 in the morning", "10 at night"."""
    part = {"in": _text(words, end + 2), "at": _text(words, end + 1)}.get(_text(words, end), "")
    return part in {"morning", "evening", "afternoon", "night"}


def _is_hour(text: str) -> bool:
    """Tell whether a word is an hour of the clock, in letters or figures: "ten past two", "10 past 2"."""
    hours = float(text) if text.isdecimal() else (DIGITS | TEENS).get(text, 0.0)
    return 0 < hours <= HOURS


def _figures(words: Sequence[Word], at: int) -> tuple[float, int]:
    text, following = words[at].text, _text(words, at + 1)
    named = _text(words, at - 1) in OWNED  # "syrup 3 9" is 9 of barrel 3
    parted = _text(words, at + 2) == "/"  # "4 1/2"
    if len(text) == len(following) == 1 and following.isdecimal() and not named and not parted:
        return float(text + following), at + 2  # figure by figure
    whole, comma, part = text.partition(",")
    if comma and len(part) == 3 and whole != "0":  # noqa: PLR2004 - a comma before three figures groups thousands
        return float(whole + part), at + 1
    value = float(text.replace(",", "."))
    if following == "point" and value % 1 == 0:  # "4 point 8"
        return _decimals(words, value, at + 1)
    return value, at + 1


def _spoken(words: Sequence[Word], at: int) -> tuple[float, int]:
    """Return a number in words and where it ends; the end is `at` if there is none."""
    if _text(words, at) == "point":
        found = (0.0, at) if _text(words, at - 1) in NO_DECIMAL else _decimals(words, 0.0, at)
        return found if found[1] > at + 1 else (0.0, at)
    value, end = _below_hundred(words, at)
    if _text(words, at) == "double" and DIGITS.get(_text(words, at + 1), 0.0) > 0:
        return DIGITS[_text(words, at + 1)] * 11, at + 2  # "double six"
    if end == at and _text(words, at) == "a" and _text(words, at + 1) == "hundred":
        value, end = 1.0, at + 1
    if end > at and _text(words, end) == "hundred":
        value, end = value * 100, end + 1
        more = end + (_text(words, end) == "and")
        rest, after = _below_hundred(words, more)
        if after > more:
            value, end = value + rest, after
    elif end == at and _text(words, at) == "hundred":
        rest, after = _below_hundred(words, at + 1 + (_text(words, at + 1) == "and"))
        value, end = 100.0 + rest, max(at + 1, after if rest else 0)
    if _text(words, end) == "thousand" and end > at:
        more = end + 1 + (_text(words, end + 1) == "and")
        rest, after = _spoken(words, more)
        return value * 1000 + (rest if after > more else 0.0), after if after > more else end + 1
    if [_text(words, at), _text(words, at + 1)] == ["a", "thousand"]:
        return 1000.0, at + 2
    if end > at and _text(words, end) == "point":
        return _decimals(words, value, end)
    return value, end


def _below_hundred(words: Sequence[Word], at: int) -> tuple[float, int]:
    first, second = _text(words, at), _text(words, at + 1)
    if first in TENS:
        digit = DIGITS.get(second, 0.0)
        return (TENS[first] + digit, at + 2) if digit else (TENS[first], at + 1)
    if first in TEENS:
        return TEENS[first], at + 1
    if first not in DIGITS or _text(words, at - 1) in OTHERS:  # "the other two zero"
        return 0.0, at
    apart = words[at].end - words[at].start > len(first)  # "second one's fifty eight"
    apart = apart or _text(words, at - 1) in OWNED | {"no"}
    if DIGITS[first] and second in {**TENS, **TEENS} and not apart:
        rest, end = _below_hundred(words, at + 1)
        return DIGITS[first] * 100 + rest, end  # "eight fifty"
    if second in DIGITS:  # figure by figure: "one seven", "one oh five"
        third = _text(words, at + 2)
        two = DIGITS[first] * 10 + DIGITS[second]
        return (two * 10 + DIGITS[third], at + 3) if third in DIGITS else (two, at + 2)
    goes_on = second in {"and", "to"} and _text(words, at + 2) in {
        *DIGITS,
        *TEENS,
        *TENS,
        "a",
        "half",
        "quarter",
    }
    lone = first in {"one", "oh"} and second not in {"point", "hundred"} and not goes_on
    is_pronoun = lone and (second,) not in UNIT_OF
    return (0.0, at) if is_pronoun else (DIGITS[first], at + 1)


def _decimals(words: Sequence[Word], value: float, point: int) -> tuple[float, int]:
    figures, at = "", point + 1
    while (word := _text(words, at)) in DIGITS or (word.isdecimal() and not figures):
        figures += f"{DIGITS[word]:g}" if word in DIGITS else word
        at += 1
    return (float(f"{value:g}.{figures}"), at) if figures else (value, point)


def _fraction(words: Sequence[Word], begin: int, value: float, end: int) -> tuple[float, int]:
    """Return a number with the fraction behind it: "four and three quarters", "4½"."""
    if _text(words, end) in {"½", "¼", "¾"}:
        return value + FRACTIONS[_text(words, end)], end + 1
    written = [_text(words, at) for at in range(end, end + 3)]
    if written in WRITTEN_FRACTIONS and words[end].start > words[end - 1].end:  # "4 1/2"
        return value + float(written[0]) / float(written[2]), end + 3
    if _text(words, end) in {"quarter", "quarters"} and value <= 3:  # noqa: PLR2004 - up to three quarters
        return value / 4, end + 1
    if _text(words, end) != "and":
        return value, end
    count, after = _spoken(words, end + 1)
    if after == end + 1:
        count, after = 1.0, end + 1 + (_text(words, end + 1) == "a")
    if _text(words, after) in FRACTIONS and after > end + 1 - (begin < 0):
        return value + count * FRACTIONS[_text(words, after)], after + 1
    return value, end
