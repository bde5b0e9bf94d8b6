"""How long a trouble has lasted: "been soft for three days", "weeks its been like this", "the last hour".

Rule of the file: only stretches of time up to now; points in time and events are for `began`.
"""

from __future__ import annotations

import re

from assistant.hear.times import COUNT, DONE

STRETCH = r"(minutes|hours?|days?|nights?|weeks?|fortnights?|months?|years?|ages|a while|a long time)"
SOME = rf"(({COUNT} or {COUNT}|{COUNT}|few|good|whole|solid) ){{1,3}}(or (so|two|three|more) )?"
NOW = r"( now| running| straight| solid| on end| on the trot| or so| or two| and counting)*"
LENGTH = (
    r"(?P<length>(a |the |last |past |about |around |at least |nearly |over )*"
    rf"({SOME})?{STRETCH}( and {STRETCH})?{NOW})"
)
PLURAL = rf"(?P<plural>({SOME}{STRETCH}|hours|days|nights|weeks|months|years|ages|fortnight){NOW})"
IDLE = (
    r"(on|running|stirring|turning|churning|spinning|going(?! on)|mixing|switched|open|waiting|here|"
    r"trying|standing|"
    r"left|swapped|changed|working|with|told|had)\b"
)
WHOLE = "(week|day|weekend|morning|afternoon|evening|night|shift|month|season|summer)"
IT = r"(it|this|that|they|these|everything|nothing|we have had it|(the )?\w+)"
END = r"(?= [.,!;?]| and\b| but\b| so\b| it\b| this\b| since\b| with\b| tho\b| though\b|$)"
LASTING = tuple(
    re.compile(pattern)
    for pattern in (
        # "been soft for three days", "going on over a week"
        (
            rf"\b(been|being|going on|like this|like it|like that|doing (this|it))( (?!{IDLE})\w+){{0,3}}? "
            rf"(for |over )(the )?((last|past) )?((about|around|at least|nearly|over) )*{LENGTH}"
        ),
        # "has not frozen right for days", "has not had a decent pour in two days", "has not for weeks"
        (
            rf"\b(has|have|had) (not|never)( (?!{IDLE})\w+ (right|properly|proper|well)| had a (decent|"
            rf"proper|single|good) \w+| \w+(en|ed|t))? (for|in) {LENGTH}"
        ),
        rf"\b(been|had) {PLURAL} of (this|that|it|them)\b",
        rf"\b(put up with|suffered( with)?|lived with|had) (it|this|that|them|these) for {LENGTH}",
        rf"\b(for|over|in) the (last|past) ((about|around) )?{LENGTH}",
        rf"^(for )?(the (last|past)|(last|past) (?={SOME})|past) {LENGTH}",
        # "been doing it weeks", "been at it hours", "been slow a month now"
        (
            rf"\b(been|done|doing|going on|like (this|that|it))( (?!{IDLE}|for\b|since\b)\w+){{0,2}}? "
            rf"{PLURAL}{END}"
        ),
        # "weeks its been like this", "a fortnight its been flat", "couple of hours this has been going on"
        (
            rf"(^|(?<=[.,!;-] ))(for )?(about |around |nearly |over )?{PLURAL} ({IT} )?(is |has |have )*"
            rf"(been|gone on|going on|now|like this|running)\b(?! {IDLE})"
        ),
        # "for months and months it has squeaked"
        rf"(^|(?<=[.,!;-] ))for {LENGTH} ({IT} )(is|has|have|will|does|can)\b",
        # "three weeks now, drips", "leaks, two weeks running"
        (
            rf"(^|(?<=[.,!;-] )|(?<=for )|(?<=it is )|(?<=been ))(?P<bare>({SOME})?{STRETCH} "
            rf"(now|on end|running|straight|on the trot))\b"
        ),
        (
            rf"(?<!\bin )(?<!every )(?<!within )\b(?P<ago>{SOME}{STRETCH})( now)? (it (is|has) been|it has|"
            rf"its been)? ?"
            rf"(been )?(going on|like this|now|doing (it|this))"
        ),
        rf"\b(going on|like this|like it|happening|doing (this|it)) all (?P<all>{WHOLE})\b",
        rf"(^|(?<=[.,!;-] ))all (?P<through>{WHOLE}) {IT} (is |has )(been|done|gone)\b",
    )
)
UNITS = re.compile(
    r"(hour|day|night|week|month|year|minute|fortnight|age|weekend|morning|afternoon|evening|shift|"
    r"season|summer)s?\b"
)
# "A bottle a week" is a rate, "lasts two days" tells no time of trouble.
RATE = re.compile(
    r"\blast(s|ed|ing)? (us |me |only |about |for |just )*$"
    r"|\b(an?|one|two|three|four|five|\d+|several|many|more|once|twice) (\w+ )?$"
)
# What stands before a stretch of time and tells nothing besides.
EMPTY = re.compile(
    r"(been|being|done|doing|going on|gone on|has|have|had|not|never|like|this|that|it|for|over|the|past|"
    r"last|about|at|around|least|nearly| )*"
)
OURS = re.compile(
    r"\b(i|we|you|he|she) (have |had )?(been|worked|only been) (here|working|with|open|at|in)\b|\bhere $"
)


def lasting(text: str) -> tuple[str, re.Match[str], str | int] | None:
    """Return how long the trouble told has lasted, in whole units, and what says so: a match and its group.

    The words do not take in what is told before the time: "been flat for two days".
    """
    for pattern in LASTING:
        for match in pattern.finditer(text):
            before = re.split(r" [.,!;] | (?:and|but|so|now) ", text[: match.start()])[-1]
            said = f"{before} {match[0]}"
            if DONE.search(said) or OURS.search(said) or _is_rate(before, match[0]):
                continue
            name = next((name for name, said in match.groupdict().items() if said), 0)
            lead = match[0][: match.start(name) - match.start()]
            return _unit(match[name]), match, 0 if EMPTY.fullmatch(lead) else name
    return None


def _is_rate(before: str, said: str) -> bool:
    """Tell whether a stretch of time only says how often, or how long, something lasts."""
    found = RATE.search(before)
    return found is not None and (said.startswith("a ") or found[0].startswith("last"))


def _unit(length: str) -> str:
    units = UNITS.findall(length)
    if not units:
        return "a while"
    return {"fortnight": "weeks", "weekend": "weekend"}.get(units[-1], f"{units[-1]}s")
