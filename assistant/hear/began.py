"""When it began: a day, a time, how long ago, or the event that it followed.

Rule of the file: only when the words say that the trouble began then. An event beats a day: "since the
service on Wednesday" began with the service.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import CARDINALS
from assistant.hear.events import Event, events_in, happened
from assistant.hear.lasting import lasting
from assistant.hear.times import COUNT, DAY, DONE, LEAD, TIMES, UNIT, WENT, time_at

if TYPE_CHECKING:
    from assistant.hear.joined import Joined, Span

POINT = "(moment|point|day|time|minute|night|morning|second|hour)"
SINCE = re.compile(r"\b(ever since|since|as of|dat(es|ing) (back to|from))\b")
AFTER = re.compile(
    r"\b((right |straight |just |directly |soon |immediately )?after|following|as soon as|from when|"
    rf"(from|since) the (very )?{POINT}( that)?|the (very )?(moment|minute|second|day)( that)?)\b"
)
ONWARDS = re.compile(r"\bfrom (?=(\w+ ){1,3}(on|onwards?|forwards?)\b)")
WHEN = re.compile(r"(^|(?<=[.,!;-] )|(?<=was )|(?<=and ))(when|once)\b")
STARTED = re.compile(
    r"\b(it (all )?)?(started|began|begun|(?<=it )start|start(s)? (happening|doing|playing)|came on|"
    r"kicked off|"
    r"happened first|been (like (this|it|that)|(this|that) way|doing (this|it)|going on)|"
    r"(trouble|problem|bother|fault|issue|lot) (began|started)|"
    r"(went|gone|going) (wrong|downhill|pear shaped|to pot)|"
    r"first (seen|noticed|spotted|(came|showed|turned|popped) up|appeared|showed)|noticed( it)?( first)?)"
    r"( happening| doing (it|this)| acting up| playing up| off)?( (on|at|from|about|"
    r"around|after|since|for|the|over|when|while|once|with|as soon as|during|in)\b)*"
)
# "On since nine" tells how long the machine ran, not when the trouble came.
RUNNING = re.compile(
    r"(?<!going )\b(on|running|open|here|switched on|going|been on|it is on|it has been on|churning|stirring|"
    r"mixing|"
    r"spinning|turning|on hold( \w+){0,4}|waiting( \w+){0,3}) (ever )?$"
)
# But a warning that is on since nine came then.
WARNED = re.compile(r"\b(light|lamp|warning|alarm|alert|message|flag|banner|error|code)\b( \w+| ,){0,4} $")
# A warning that went off is none.
GONE = re.compile(r"\b(light|lamp|warning|alarm|alert|message|flag|banner|error)( \w+)? (off|out|away) $")
FROM = re.compile(r"(^(it (is|was) )?(all )?|\b(at|doing|like) (it|this|that) )from (about |around )?")
UNTIL = re.compile(
    r"\b(fine|ok|perfect(ly)?|good|great|grand|working|lovely|all right|normal|brilliant|right as rain|"
    r"behaving|mint|spot on|(a|like a) (treat|dream)|like clockwork|no (trouble|bother|problems?)|sweet|"
    r"champion)"
    r"( \w+){0,3} (until|till|before|up to)\b"
)
CLAUSE = re.compile(r"(^|(?<=[.,!;-] )|(?<=and )|(?<=but )|(?<=then ))(?=\w)")
IT_WAS = re.compile(r"((it|this|that) (was|is) |(i )?(think|reckon) )*(on |only |just |about )*")
HOURS = frozenset([*CARDINALS, *map(str, range(13))])  # by themselves these name barrels: "3 went flat"
HEDGE = r"( (i|we) (think|reckon|believe|guess|suppose)| maybe| probably| or so| some ?time| um)*"
PEOPLE = (
    r"(i|we|he|she|you|my|our|his|her|somebody|someone|boss|manager|shift|film|show|match|party|school|"
    r"event)"
)
SEEN = r"(noticed|clocked|spotted|found|lost)"  # what people do when a trouble begins
WENT_THEN = re.compile(
    rf"{HEDGE}( ,)? ((it|they|this|that|everything|nothing|(the|all|both) \w+|(?!{PEOPLE}\b)\w+|"
    rf"\w+(?= {SEEN}))( \w+)?( (just|all|suddenly))? {WENT}|(is|was) when( it| that| this)?|"
    rf"({PEOPLE} )?{SEEN})\b"
)
# What is so since a moment of today or last night: "this morning blue was a block".
RECENT = frozenset(["this morning", "this afternoon", "last night", "today"])
MOMENT = re.compile(r"(morning|first thing|today|afternoon|night)$")
IS_SO = re.compile(
    rf"( ,)? (all (of a )?sudden(ly)? )?(there|none of \w+|every one of \w+|all of \w+|(?!{PEOPLE}\b)\w+"
    rf"|(the|all) (?!{PEOPLE}\b)\w+)( \w+)? (is|was|are|were|has|have|will|would|does|did)\b"
    r"(?!( \w+){0,4} (busy|packed|hot|sunny|raining|quiet|closed|open|queue|film|party|match|half term|"
    r"cleaned|"
    r"serviced|changed|delivered|ok|fine|good|perfect|great|lovely|normal|working|\d+)\b)"
)
TIME_LAST = re.compile(
    rf"\b{WENT}( (?!(after|since|when|until|till|and|but|for|every)\b)\w+){{0,3}}? "
    rf"(?=({LEAD})({'|'.join(pattern for pattern, _ in TIMES[:-2])}|{COUNT} {UNIT} (ago|back))"
    r"( [.,!]| and\b| but\b| so\b|$))"
)
FOUND = re.compile(
    r"\b((came|come|got) in( (to|and) (it|this|find|found|everything|the \w+))?( like (this|that))?|"
    r"(found|noticed|spotted) (it|this|them|everything)( all)?( like (this|that))?|opened up( to)?)"
    r"( \w+){0,2} (this morning|first thing|today|(when|as) (i|we) (opened|got in|came in)( up)?)\b|"
    r"\bwhen (i|we) (opened|unlocked|got in|came in)( up)?( (today|this morning))\b"
)
# Words that refer back to an event told before: "and ever since", "that is when", "from that minute".
BACK = re.compile(
    rf"\b(ever since|(from|since) (then|that( {POINT})?|which|the {POINT})( on(wards?)?)?|after (that|"
    rf"which)"
    r"|(which|that|this|then) (is|was) (about |exactly |just )?(when|what (did|started|caused|set|kicked))"
    r"|(it|this|that) (all )?(started|began|kicked off) then"
    r"|so (did|has|have|is|are) (this|that|it|they|the|all|every\w*|my|our)"
    r"|since (he|she|they|it|we|you|i) (left|went|packed|finished|came|come|was|were|got|did|had|started)"
    r"|since(?= it\b| [.,!]|$)|after(wards?)?(?= ?[.,!]| ?$))(?=\W|$)"
    r"(?! (the|we|they|i|a|my|our|he|she|you|your) \w+ed\b)"
)
# What makes an event named before it the cause: "the storm is what kicked it off".
CAUSE = re.compile(
    r"( (is|was|that|this|which|what|must|have|has|probably|i|think|reckon|thing|definitely|surely|it))*?"
    r"( (is|was) when\b| (started|caused|set|kicked|triggered|brought|knackered|finished|broke|killed) "
    r"(it|this|"
    r"that|them|all|everything|the (trouble|problem|lot))\b| (did|done) (it|this|that)(?= i\b| [.,!]|$))"
)
# What says that an event changed nothing at first.
WELL = re.compile(
    r"\b(fine|ok|perfect\w*|good|great|grand|lovely|normal|spotless|no (difference|change|problem|trouble)|"
    r"not (help|helped|change|cure|cured|fix|fixed))\b"
)
AND_NOW = re.compile(r"( ,)? (and )?((?<!by )(?<!until )(?<!till )now |then (it|this|that|the \w+) )")
# "Fine until noon" is how each day goes; these are one day.
ONE_DAY = re.compile(
    rf" (about |around )?((last |on |this )*({DAY})|yesterday|this morning|last night|today|last week|"
    rf"the weekend|"
    r"earlier|this afternoon|last month)\b"
)
# Who starts something, or what is no machine: not the trouble began then.
SOMEBODY = re.compile(rf"\b{PEOPLE}( have| had| has)?( only| just| all)? $")
# What follows an event without a mark between: "after the storm the display went blank".
WENT_ON = re.compile(
    r"^( off| out| back on| (visit|call)(ed)?| came| left| (was|were) (here|in|out)| happened| finished|"
    r" hit| arrived| was)?"
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
BREAK = re.compile(r" [.,;!?-] | (?:and|but|so|now) ")
# What follows a time at which it began: "monday? that's when syrup started dripping".
IT_BEGAN = re.compile(
    r"(that|this|which|then|it) (is|was) (about |exactly |just )?when\b"
    r"|\b(it|this|that) (all )?(started|began)(?= [.,!]|$)"
)
NEAR_THEN = 40  # letters before it in which the time stands
WINDOW = 60  # letters after "since" in which the event or time stands
NEAR = 12  # letters behind a time in which an event may still be meant: "since Friday's service"


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
        before = joined.text[: match.start()]
        if RUNNING.search(before) and not WARNED.search(before):
            continue
        found = _event(joined, match) or _time(joined, match, match.end())
        if found is not None:
            return found
    return None


def _after(joined: Joined) -> Beginning | None:
    return next((found for match in AFTER.finditer(joined.text) if (found := _event(joined, match))), None)


def _onwards(joined: Joined) -> Beginning | None:
    """Return the event or time of "from the storm onwards", "from Tuesday on"."""
    match = ONWARDS.search(joined.text)
    return (_event(joined, match) or _time(joined, match, match.end())) if match else None


def _when(joined: Joined) -> Beginning | None:
    """Return the event of "when the heatwave arrived it started going soft"."""
    for match in WHEN.finditer(joined.text):
        found = _event(joined, match)
        if found is not None and re.search(rf" {WENT}\b", joined.text[match.end() :]):
            return found
    return None


def _until(joined: Joined) -> Beginning | None:
    match = UNTIL.search(joined.text)
    if match is None:
        return None
    return _event(joined, match) or (
        _time(joined, match, match.end()) if ONE_DAY.match(joined.text[match.end() :]) else None
    )


def _from_then(joined: Joined) -> Beginning | None:
    """Return the event of "new bottle went on and since then ...", ", which is when it began"."""
    for match in BACK.finditer(joined.text):
        before = joined.text[: match.start()]
        told = [event for event in events_in(before) if happened(joined.text, event)]
        if told and not WELL.search(before, told[-1].end):
            # the first of the last clause that tells one: "moved it for the decorators, never right since"
            last = max(_clause_of(before, event) for event in told)
            event = next(event for event in told if _clause_of(before, event) == last)
            return _told(joined, event, match)
    return None


def _time_then(joined: Joined) -> Beginning | None:
    """Return the time of "yesterday, that's when it began", "it'd be last night it started"."""
    for match in IT_BEGAN.finditer(joined.text):
        begins = [at for at in joined.starts if match.start() - NEAR_THEN <= at < match.start()]
        told = [(at, time_at(joined.text, at)) for at in begins]
        for at, time in told:
            if time is not None and match.start() - time[1] <= len(" ? "):
                whole = re.compile(re.escape(joined.text[at : match.end()])).search(joined.text, at)
                return Beginning(time[0], joined.span(whole or match), event=False)
    return None


def _cause(joined: Joined) -> Beginning | None:
    """Return the event of "it was the storm that kicked it all off", "the service is when it began"."""
    for event in events_in(joined.text):
        match = CAUSE.match(joined.text, event.end)
        if match is not None:
            return _told(joined, event, match)
    return None


def _clause_of(text: str, event: Event) -> int:
    """Return where the clause begins in which an event is named."""
    return max((stop.end() for stop in BREAK.finditer(text, 0, event.start + 1)), default=0)


def _told(joined: Joined, event: Event, link: re.Match[str]) -> Beginning:
    """Return an event that later words refer to, with these words where nothing is told between."""
    text = joined.text
    begin = _clause_of(text, event)
    stop = BREAK.search(text, event.end)
    close = link.end() if stop is None or stop.end() >= link.start() else stop.start()
    if stop is None and " " in text[event.end : link.start()].strip():
        close = event.end
    whole = re.compile(re.escape(text[begin:close])).search(text, begin)
    return Beginning(event.name, joined.span(whole or link), event=True)


def _time_first(joined: Joined) -> Beginning | None:
    """Return the time of "overnight it went soft", "this morning was when it started"."""
    text = joined.text
    for match in CLAUSE.finditer(text):
        lead = IT_WAS.match(text, match.start())
        time = time_at(text, lead.end() if lead else match.start())
        if time is None:
            continue
        told = WENT_THEN.match(text[time[1] :]) or (
            IS_SO.match(text[time[1] :]) if time[0] in RECENT and MOMENT.search(text[: time[1]]) else None
        )
        if told is None or DONE.search(told[0]):
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
        ours = SOMEBODY.search(joined.text[: match.start()]) and not re.match(SEEN, match[0])
        done = DONE.search(f"{BREAK.split(joined.text[: match.start()])[-1]} {match[0]}")
        gone = GONE.search(f"{joined.text[: match.start()]}{match[0]}")
        if time is not None and not done and not ours and not gone:
            whole = re.compile(re.escape(joined.text[match.end() : time[1]])).search(joined.text, match.end())
            return Beginning(time[0], joined.span(whole or match), event=False)
    return None


def _found(joined: Joined) -> Beginning | None:
    """Return the time of "came in this morning and everything was runny"."""
    match = FOUND.search(joined.text)
    return Beginning("this morning", joined.span(match), event=False) if match else None


def _lasting(joined: Joined) -> Beginning | None:
    """Return how long it has lasted: "been soft for three days", "the last hour"."""
    found = lasting(joined.text)
    return Beginning(found[0], joined.span(found[1], found[2]), event=False) if found else None


def _started(joined: Joined) -> Beginning | None:
    for match in STARTED.finditer(joined.text):
        if SOMEBODY.search(joined.text[: match.start()]) and "noticed" not in match[0]:
            continue
        found = (
            _event(joined, match) if re.search("after|since|when|while|once|soon|with", match[0]) else None
        )
        found = found or _time(joined, match, match.end())
        if found is not None:
            return found
    return None


def _from(joined: Joined) -> Beginning | None:
    match = FROM.search(joined.text)
    return _time(joined, match, match.end()) if match else None


def _and_now(joined: Joined) -> Beginning | None:
    """Return the event of "they serviced it Tuesday, now ..."."""
    link = AND_NOW.search(joined.text)
    if link is None or link.start() > WINDOW or WELL.search(joined.text[: link.start()]):
        return None
    told = [e for e in events_in(joined.text, 0, link.start()) if happened(joined.text, e)]
    return _told(joined, told[0], link) if told else None


def _clause(text: str, begin: int) -> str:
    """Return what follows, up to the next mark or turn of the sentence."""
    following = text[begin : begin + WINDOW]
    stop = re.search(r" [.,;!?-]( |$)| (but|and|now|there|it is|it has)( |$)", following)
    return following[: stop.start()] if stop else following


def _event(joined: Joined, lead: re.Match[str]) -> Beginning | None:
    begin = lead.end()
    following = _clause(joined.text, begin)
    found = events_in(joined.text, begin, begin + len(following))
    time = time_at(joined.text, begin)
    if time is not None:  # "since yesterday the drinks look washed out" is no cleaning
        found = [
            event
            for event in found
            if event.start < time[1] + NEAR and " the " not in joined.text[time[1] : event.start]
        ]
    if not found:
        return None
    event = found[0]
    if WENT_ON.match(joined.text[event.end : begin + len(following)]):
        following = joined.text[begin : event.end]
    whole = re.compile(re.escape(joined.text[lead.start() : begin + len(following)]))
    match = whole.search(joined.text)
    return Beginning(event.name, joined.span(match or lead), event=True, named=joined.place(event.end))


def _time(joined: Joined, lead: re.Match[str], begin: int) -> Beginning | None:
    time = time_at(joined.text, begin)
    if time is None:
        return None
    whole = re.compile(re.escape(joined.text[lead.start() : time[1]])).search(joined.text)
    return Beginning(time[0], joined.span(whole or lead), event=False)


FINDERS = (
    _since,
    _from_then,
    _time_then,
    _cause,
    _onwards,
    _after,
    _until,
    _when,
    _started,
    _lasting,
    _time_first,
    _and_now,
    _from,
    _found,
    _time_last,
)
