"""Words that take something back: "no sorry, 38", "45. no wait 54", "scratch that".

Rule of the file: a correction that opens a line is about what was said before it; one in the middle is about
the line itself, and what follows it stands instead of what precedes it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import FLAVOURS
from assistant.hear.english import FILLERS
from assistant.hear.features import weighty
from assistant.hear.numbers import DIGITS, TEENS, TENS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from assistant.hear.joined import Joined, Span
    from assistant.hear.line import Line

NEAR = 1  # words between two takings back that are one
SOON = 5  # words after "no sorry" among which the right thing stands

GAP = r"(?: [,.!?-])* "  # between words that may be parted by marks
MARK = r"(?:^|(?<=[,.!?:;-] ))"
SIGHS = r"(?:(?:oh|ah|no|well|hmm|hm|um|sorry|ok|right) (?:[,.!] )*)*"
FIGURE = rf"(?:\d|(?:{'|'.join([*DIGITS, *TEENS, *TENS])})\b)"
NAMES = "|".join(sorted(FLAVOURS))
THING = (
    "(?:one|barrel|side|dial|clock|gauge|bottle|tap|box|number|tub|flavour|reading|way round|screen|line|"
    "button|switch|valve|cylinder|machine|answer|figure|needle)"
)
LOOKED = (
    r"(?:looking at|looked at|look at|reading|read|picked up|picked|picking up|checked|checking|on about|on|"
    r"gave you|got|had|pressed|opened|turned|meant|told you|said|at)"
)
LAST = "(?:my |the |that )?last(?: answer| one| bit| line)?"

TAKES_BACK = re.compile(
    rf"\b(?:scratch|scrap|strike|ignore|forget|disregard|cancel|undo) (?:that|this|{LAST}|"
    rf"what i (?:just )?said)"
    r"(?: last)?(?: (?:bit|one|answer|line))?\b"
    r"|\bdisregard\b|\b(?:i )?take (?:that|it|this) back\b"
    rf"|(?<!am )\b(?:sorry )?(?:no{GAP})?i (?:meant|mean to say)(?: to say)?\b"
    rf"|\b(?:no{GAP})?i mean (?:to say )?(?=(?:the |barrel |number |side )*[@\w]+(?: one| side)?(?: [.!])*$)"
    rf"|(?<=\d )(?:, )?i mean$"
    rf"|(?<!i )\bmake (?:that|it) (?=(?:a |about |the )?(?:{FIGURE}|left|right|middle|{NAMES}|barrel|number))"
    r"|\bcorrection\b|\bmy (?:mistake|bad|error|fault)\b"
    r"|\b(?:i was|i am|i have got it|i got (?:it|that)|that (?:was|is)|i had (?:it|that)) wrong\b"
    r"|\b(?:i )?(?:read|said|told you|put|gave you|answered)(?: \w+){0,4} wrong\b"
    rf"|\b(?:no{GAP}(?:wait|hang on|hold on|actually)|(?:wait|hang on|hold on|actually){GAP}no)\b"
    rf"|\b(?:no{GAP}sorry|sorry{GAP}no)\b"
    rf"|{MARK}{SIGHS}wait\b(?! (?:for|until|till|on|a|and|while|times?)\b)|\b(?:oops|whoops)\b"
    rf"|(?<=[,.!?-] )(?:oh |no )*(?:hang|hold) on\b(?= (?:, )?(?:it|i|that|no|there|the)\b)"
    rf"|\b(?:i |we )?(?:was |were |have |had |been )*{LOOKED} the wrong {THING}\b(?! (?:coming|comes|"
    rf"out|in|from))"
    rf"|\b(?:that was|it was|it is|that is) the (?:wrong|other) {THING}\b(?! (?:coming|comes|out|in))"
    r"|\b(?:i )?(?:lied|misread|miscounted|misheard|mistyped|misspoke|stand corrected)\b(?! (?:by|as|"
    r"it all))|\bi was mistaken\b"
    r"|\bi (?:have )?made (?:a|an) (?:mistake|error)\b|\blet me correct (?:that|myself)\b"
    rf"|^{SIGHS}(?:oops )?wrong {THING}\b(?! (?:coming|comes|out|in|from))"
    rf"|^{SIGHS}sorry (?:, )?(?:not the\b|i meant?\b)"
    rf"|^{SIGHS}(?:hang|hold) on (?:, )?(?=(?:it|that) (?:is|was) (?:the |barrel|number|{FIGURE}))"
    r"|\b(?:squinted|looked|checked|read)(?: at)?(?: it)? again\b(?= ,? ?(?:and )?(?:it is |it says )?\d)"
    r"|\bchange that to\b|\bshould have said\b|\b(?:i )?tell a lie\b"
    rf"|^{SIGHS}actually\b"
    r"|\b(?:i )?thought it was(?: \w+){1,4} (?:, )?(?:but )?(?:it )?turns out\b|\bforgive me\b"
    r"|\bi said \w+(?: \w+)? (?:, )?(?:but |and )?(?:it is|(?:i )?meant|that is)\b"
    r"|\b(?:on )?second thoughts?\b|\btypo\b"
    r"|\b(?:got|had|have got|mixed) (?:them|it|those|these|that|the two) (?:mixed up|muddled(?: up)?|"
    r"back to front|up)\b|\b(?:i )?got muddled\b"
    r"|\bchange (?:that|my)(?: last)? answer\b|\bthat is not right ,? ?sorry\b"
    r"|^(?:oh |no |, )*(?:apologies|wrong|i beg your pardon|beg pardon|my apologies) (?:, )?"
    r"(?:it|that|i) (?:is|was|meant)\b(?: the (?:wrong|other) \w+)?"
    rf"|\b(?:that )?should (?:read|say) (?={FIGURE})|^not {FIGURE}\d* (?:, )?(?:but |it is )?(?=\d)"
    r"|\bnot that one (?:, )?(?:the )?other\b(?: one)?"
    rf"|^{SIGHS}sorry (?:, )?(?:it|that) (?:is|was) (?=the (?:left|right|middle|other)|barrel|number|"
    rf"{FIGURE})"
    rf"|^{SIGHS}sorry (?:, )?(?:it is |that is |i mean )?(?={FIGURE})"
    rf"|(?<=\d )(?:[,.-] )?sorry (?:, )?(?:it is |that is )?(?={FIGURE})|(?<=\d\d )(?:, )?not (?=\d\d)"
)
# These only excuse what was just said, when they end a line and nothing else stands instead.
EXCUSES = re.compile(r"^(?:my (?:mistake|bad|error|fault)|forgive me|apologies|oops|whoops)$")
APOLOGY = re.compile(rf"^(?:no{GAP}sorry|sorry{GAP}no)$")
# These take back the words before them even when nothing follows.
CANCELS = re.compile(r"\b(?:scratch|scrap|strike|ignore|forget|disregard|cancel|undo)\b|\btake \w+ back\b")


@dataclass(frozen=True, slots=True)
class TakenBack:
    """The words that take back; `turn` is where the words begin that are right, 0 if the line goes on.

    `turn` is the length of the line where it takes back all that it said. `about` is "line" where only words
    of the same line are taken back, "number" where nothing but one number stands beside, else "".
    """

    span: Span
    turn: int = 0
    about: str = ""


def taken_back(line: Line) -> TakenBack | None:
    """Return what takes something back in a line, None if nothing does."""
    spans = _spans(line, line.plain) or _spans(line, line.joined)
    if not spans:
        return None
    first, last = spans[0][0], spans[-1][1]
    told_before, told_after = _tells(line, range(first)), _tells(line, range(last, len(line.words)))
    said = line.joined.text[line.joined.starts[spans[-1][0]] :]
    if told_before and not told_after and EXCUSES.match(said.strip(" .,!")) and not line.numbers:
        return None
    if told_before and told_after and not said.startswith("not "):  # "58, not 85"
        return TakenBack((0, last), last, "line")
    if told_before and not told_after and CANCELS.match(said):
        return TakenBack((0, len(line.words)), len(line.words), "line")
    near = last - first <= sum(end - begin for begin, end in spans) + NEAR
    span = (first, last) if near else spans[0]
    return TakenBack(span, about="number" if _only_number(line, span) else "")


def _only_number(line: Line, span: Span) -> bool:
    """Tell whether a line says one number besides what takes back, and not of what."""
    number = next(iter(line.numbers), None)
    if number is None:
        return False
    taken = {*range(*span), *range(number.start, number.end)}
    denied = {
        at
        for n in line.numbers[1:]
        for at in range(n.start - 1, n.end)
        if line.words[n.start - 1].text == "not"
    }
    left = (at for at in range(len(line.words)) if at not in taken | denied)
    return not line.mentions and not any(weighty(line.words[at]) or line.words[at].is_number for at in left)


def _spans(line: Line, joined: Joined) -> list[Span]:
    found = ((joined.span(match), match[0]) for match in TAKES_BACK.finditer(joined.text))
    return [span for span, said in found if not APOLOGY.match(said) or _puts_right(line, span[1])]


def _puts_right(line: Line, end: int) -> bool:
    """Tell whether a number, a barrel, "it was" or "the other" comes next: "no sorry" alone declines."""
    near = range(end, end + SOON)
    said = [word.text for word in line.words[end : end + SOON]]
    named = any(n.start in near for n in line.numbers) or any(m.start in near for m in line.mentions)
    return named or bool({"was", "other", "wrong", "meant"} & set(said))


def _tells(line: Line, places: Iterable[int]) -> bool:
    """Tell whether there is more than small words at some places of a line."""
    named = {at for m in line.mentions for at in range(m.start, m.end)}
    named |= {at for n in line.numbers for at in range(n.start, n.end)}
    loose = FILLERS | {"no", "yes"}
    return any(at in named or (weighty(line.words[at]) and line.words[at].text not in loose) for at in places)
