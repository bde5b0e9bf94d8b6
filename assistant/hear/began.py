"""When it began: a day, a time, how long ago, or the event that it followed.

Rule of the file: only when the words say that the trouble began then. An event beats a day: "since the
service on Wednesday" began with the service.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.hear.joined import Joined, Span


def _any(*ways: str) -> str:
    """Return a pattern for any of several."""
    return "|".join(ways)


STOCK = "(gas|bottle|cylinder|tank|box(es)?|bag|syrups?)"
CHANGED = r"(chang|swap|replac|switch|deliver)\w*"
EVENTS = {
    "power cut": _any(
        "power (cut|failure|outage|went|was off|came back)",
        "outage",
        "black ?out",
        "electric(ity)? (went|was) off",
        "trip",
    ),
    "storm": _any("thunder ?storm", "storm", "lightning"),
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
DAY = "monday|tuesday|wednesday|thursday|friday|saturday|sunday"
LONG = r"(minutes?|hours?|days?|weeks?|months?|years?)"
OPENED = "we opened|opening( up)?( today)?|(came|got) in( today| this morning)?"
TIMES = (
    (rf"(first thing )?this morning|first thing today|first thing|{OPENED}", "this morning"),
    (r"this afternoon", "this afternoon"),
    (r"this evening|tonight", "this evening"),
    (r"last night|overnight", "last night"),
    (r"yesterday( \w+)?", "yesterday"),
    (r"today|earlier( on| today)?|just now", "today"),
    (r"last week", "last week"),
    (r"last month", "last month"),
    (r"lunch ?time|lunch|noon|midday", "lunchtime"),
    (r"(the |at the |last )?weekend", "weekend"),
    (r"christmas|easter|summer|winter|spring|new year", ""),
    (rf"(last |on )?({DAY})( \w+)?", ""),
    (rf"(a |the |last |past )?(few |couple of |\w+ (or \w+ )?)?{LONG}( ago| now| back)?", ""),
)
SINCE = re.compile(r"\b(ever since|since)\b")
AFTER = re.compile(
    r"\b(right after|straight after|just after|after|following|(from|since) the (day|moment|minute|time|"
    r"hour|second)( that)?)\b"
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
DAY_FIRST = re.compile(
    rf"\b({DAY}|yesterday|last night|this morning|this afternoon)( (night|morning|evening|afternoon|"
    rf"lunchtime))? (, )?"
    r"((it|they|this|that|everything|nothing|(the|all|both) \w+)( \w+){0,2}? (started|began|begun|went|"
    r"stopped|packed|died)|"
    r"(is|was) when( it| that| this)?)\b"
)
FROM_THEN = re.compile(
    r"\b((ever )?since( then)?( it| that)?|(from|since) (then|that (moment|point|day|time|minute)|"
    r"the moment)( on)?|"
    r"(which|that|this|then) (is|was) when( it( all)?)?( (started|began|went wrong))?)"
    r"(?= (it|that|this|they|the|there|we|i|he|she|now|nothing|everything|everybody|all|both|no|none|my|"
    r"our|each|every|\w+ (is|are|has|have|"
    r"will|does|do|keeps?|tastes?|pours?|went|gone))\b| [.,!]|$)"
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
    for find in (_since, _from_then, _after, _until, _started, _day_first, _going_on, _and_now, _from):
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


def _day_first(joined: Joined) -> Beginning | None:
    match = DAY_FIRST.search(joined.text)
    return Beginning(match[1], joined.span(match, 1), event=False) if match else None


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
    return Beginning(f"{match['unit']}s", joined.span(match), event=False) if match else None


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
    following = joined.text[begin:]
    for pattern, value in TIMES:
        found = re.match(rf"(\s|the |on |about |around |at |from |like |a )*({pattern})(?= |$)", following)
        if found:
            whole = re.compile(re.escape(joined.text[lead.start() : begin + found.end()])).search(joined.text)
            return Beginning(value or _named(found[2]), joined.span(whole or lead), event=False)
    return None


def _named(said: str) -> str:
    """Return the day, season or unit of time in what was said."""
    day = re.search(DAY, said)
    unit = re.search(r"(minute|hour|day|week|month|year)s?", said)
    if day:
        return day[0]
    return f"{unit[1]}s" if unit else said.rsplit(maxsplit=1)[-1]
