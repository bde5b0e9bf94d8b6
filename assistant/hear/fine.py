"""What is said to be all right: gas, water, syrup, power, taste, or barrels."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.hear.features import weighty
from assistant.hear.mention import named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from assistant.hear.joined import Span
    from assistant.hear.line import Line
    from assistant.hear.mention import Mention

TOPICS = {
    "gas": r"(the |our |all )?(gas|gases|co2|co2s)( (supply|pressures?|bottles?|cylinders?|tanks?|"
    "numbers?|readings?|levels?))*",
    "water": r"(the |our )?waters?( (supply|pressures?|numbers?|readings?|levels?))*",
    "syrup": r"(the |our |all )*(syrups?|boxes|bags)( (boxes|bags|pressures?|numbers?|readings?|levels?))*",
    "power": r"(the )?(powers?|electric(s|ity|ities)?|leccys?|mains)( supply)?",
    "taste": r"(the |it |they )?(all )?(tastes?|flavours?)",
}
VERB = (
    r"(wise|goes|:|,(?= (all|both|they|no)\b)|that is|this is|we are|you are|"
    r"is|are|should be|seems?|looks?|reads?|be|appears?|feels?|it is|still|they are|both|all|keeps?|pours?|"
    r"pouring|runs?|running|flows?|flowing|works?|working|freezing|freezes|absolutely|totally|perfectly|"
    r"quite|really|always|has been|"
    r"have been|"
    r"being|comes? out|dispens\w+)"
)
GOOD = (
    r"(fine|ok|perfect(ly)?|good|great|grand|normal(ly)?|all right|all ok|all fine|all good|spot on|"
    r"lovely|brilliant|sound|right as rain|dandy|sweet as|tip top|mint|bang on|happy|in order|as new|"
    r"no dramas?|behaving( itself)?|"
    r"no worries|as (it|they) should( be)?|no (problem|problems|trouble|bother)( at all)?|"
    r"no different|as (normal|usual)|well|right|correct)"
)
UNTROUBLED = (
    r"(nothing|not anything|no (problems?|issues?|trouble|bother|"
    r"faults?))( at all)?( wrong)? (with|on)( the| our)?"
)
# What is as good as praise of what comes by a pipe, in a box or by wire, but says nothing of a barrel.
THERE = r"(on|turned on|switched on|full|all full|connected|plugged in|there|plentiful|open|on and \w+)"
PLENTY = (
    r"(?:^|(?<= ))(((there|we|i|it|you) )?((is|has|have|got) )*(plenty of|lots of|loads of|masses of) |"
    r"(yes )?((there is|we have|we have got|it has|it has got|have|have got|we got|"
    r"got) )(?=(the )?{topic}( [.,!]|$| and | ,)))"
)
PRAISED = re.compile(
    rf"(( i)?( have)? checked)?( , (?=both|all|they))?( and(?= (that|it|they) (is|are) ))?( {VERB})*( {GOOD})"
    r"( (on|in) (all|every|each)( \w+)?)?(?= |$)"
)
BEFORE_NAME = re.compile(rf"(?:^|(?<= )){UNTROUBLED} (the )?$")
PRESENT = re.compile(rf"( {VERB})+( {THERE})(?= [.,!]| and |$)")
BARELY = re.compile(rf"( {THERE})(?= [.,!]| and |$)")  # where the clause begins with what it is of
LATER = re.compile(
    r"^ (yesterday|before|until|till|last|earlier|at first|then|this morning|for a while|enough|"
    r"to(?! me\b| us\b))\b"
)
ONE_ONLY = frozenset(["is", "was", "pours", "tastes", "looks", "works", "keeps"])  # said of a single barrel
NAMED = frozenset(["the", "my", "our", "both"])  # before a name
HELPING = re.compile(
    r"\b(cups?|glass|drinks?|pints?|pours?|lot|batch|one|some) of (the )?$"
)  # not all there is
# Who asks whether something is fine does not say that it is.
ASKED = re.compile(
    r"\b(make sure|check|sure|see|know|whether|if|is|are|does|do)( that| if| whether)?( the| our)? $"
)
CONTRARY = frozenset(["not", "was", "were", "never", "used"])


@dataclass(frozen=True, slots=True)
class Fine:
    """A topic, or barrels, said to be all right."""

    topic: str
    barrels: tuple[int, ...]
    span: Span


def praised(line: Line) -> tuple[Fine, ...]:
    """Return what a line says is all right, in order."""
    return tuple(sorted((*_topics(line), *_together(line, _barrels(line))), key=lambda found: found.span))


def _together(line: Line, found: Iterable[Fine]) -> list[Fine]:
    """Return barrels that are praised one after the other, "cola ok, blue ok", as one."""
    joined: list[Fine] = []
    for fine in found:
        before = joined[-1] if joined else None
        gap = line.words[before.span[1] : fine.span[0]] if before else ()
        if before and not any(map(weighty, gap)):
            both = tuple(sorted({*before.barrels, *fine.barrels}))
            joined[-1] = Fine("", both, (before.span[0], fine.span[1]))
        else:
            joined.append(fine)
    return joined


def _topics(line: Line) -> Iterator[Fine]:
    for topic, pattern in TOPICS.items():
        for match in re.finditer(rf"(?:^|(?<= )){pattern}(?= |$)", line.joined.text):
            end = _shared(line.joined.text, match.end())
            begins = not match.start() or line.joined.text[: match.start()].endswith((", ", "and ", ". "))
            span = _praise(line, match.start(), end) or _praise(line, match.start(), end, PRESENT)
            span = span or (_praise(line, match.start(), end, BARELY) if begins else None)
            listed = "," in line.joined.text[match.end() : end]
            if listed and not begins:  # "run out of syrup, water is fine"
                continue
            if ASKED.search(line.joined.text[: match.start()]):
                continue
            if span and not any(mention.scope == "some" for mention in line.mentions_in(span)):
                yield Fine(topic, (), span)
        for said in (
            rf"(?:^|(?<= )){UNTROUBLED} {pattern}(?= |$)",
            PLENTY.format(topic=pattern) + pattern + "(?= |$)",
        ):
            for match in re.finditer(said, line.joined.text):
                if not CONTRARY & set(line.joined.text[: match.start()].split()[-2:]):
                    yield Fine(topic, (), line.joined.span(match))


def _shared(text: str, end: int) -> int:
    """Return where the last of joined topics ends: of "gas and water are fine" for "gas"."""
    either = "|".join(TOPICS.values())
    more = re.match(rf"( and| ,| , and)( (?:{either}))(?= )", text[end:])
    return _shared(text, end + more.end()) if more else end


def _barrels(line: Line) -> Iterator[Fine]:
    """Yield the barrels that are praised: "cola and cherry are fine"."""
    some = [mention for mention in line.mentions if mention.scope == "some"]
    at = 0
    while at < len(some):
        group, last = _group(line, some, at)
        end = line.joined.starts[some[last].end - 1] + len(line.words[some[last].end - 1].text)
        span = _praise(line, line.joined.starts[some[at].start], end)
        if span:
            yield Fine("", group, span)
        elif (
            untroubled := BEFORE_NAME.search(line.joined.text[: line.joined.starts[some[at].start]])
        ) is not None:
            yield Fine("", group, (line.joined.span(untroubled)[0], some[last].end))
        at = last + 1


def _group(line: Line, some: Sequence[Mention], at: int) -> tuple[tuple[int, ...], int]:
    """Return the barrels joined to a mention, and the last of them; "..., cola is" begins anew."""
    group = named(some[at:], line.words)
    last = at
    if len(group) > 1 and _is_told_of(line, some[at]):
        return some[at].barrels, at
    while last + 1 < len(some) and set(some[last + 1].barrels) <= set(group):
        last += 1
    between = [word.text for word in line.words[some[at].end : some[last].start]]
    single = line.words[some[last].end].text if some[last].end < len(line.words) else ""
    if last > at and "and" not in between and single in ONE_ONLY:
        return some[at].barrels, at
    return group, last


def _is_told_of(line: Line, mention: Mention) -> bool:
    """Tell whether the word before a name tells something of it: "solid blue, and the cherry is fine"."""
    before = [
        word for word in line.words[max(mention.start - 2, 0) : mention.start] if word.text not in NAMED
    ]
    return bool(before) and weighty(before[-1])


def _praise(line: Line, begin: int, end: int, praised: re.Pattern[str] = PRAISED) -> Span | None:
    """Return the words from a subject to its praise, None if it is not praised."""
    text = line.joined.text
    plain = re.sub(
        r"^( (one|ones|barrel|side|tap|drink|drinks|flavour))+", lambda m: " " * len(m[0]), text[end:]
    )
    lead = len(plain) - len(plain.lstrip(" "))
    match = praised.match(plain[max(lead - 1, 0) :])
    if match is None or LATER.match(plain[max(lead - 1, 0) + match.end() :]):
        return None
    if HELPING.search(text[:begin]):
        return None
    before = text[:begin].split()[-2:]
    if CONTRARY & {*before, *match[0].split()}:
        return None
    stop = end + max(lead - 1, 0) + match.end()
    whole = re.compile(re.escape(text[begin:stop])).search(text, begin)
    return line.joined.span(whole) if whole else None
