"""Times as people say them: a day, a part of it, the clock, a season, how long ago.

Rule of the file: only what a time looks like; whether anything began then is for `began` to tell.
"""

from __future__ import annotations

import re

DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
DAY = "|".join(DAYS) + "|mon|tues?|weds?|thurs?|fri|sat|sun"
UNIT = r"(minutes?|hours?|days?|nights?|weeks?|fortnights?|months?|years?)"
COUNT = (
    r"(an?|one|two|three|four|five|six|seven|eight|nine|ten|few|a few|couple|a couple|a couple of|"
    r"couple of|"
    r"several|half an|\d+)"
)
HOUR = r"(one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|1[0-2]|[1-9])"
CLOCK = (
    rf"((half|quarter|five|ten|twenty)( past| to)? )?{HOUR}( (30|15|45))?( ?(o clock|am|pm))?"
    rf"( (in the )?(morning|afternoon|evening|today|this morning|last night))?(?! \w*(psi|bar|{UNIT}))"
)
OPENED = (
    "(i|we) (opened|unlocked|opened up)( up)?( today| this morning)?(?! (that|the|it|a|this|up the)\\b)|"
    "opening( up| time)?( today)?|"
    "(came|got) in( today| this morning)?"
)
TIMES = (
    (
        (
            rf"(first thing )?this (morning|mornin|am)|first thing today|first thing(?! each| every| in)|"
            rf"{OPENED}"
        ),
        "this morning",
    ),
    (r"this afternoon", "this afternoon"),
    (r"this evening", "this evening"),
    (r"tonight", "tonight"),
    (rf"{HOUR}( o clock)? (in the |this )morning", "this morning"),
    (r"xmas", "christmas"),
    (r"(late )?last night|overnight|over night|(in|during) the night", "last night"),
    (r"the day before yesterday", "days"),
    (r"yesterday( (morning|afternoon|evening|night|lunch ?time|dinner ?time|tea ?time|gone))?", "yesterday"),
    (r"today|earlier( on| today)?|just now", "today"),
    (r"(some ?time |early |late )?last (week|wk)", "last week"),
    (r"last month", "last month"),
    (r"lunch ?time|lunch|noon|midday", "lunchtime"),
    (r"((the |last )?(middle|start|end) of )?(the )?(interval|matinee)", ""),
    (r"(the |at the |last |over the |all )?(weekend|wkend|week end)", "weekend"),
    (r"christmas|easter|summer|winter|spring|autumn|new years?|half term|(bank|school|summer) holidays?", ""),
    (r"january|february|march|april|may|june|july|august|september|october|november|december", ""),
    (r"(start|beginning|end|middle) of (the |last |this )?(week|month|season|year|shift|summer|\w+)", ""),
    (rf"(last |on )?({DAY})( (night|morning|evening|afternoon|lunchtime|gone|last))?", ""),
    (CLOCK, ""),
    (rf"(a |the |last |past )?(few |couple of |\w+ (or \w+ )?)?{UNIT}( or (so|two))?( ago| now| back)?", ""),
)
LEAD = r"(\s|the |on |about |around |at |from |like |an? )*"
LED = tuple((re.compile(rf"{LEAD}({pattern})(?= |$)"), value) for pattern, value in TIMES)
_LATE = r"(1[3-9]|2[0-3]) [0-5]\d( (hrs|hours))?"
_LONE = "noon|midday|lunchtime|lunch|today|tonight|yesterday|overnight|earlier|weekend"
# What something did when it broke down.
WENT = (
    r"(went|gone|turned|started|began|begun|stopped|packed|died|gave|quit|conked|lost|froze|thawed|melted|"
    r"came on|came up|dropped|got|happened|broke|noticed|clocked|spotted)"
)
# What people do to a machine: when they did it is not yet when the trouble came.
DONE = re.compile(
    r"\b(changed|swapped|replaced|serviced|cleaned|fitted|installed|delivered|filled|refilled|moved|called|"
    r"rang|phoned|"
    r"(box|bag|bottle|cylinder|filter|part|one) went (on|in)|"
    r"reported|checked|emptied|ordered|came out|went in|last one|was (here|out))\b"
)


def time_at(text: str, begin: int) -> tuple[str, int] | None:
    """Return the time that a text tells from a letter on, in few words, and where it ends, None if none."""
    for pattern, value in LED:
        found = pattern.match(text[begin:])
        if found:
            return value or _named(found[2]), begin + found.end()
    return None


def only_time(text: str) -> str:
    """Return the time that a whole line tells ("3pm", "since this morning"), empty for any other line.

    A lone number is none, nor a word that may be a name: a place may be called Easter, or Golden Years.
    """
    line = re.sub(r"['\u2019]s\b", "s", text.casefold())
    line = re.sub(r"\bo\s*['\u2019]?\s*clock\b|\boclock\b", "o clock", line)
    line = " ".join(re.findall(r"[a-z]+|\d+", line))
    line = re.sub(r"^((its|it is|it was|since|just gone|gone|maybe|like) )+|( ish| or so)$", "", line)
    words = re.sub(rf"^{LEAD}", "", line).split()
    if re.fullmatch(_LATE, " ".join(words)):
        return " ".join(words)
    found = time_at(line, 0)
    if found is None or found[1] != len(line):
        return ""
    lone = len(words) == 1 and not re.fullmatch(rf"{_LONE}|{DAY}", words[0])
    lasting = re.search(rf"\b{UNIT}$", line) and not re.match(rf"{COUNT} |last |this |past ", line)
    return "" if lone or lasting else found[0]


def _named(said: str) -> str:
    """Return the day, season, hour or unit of time in what was said."""
    day = re.search(rf"\b({DAY})\b", said)
    unit = re.search(r"\b(minute|hour|day|night|week|fortnight|month|year)s?\b", said)
    if day:
        return next(name for name in DAYS if name.startswith(day[0][:3]))
    if unit and not re.search(r"^(new|half) (year|term)|(start|beginning|end|middle) of", said):
        return "weeks" if unit[1] == "fortnight" else f"{unit[1]}s"
    whole = re.match(rf"(half|new|bank|school)\b|((quarter|five|ten|twenty) )?.*{HOUR}\b|.* of ", said)
    return said if whole else said.rsplit(maxsplit=1)[-1]
