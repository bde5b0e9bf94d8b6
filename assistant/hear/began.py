"""When it began: a day, a time, how long ago, or the event that it followed.

Rule of the file: only when the words say that the trouble began then. An event beats a day: "since the
service on Wednesday" began with the service.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import CARDINALS
from assistant.hear.times import COUNT, DAY, DONE, LEAD, TIMES, UNIT, WENT, time_at

if TYPE_CHECKING:
    from assistant.hear.joined import Joined, Span


def _any(*ways: str) -> str:
    """Return a pattern for any of several."""
    return "|".join(ways)


STOCK = "(gas|bottle|cylinder|tank|box(es)?|bag|syrups?)"
CHANGED = r"(chang|swap|replac|switch|deliver)\w*"
EVENTS = {
    "power cut": _any(
        "power (cut|failure|outage|went|was off|came back|blip|flicker|surge|tripped|dip)",
        "outage",
        "black ?out",
        "electric(ity)? (went|was) off",
        "trip",
    ),
    "storm": _any("thunder ?storm", "storm", "lightning", "thunder"),
    "heatwave": _any("heat ?wave", "(hot|warm) (weather|spell|snap)"),
    "cleaning": _any(r"clean(ed|ing)?|sanitis\w+|wash(ed|ing)?|strip(ped)?|took it apart", r"scrub\w*"),
    "service": _any(
        "servic(e|ed|ing)|engineer|technician|repair(ed|s|man)?|maintenance|mechanic|inspection|fixed",
        "(your|the|that) (man|lad|guy|bloke|chap|visit)",
        "(was|were|been) (here|out)|last visit|put it back together",
    ),
    "delivery": _any(
        "deliver(y|ed|ies)|driver|gas (man|guy|delivery)|drop|new (cartons?)",
        rf"(new|fresh|another|different) (\w+ )?{STOCK}",
        rf"{CHANGED} (of |over )?(the |a |out the )?{STOCK}( \w+)?",
        rf"{STOCK}( \w+)? (was|were|got|being|had been)? ?{CHANGED}",
        rf"{STOCK} (change|swap)",
    ),
    "filter change": _any(
        "new (water )?filter", rf"filter (was )?{CHANGED}", rf"{CHANGED} (the )?(water )?filter"
    ),
    "move": _any(r"mov(ed|ing|e)|shift(ed)?|pulled out|relocat\w+"),
    "building work": _any(
        r"builder|building work|refit|refurb\w*|electrician|plumber|plumbing work|decorat\w+"
    ),
}
SINCE = re.compile(r"\b(ever since|since)\b")
AFTER = re.compile(
    r"\b(right after|straight after|just after|after|following|(from|since) the (day|moment|minute|time|"
    r"hour|second)( that)?|from when)\b"
)
STARTED = re.compile(
    r"\b(it (all )?)?(started|began|begun|start(s)? (happening|doing|playing)|came on|kicked off|"
    r"happened first|been (like this|doing (this|it)|going on)|(trouble|problem|bother|fault|issue|"
    r"lot) (began|started)|"
    r"(went|gone|going) (wrong|downhill|pear shaped|to pot)|"
    r"noticed( it)?( first)?)( happening| doing (it|this)| acting up| playing up| off)?( (on|at|from|about|"
    r"around|after|since|for|the|over|when|while|once|as soon as)\b)*"
)
GOING_ON = re.compile(
    r"(?<!\bin )(?<!every )(?<!within )\b(for )?((the |a |about |past |last )*(few|couple of|one|two|"
    r"three|four|five|six|several|\d+) )"
    r"(?P<unit>hour|day|week|month)s?( now)? (it (is|has) been|it has|its been)? ?(been )?(going on|"
    r"like this|now|ago|doing (it|this))"
)
AGES = re.compile(
    r"(^|(?<=[,.!;-] )|(?<=for )|(?<=it is )|(?<=been ))(?P<unit>hour|day|week|month)s (now|on end)\b"
)
# "On since nine" tells how long the machine ran, not when the trouble came.
RUNNING = re.compile(r"\b(on|running|open|here|switched on|going|been on|it is on|it has been on) (ever )?$")
FROM = re.compile(r"^(it (is|was) )?(all )?from (about |around )?")
UNTIL = re.compile(
    r"\b(fine|ok|perfect|good|great|grand|working|lovely|all right|normal|brilliant|right as rain|"
    r"behaving|mint)"
    r"( \w+){0,3} (until|till|before|up to)\b"
)
CLAUSE = re.compile(r"(^|(?<=[,.!;-] )|(?<=and )|(?<=but )|(?<=then ))(?=\w)")
IT_WAS = re.compile(r"(it|this|that) (was|is) (on |only |just |about )*")
HOURS = frozenset([*CARDINALS, *map(str, range(13))])  # by themselves these name barrels: "3 went flat"
WENT_THEN = re.compile(
    rf"( ,)? ((it|they|this|that|everything|nothing|(the|all|both|my|our) \w+|\w+)( \w+)?( (just|all|"
    rf"suddenly))? "
    rf"{WENT}|(is|was) when( it| that| this)?)\b"
)
TIME_LAST = re.compile(
    rf"\b{WENT}( (?!(after|since|when|until|till|and|but|for|every)\b)\w+){{0,3}}? "
    rf"(?=({LEAD})({'|'.join(pattern for pattern, _ in TIMES[:-2])}|{COUNT} {UNIT} (ago|back))"
    r"( [.,!]| and\b| but\b| so\b|$))"
)
FOUND = re.compile(
    r"\b((came|come|got) in( (to|and) (it|this|find|found|everything|the \w+))?( like (this|that))?|"
    r"(found|noticed|spotted) (it|this|them|everything)( all)?( like (this|that))?|opened up( to)?)"
    r"( \w+){0,2} (this morning|first thing|today|(when|as) (i|we) (opened|got in|came in)( up)?)\b"
)
IDLE = (
    r"(on|running|stirring|turning|churning|spinning|going|mixing|switched|open|waiting|here|trying|standing|"
    r"left|swapped|changed)\b"
)
STRETCH = r"(minutes|hours?|days?|nights?|weeks?|fortnight|months?|years?|ages|a while|a long time)"
LAST_UNIT = re.compile(
    r"(hour|day|night|week|month|year|minute|fortnight|age|weekend|morning|afternoon|evening|shift|season|"
    r"summer)s?$"
)
LASTING = re.compile(
    rf"\b(been|being|going on|like this|like it|like that|doing (this|it))( (?!{IDLE})\w+){{0,3}}? "
    rf"(for |over )(the )?((last|past) )?((about|around|at least|nearly|over) )*({COUNT} )?{STRETCH}\b"
    rf"|\b(for|over|in) the (last|past) ((about|around) )?({COUNT} )?{STRETCH}\b"
    rf"|^(for )?(the )?(last|past) ({COUNT} )?{STRETCH}\b"
    rf"|\b(it|this|that|they) (is |has |have )*been ({COUNT} )?(hours|days|nights|weeks|months|years|ages)\b"
    r"|\b(going on|like this|like it|happening|doing (this|it)) all (week|day|weekend|morning|afternoon|"
    r"evening|night|shift|"
    r"month|season|summer)\b"
)
THEN_ON = (
    r"(ever since( then| that)?|since (then|that)|(from|since) (then|that (moment|point|day|time|"
    r"minute)|the moment)"
    r"( on)?|(which|that|this|then) (is|was) when( it( all)?)?( (started|began|went wrong))?)"
)
FROM_THEN = re.compile(
    rf"\b({THEN_ON}\b(?! (the|we|they|i|a|my|our|he|she|you|your) \w+ed\b)|since(?= it\b| [.,!]|$))"
)
# "Fine until noon" is how each day goes; these are one day.
ONE_DAY = re.compile(
    rf" (about |around )?((last |on |this )*({DAY})|yesterday|this morning|last night|today|last week|"
    rf"the weekend|"
    r"earlier|this afternoon|last month)\b"
)
SOMEBODY = re.compile(r"\b(i|we|he|she|they|you)( only| just)? $")  # a person started work, not the trouble
# What follows an event without a mark between: "after the storm the display went blank".
WENT_ON = re.compile(
    r"^( off| out| back on| (visit|call)(ed)?| came| left| (was|were) (here|in|out)| happened| finished|"
    r" was)?"
    rf"( last night| yesterday| on \w+| (last )?({DAY}))? ((the|my|our|all|every\w*|each|both|it|its|"
    rf"they|there|"
    r"that|we|nothing|no|none|one|drinks?|left|right|middle)\b|(\w+ ){1,2}"
    r"(went|is|are|has|have|will|keeps?|started|stopped|got|does|do|can|came|turned|became|tastes?|"
    r"pours?|been)\b)"
)
THEN = re.compile(
    r"^(, )?((that|it|this|which) )?((is|was) )?(when )?((it|this|that|they) )?(all )?"
    r"(started|began|begun|happened|kicked off)( happening| off| up)?(?= [,.!]|$)"
)
WINDOW = 60  # letters after "since" in which the event or time stands


@dataclass(frozen=True, slots=True)
class Beginning:
    """When it began, and which words said so; `event` tells whether an event was named."""

    value: str
    span: Span
    event: bool
    named: int = 0  # the word behind the event's name, 0 where nothing can follow


def beginnings(joined: Joined) -> tuple[Beginning, ...]:
    """Return what a line says about when the trouble began, usually nothing or one."""
    for find in FINDERS:
        found = find(joined)
        if found is not None:
            return (replace(found, span=_with_start(joined, found.span)),)
    return ()


def _with_start(joined: Joined, span: Span) -> Span:
    """Return the words of a beginning with those beside them that only say that it began then."""
    first = joined.starts[span[0]]
    before = next((hit for hit in STARTED.finditer(joined.text[:first]) if hit.end() >= first - 1), None)
    behind = "" if span[1] >= len(joined.starts) else joined.text[joined.starts[span[1]] :]
    after = THEN.match(behind)
    end = span[1] + (len(after[0].split()) if after else 0)
    return (joined.span(before)[0] if before else span[0]), end


def _since(joined: Joined) -> Beginning | None:
    for match in SINCE.finditer(joined.text):
        if RUNNING.search(joined.text[: match.start()]):
            continue
        found = _event(joined, match) or _time(joined, match, match.end())
        if found is not None:
            return found
    return None


def _after(joined: Joined) -> Beginning | None:
    return next((found for match in AFTER.finditer(joined.text) if (found := _event(joined, match))), None)


def _until(joined: Joined) -> Beginning | None:
    match = UNTIL.search(joined.text)
    if match is None:
        return None
    return _event(joined, match) or (
        _time(joined, match, match.end()) if ONE_DAY.match(joined.text[match.end() :]) else None
    )


def _from_then(joined: Joined) -> Beginning | None:
    """Return the event of "new bottle went on and since then ...", ", which is when it began"."""
    match = FROM_THEN.search(joined.text)
    if match is None:
        return None
    before = joined.text[: match.start()]
    found = [hit for pattern in EVENTS.items() for hit in _hits(*pattern, before)]
    if not found:
        return None
    at, name = max(found)
    whole = re.compile(re.escape(joined.text[at : match.end()])).search(joined.text)
    return Beginning(name, joined.span(whole or match), event=True)


def _hits(name: str, pattern: str, text: str) -> list[tuple[int, str]]:
    return [(hit.start(), name) for hit in re.finditer(rf"\b({pattern})\b", text)]


def _time_first(joined: Joined) -> Beginning | None:
    """Return the time of "overnight it went soft", "this morning was when it started"."""
    text = joined.text
    for match in CLAUSE.finditer(text):
        lead = IT_WAS.match(text, match.start())
        time = time_at(text, lead.end() if lead else match.start())
        told = WENT_THEN.match(text[time[1] :]) if time is not None else None
        if time is None or told is None or DONE.search(told[0]):
            continue
        said = text[match.start() : time[1]]
        if time[0] not in HOURS or " " in said.strip():
            whole = re.compile(re.escape(said)).search(text, match.start())
            return Beginning(time[0], joined.span(whole or match), event=False)
    return None


def _time_last(joined: Joined) -> Beginning | None:
    """Return the time of "it went soft overnight", "cola stopped at lunchtime"."""
    for match in TIME_LAST.finditer(joined.text):
        time = time_at(joined.text, match.end())
        if time is not None and not DONE.search(f"{_before(joined.text, match.start())} {match[0]}"):
            whole = re.compile(re.escape(joined.text[match.end() : time[1]])).search(joined.text, match.end())
            return Beginning(time[0], joined.span(whole or match), event=False)
    return None


def _before(text: str, end: int) -> str:
    """Return what precedes a place, from the last mark or joining word on."""
    return re.split(r" [.,!;] | (?:and|but|so|now) ", text[:end])[-1]


def _found(joined: Joined) -> Beginning | None:
    """Return the time of "came in this morning and everything was runny"."""
    match = FOUND.search(joined.text)
    return Beginning("this morning", joined.span(match), event=False) if match else None


def _lasting(joined: Joined) -> Beginning | None:
    """Return how long it has lasted: "been soft for three days", "the last hour"."""
    match = LASTING.search(joined.text)
    if match is None or DONE.search(f"{_before(joined.text, match.start())} {match[0]}"):
        return None
    unit = LAST_UNIT.search(match[0])
    return Beginning(f"{unit[1]}s" if unit else "a while", joined.span(match), event=False)


def _started(joined: Joined) -> Beginning | None:
    for match in STARTED.finditer(joined.text):
        if SOMEBODY.search(joined.text[: match.start()]):
            continue
        found = _event(joined, match) if re.search("after|since|when|while|once|soon", match[0]) else None
        found = found or _time(joined, match, match.end())
        if found is not None:
            return found
    return None


def _going_on(joined: Joined) -> Beginning | None:
    match = GOING_ON.search(joined.text) or AGES.search(joined.text)
    if match is None or DONE.search(_before(joined.text, match.start())):
        return None
    return Beginning(f"{match['unit']}s", joined.span(match), event=False)


def _from(joined: Joined) -> Beginning | None:
    match = FROM.match(joined.text)
    return _time(joined, match, match.end()) if match else None


def _and_now(joined: Joined) -> Beginning | None:
    """Return the event of "they serviced it Tuesday, now ..."."""
    lead = re.match(
        r"(.{3,60}?)( ,)? (and )?(now |then (it|this|that|the \w+) |(that|this) is when )", joined.text
    )
    if lead is None:
        return None
    for name in ("power cut", "storm", "service", "cleaning", "delivery", "filter change", "move"):
        if re.search(rf"(?<!breaker )\b({EVENTS[name]})\b", lead[1]):
            return Beginning(name, joined.span(lead, 1), event=True)
    return None


def _clause(text: str, begin: int) -> str:
    """Return what follows, up to the next mark or turn of the sentence."""
    following = text[begin : begin + WINDOW]
    stop = re.search(r" [.,;!?-]( |$)| (but|and|now|there|it is|it has)( |$)", following)
    return following[: stop.start()] if stop else following


def _event(joined: Joined, lead: re.Match[str]) -> Beginning | None:
    following = _clause(joined.text, lead.end())
    best: tuple[int, str, int] | None = None
    for name, pattern in EVENTS.items():
        found = re.search(rf"\b({pattern})s?\b", following)
        if found and (best is None or found.start() < best[0]):
            best = (found.start(), name, found.end())
    if best is None:
        return None
    if WENT_ON.match(following[best[2] :]):
        following = following[: best[2]]
    whole = re.compile(re.escape(joined.text[lead.start() : lead.end() + len(following)]))
    match = whole.search(joined.text)
    named = joined.place(lead.end() + best[2])
    return Beginning(best[1], joined.span(match or lead), event=True, named=named)


def _time(joined: Joined, lead: re.Match[str], begin: int) -> Beginning | None:
    time = time_at(joined.text, begin)
    if time is None:
        return None
    whole = re.compile(re.escape(joined.text[lead.start() : time[1]])).search(joined.text)
    return Beginning(time[0], joined.span(whole or lead), event=False)


FINDERS = (
    _since,
    _from_then,
    _after,
    _until,
    _started,
    _time_first,
    _going_on,
    _and_now,
    _from,
    _found,
    _lasting,
    _time_last,
)
