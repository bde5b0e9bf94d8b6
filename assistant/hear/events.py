"""Events that a trouble may follow: deliveries, visits, cuts of the power, weather, works, moves.

Rule of the file: only what an event looks like; whether anything began with it is for `began` to tell.
"""

from __future__ import annotations

import re
from dataclasses import dataclass


def any_of(*ways: str) -> str:
    """Return a pattern for any of several."""
    return "|".join(ways)


STOCK = "(gas|bottles?|cylinders?|tanks?|box(es)?|bags?|syrups?|co2|cartons?)"
CHANGED = r"(chang|swap|replac|switch|deliver)\w*"
PASSIVE = "(was|were|got|being|been|had|has|have|is|and)"
FILTER = "(water )?(filters?|cartridges?)( cartridges?)?"
SUPPLY = "(power|electric|electrics|electricity|leccy|lecky|mains|current|juice)( supply)?"
LOST = (
    "(cuts?|failure|outages?|blip\\w*|flicker\\w*|surge[ds]?|dip(s|ped)?|failed|tripped|went|came back|"
    "dropped|"
    "(was |were |got |is |has |been |all |just )*(off|out|down|lost|cut)|came (off|on))( (off|out|down|"
    "back|on))*"
)
WHERETO = (
    "(out|along|across|over|into|to|round|around|back|forwards?|away|from|down|up|inside|outside|next|"
    "nearer|behind|through)"
)
EVENTS = {
    "power cut": any_of(
        rf"{SUPPLY} ?{LOST}",
        rf"(lost|without|loss of)( \w+){{0,2}} ?{SUPPLY}",
        r"lights (all |just )*(went|were|cut|had gone) (off|out)|power ?cuts?|outages?|black ?outs?|"
        r"(?<!breaker )trip",
    ),
    "storm": r"(thunder ?)?storms?|lightning|thunder",
    "heatwave": any_of(
        r"heat ?waves?|(hot|warm|boiling) (weather|spell|snap)|(this|the|all this) heat\b(?! \w+er)",
        r"(it|weather|temperatures?) (has |have )?(turned|went|gone|got|shot)( \w+)? (hot|warm|boiling|up)",
    ),
    "cleaning": any_of(
        r"(de)?scal(ed|ing) and clean\w*|clean(ed|ing|s)?|sanitis\w+|wash(ed|ing)?|strip(ped)?|took it "
        r"apart",
        r"scrub\w*|descal\w+|rins(ed|ing)",
    ),
    "service": any_of(
        "servic(e|ed|es|ing)|engineers?|tech|technicians?|repair(ed|man)|maintenance|mechanics?|"
        "inspection|"
        "fixed|last visit|(annual|yearly|monthly) visit|put it back together",
    ),
    "repair": "repairs?",
    "delivery": any_of(
        "deliver(y|ed|ies|ing)|drivers?|(gas|syrup|delivery) (man|guy|lad|bloke|lorry|van|wagon|truck)|"
        "lorry|(?<=the )drop(?! off| in| of| out)|(gas|syrup) drop(?! off)|new cartons?",
        rf"(new|fresh|another|different) (\w+ )?{STOCK}( (came|arrived|went on))?",
        rf"{CHANGED} (of |over )?(the |a |out the |its |our |my |that |their )?{STOCK}( \w+)?",
        rf"{STOCK}( \w+)? ({PASSIVE} )*{CHANGED}",
        rf"{STOCK} (change|swap|came|arrived|turned up|landed)",
        rf"(brought|dropped)( \w+){{0,3}} {STOCK}",
    ),
    "filter change": any_of(
        rf"(new|fresh|another|different) {FILTER}",
        rf"{FILTER} ({PASSIVE} )*{CHANGED}",
        rf"{CHANGED} (over )?(the |our |that |out the )?{FILTER}",
        rf"(put|fitted|stuck|popped|had)( \w+){{0,2}} {FILTER}",
    ),
    "move": any_of(
        r"mov(ed|ing|e)|shift(ed|ing)|pulled out|relocat\w+",
        rf"(slid|shoved|dragged|wheeled|pushed|pulled|carried|rolled|lugged|shunted)( \w+){{0,2}}? "
        rf"{WHERETO}",
    ),
    "building work": any_of(
        r"build(er|ing work)s?|re ?fit\w*|refurb\w*|renovat\w+|electricians?|plumbers?|plumbing( work)?|"
        r"decorat\w+|joiners?|re ?wir(ed|ing)",
        r"(knocked|took|tore|ripped)( \w+){0,3} (walls?|ceiling|floor)|new (floor|counter|ceiling)",
    ),
}
# Who came, or that somebody was here: a visit, unless a plainer event stands in the same clause.
VISITS = {
    "service": any_of("(your|the|that) (man|lads?|guy|bloke|chap|visit)", "(was|were|been) (here|out)"),
}
TABLES = tuple(
    {name: re.compile(rf"\b({pattern})s?\b") for name, pattern in table.items()} for table in (EVENTS, VISITS)
)
# An event that is denied, to come, or one of many began nothing.
ELSEWHEN = re.compile(
    r"\b(no|not|never|any|next|every|each|before|without|due|booked|forecast|gets?|will|would|going to|"
    r"need|"
    r"wants?|until|till|usually|always)( (the|a|an|our|my|it|its|has|have|had|been|be))*( \w+)? $"
)
EXPECTED = re.compile(
    r"^( \w+){0,2} (is|are|will|comes?|gets?|arrives?|happens?)( not)?( \w+)? (due|booked|tomorrow|"
    r"tonight|next|every|"
    r"on|at|in|be|till|until|been due)\b|^ (every|each|due|booked)\b"
)


@dataclass(frozen=True, slots=True)
class Event:
    """An event named in a text, and the letters that name it."""

    start: int
    end: int
    name: str


def events_in(text: str, begin: int = 0, stop: int | None = None) -> list[Event]:
    """Return the events named between two letters, first ones first; visits only where nothing is plainer."""
    part = text[begin : len(text) if stop is None else stop]
    for table in TABLES:
        found = [
            Event(begin + hit.start(), begin + hit.end(), name)
            for name, pattern in table.items()
            for hit in pattern.finditer(part)
        ]
        if found:
            return sorted(found, key=lambda event: (event.start, -event.end))
    return []


def happened(text: str, event: Event) -> bool:
    """Tell whether an event is told as one that came to pass, not denied, expected or of every week."""
    return not (ELSEWHEN.search(text[: event.start]) or EXPECTED.match(text[event.end :]))
