"""Which words of a line take something back, and which stand: "no sorry, 38", "45. no wait 54".

Rule of the file: a correction that opens a line is about what was said before it; one in the middle is about
the line itself, and what follows it stands instead of what precedes it. What is wrong is left out of the line
before anything else is understood of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.hear.english import FILLERS
from assistant.hear.features import weighty
from assistant.hear.joined import Joined
from assistant.hear.slips import APOLOGY, ASIDES, EXCUSES, TURNS, UNSAYS

if TYPE_CHECKING:
    import re
    from collections.abc import Iterable

    from assistant.hear.joined import Span
    from assistant.hear.line import Line

SOON = 8  # words after "no sorry" among which the right thing stands
POINTS = frozenset(["said", "meant", "mean", "say"])  # before a side that is named by itself: "i meant right"
SIDES = frozenset(["left", "right", "middle"])
LOOSE = FILLERS | {"no", "yes", "not"}


@dataclass(frozen=True, slots=True)
class TakenBack:
    """The words that take back, and the places of those that stand.

    `about` is "line" where only words of the same line are taken back, "number" where nothing but one number
    stands, else "".
    """

    span: Span
    stands: tuple[int, ...]
    about: str = ""


@dataclass(frozen=True, slots=True)
class _Slip:
    """Words of a line that take back; `kept` are places among them that say what it is about."""

    span: Span
    kept: range
    said: str
    turns: bool
    unsays: bool


def taken_back(line: Line) -> TakenBack | None:
    """Return what takes something back in a line, None if nothing does."""
    slips = _slips(line, mended=False) or _slips(line, mended=True)
    if not slips:
        return None
    first, last = slips[0].span[0], slips[-1].span[1]
    pieces = _pieces(line, slips)
    told = [at for at, piece in enumerate(pieces) if _tells(line, piece)]
    before = bool(told) and told[0] == 0 and _tells(line, set(range(first)) - _denied(line))
    if len(told) == 1 and before and EXCUSES.match(slips[-1].said) and not line.numbers:
        return None
    if not told and not any(slip.turns for slip in slips) and slips[0].said.startswith("not "):
        return None  # "not freezing, as I said"
    unsaid = slips[-1].unsays and before and told == [0]
    if unsaid:
        return TakenBack((0, len(line.words)), ())
    stands = list(pieces[told[-1]]) if told else []
    if stands and not any(_weighs(line, at) for at in stands):
        stands = sorted([*stands, *(at for slip in slips for at in slip.kept)])
    about = "line" if before and told[-1] > 0 else "number" if _only_number(line, stands) else ""
    return TakenBack((0 if about == "line" else first, last), tuple(stands), about)


def marked(line: Line, *, mended: bool) -> Joined:
    """Return the words with `#` for figures, `@` for barrels and `~` for the further words of either."""
    texts = [word.text if mended else word.typed or word.text for word in line.words]
    for mention in (mention for mention in line.mentions if mention.scope == "some"):
        texts[mention.start : mention.end] = ["@", *["~"] * (mention.end - mention.start - 1)]
    for number in (number for number in line.numbers if texts[number.start] not in "@~"):
        texts[number.start : number.end] = ["#", *["~"] * (number.end - number.start - 1)]
    for at in range(1, len(texts)):
        if texts[at] in SIDES and texts[at - 1] in POINTS:
            texts[at] = "@"
    return Joined.of_texts(texts)


def _slips(line: Line, *, mended: bool) -> list[_Slip]:
    """Return the words that take back, in order, none within another."""
    joined = marked(line, mended=mended)
    found: list[_Slip] = []
    for pattern in (UNSAYS, TURNS, ASIDES):
        for match in pattern.finditer(joined.text):
            slip = _slip(joined, match, pattern)
            if APOLOGY.match(slip.said) and not _puts_right(line, slip.span[1]):
                continue
            if not any(slip.span[0] < other.span[1] and other.span[0] < slip.span[1] for other in found):
                found.append(slip)
    return sorted(found, key=lambda slip: slip.span)


def _slip(joined: Joined, match: re.Match[str], pattern: re.Pattern[str]) -> _Slip:
    groups = [name for name in match.groupdict() if match[name]]
    kept = range(*joined.span(match, groups[0])) if groups else range(0)
    said = match[0].strip(" .,!")
    return _Slip(joined.span(match), kept, said, pattern is not ASIDES, pattern is UNSAYS)


def _pieces(line: Line, slips: list[_Slip]) -> list[list[int]]:
    """Return the places between the slips that turn, without those of other slips."""
    pieces: list[list[int]] = [[]]
    begin = 0
    for slip in slips:
        pieces[-1].extend(range(begin, slip.span[0]))
        begin = slip.span[1]
        if slip.turns:
            pieces.append([])
    pieces[-1].extend(range(begin, len(line.words)))
    return pieces


def _denied(line: Line) -> set[int]:
    """Return the places of figures and barrels that a line only denies: "not 2, I meant 1"."""
    named = [(m.start, m.end) for m in line.mentions] + [(n.start, n.end) for n in line.numbers]
    return {
        at
        for first, end in named
        if first and line.words[first - 1].text == "not"
        for at in range(first, end)
    }


def _weighs(line: Line, at: int) -> bool:
    """Tell whether a word that stands names what it is about."""
    numbers = {place for n in line.numbers for place in range(n.start, n.end)}
    return at not in numbers and weighty(line.words[at]) and line.words[at].text not in LOOSE


def _only_number(line: Line, stands: list[int]) -> bool:
    """Tell whether the words that stand are one number, and not of what."""
    numbers = [number for number in line.numbers if number.start in set(stands) - _denied(line)]
    if len(numbers) != 1:
        return False
    named = {at for m in line.mentions for at in range(m.start, m.end)}
    left = set(stands) - _denied(line) - set(range(numbers[0].start, numbers[0].end))
    return not named & left and not any(_weighs(line, at) or line.words[at].is_number for at in left)


def _puts_right(line: Line, end: int) -> bool:
    """Tell whether a number, a barrel, "it was" or "the other" comes next: "no sorry" alone declines."""
    near = range(end, end + SOON)
    said = [word.text for word in line.words[end : end + SOON]]
    named = any(n.start in near for n in line.numbers) or any(m.start in near for m in line.mentions)
    return named or bool({"was", "other", "wrong", "meant"} & set(said))


def _tells(line: Line, places: Iterable[int]) -> bool:
    """Tell whether there is more than small words at some places of a line."""
    named = {at for at, text in enumerate(marked(line, mended=True).text.split()) if text in {"@", "#", "~"}}
    return any(at in named or (weighty(line.words[at]) and line.words[at].text not in LOOSE) for at in places)
