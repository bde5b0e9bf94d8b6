"""How many barrels are affected, where that was asked: "1 and 2 both, 3's fine", "only the furthest right".

Rule of the file: asked which barrels, every number and side names one. Each clause is of barrels that are
affected, unless it praises them or excepts them; a line that tells anything else is none of this.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import (
    CARDINALS,
    COLOUR_WORDS,
    EXCEPT,
    FLAVOURS,
    ORDINALS,
    SIDE_WORDS,
)
from assistant.hear.denial import FINE
from assistant.hear.english import listed
from assistant.hear.features import weighty
from assistant.hear.mention import is_denied, text_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.joined import Span
    from assistant.hear.line import Line
    from assistant.hear.mention import Mention
    from assistant.hear.words import Word

# What may stand beside the names: that it is only those, where they are, that they are affected.
# What may stand beside barrels that are only named as those in trouble.
TROUBLE = listed(
    """
    barrel side tap tub flavour happening happens problem trouble issue fault culprit bother affected ones
    wrong mean meaning talking ringing calling giving grief playing acting row correction
    """
)
SAYS_MORE = frozenset(  # of a line that was not asked which: more than that
    ["nothing", "none", "no", "not", "out", "does", "do", "doing", "same", "bad", "everything", "or", "nor"]
)
BESIDE = TROUBLE | listed(
    """
    nothing else itself own alone single only just furthest further far look pair lot three two others other
    rest bad same well also both whole machine number one ones hand side so far exact really honest think
    none right of them outside end by on its apart from everything anything each every all them
    over your most doing does do like said say earlier before sorry furthest mainly mostly touch slightly
    worst worse stuff begin first spread now lot single
    """
)
PRAISING = (
    BESIDE | FINE | listed("pours pour pouring works work working runs running freezing serving complaints")
)
TURNS = frozenset([",", ".", ";", "-", "!", "but", "while", "though"])
REST = frozenset(["others", "other", "rest"])
TROUBLE_FREE = frozenset(
    [("all", "right"), ("nothing", "wrong"), ("no", "trouble"), ("no", "bother"), ("no", "issue")]
)
SPREAD = frozenset(["now", "spread", "gone"])
FIRSTS = {"left": 1, "lh": 1, **ORDINALS}
SIDES = SIDE_WORDS | frozenset(ORDINALS)
LASTS = frozenset(["right", "rh"])
MIDDLES = frozenset(["middle", "centre", "mid"])
THREE = 3  # barrels of which one is the middle


@dataclass(frozen=True, slots=True)
class Reach:
    """The barrels that are affected, and those that are said to be fine with the words that say so."""

    barrels: tuple[int, ...]
    every: bool  # all of them, or both, whichever there are
    fine: tuple[int, ...]
    praise: Span


def reached(line: Line, count: int) -> Reach | None:
    """Return which barrels a reply says are affected, None where it tells anything besides or names none."""
    affected: set[int] = set()
    fine: set[int] = set()
    every = spread = False
    praise: Span = (0, 0)
    praises = False
    for first, end in _clauses(line):
        words = line.words[first:end]
        names = _names(line, (first, end), count)
        places = {at for span, _ in names for at in range(*span)}
        places |= {at for m in line.mentions_in((first, end)) for at in range(m.start, m.end)}
        goes_on = praises and [w.text for w in words[:2]] in (
            ["and", "so"],
            ["so", "is"],
        )  # "and so's the blue"
        praises = any(w.text in FINE for w in words) and not any(w.text in {"not", "none"} for w in words)
        praises = praises or goes_on
        texts = [w.text for w in words]
        praises = praises or any(pair in TROUBLE_FREE for pair in pairwise(texts))
        praises = praises and not {"neither", "nor"} & set(texts)  # "neither the cola nor the cherry is ok"
        rest = [w for at, w in enumerate(words, start=first) if at not in places and weighty(w)]
        if any(w.text not in (PRAISING if praises else BESIDE) for w in rest):
            return None
        barrels = {barrel for _, found in names for barrel in found}
        total = any(
            m.scope in {"all", "both"} and not _is_not(m, line) for m in line.mentions_in((first, end))
        )
        if praises:
            fine |= barrels
            if barrels:
                praise = (first, end) if praise == (0, 0) else (praise[0], end)
        elif any(w.text in EXCEPT for w in words) and barrels and total:
            affected |= set(range(1, count + 1)) - barrels
        else:
            affected |= barrels
            every = every or (total and not barrels)
            spread = spread or (total and not barrels and bool(SPREAD & set(texts)))
    affected -= fine
    every = every and not fine and (spread or not affected or len(affected) == count)
    affected = set() if spread and every else affected
    if not affected and not every:
        return None
    return Reach(tuple(sorted(affected)), every or len(affected) == count, tuple(sorted(fine)), praise)


def _clauses(line: Line) -> list[Span]:
    """Return the clauses of a line; a list of names is one: "left, middle and right"."""
    cuts = [0]
    joined = {at for first, end in _rows(line) for at in range(first, end)}
    joined -= {at for row in _rows(line) for at in _commas(line, row)}
    for at, word in enumerate(line.words):
        new = word.text == "and" and any(w.text in {"is", "are", "so"} for w in line.words[at + 1 : at + 4])
        if (word.text in TURNS or new) and at not in joined:
            cuts.append(at)
    cuts.append(len(line.words))
    return [(first, end) for first, end in pairwise(cuts) if end > first]


def _commas(line: Line, row: Span) -> list[int]:
    """Return the commas in a row of names behind which others are praised: "cola, cherry's grand"."""
    first, end = row
    texts = [word.text for word in line.words]
    following = texts[end : next((at for at in range(end, len(texts)) if texts[at] in TURNS), len(texts))]
    commas = [at for at in range(first, end) if texts[at] == ","]
    if not commas or not FINE & set(following):
        return []
    only = {"just", "only"} & set(texts[max(first - 2, 0) : first])
    joins = "and" in texts[first : commas[-1]] or "and" not in texts[first:end]
    return commas[:1] if only else commas[-1:] if joins else []


def _rows(line: Line) -> list[Span]:
    """Return the stretches of names joined by nothing but commas and "and"."""
    named = {at for m in line.mentions if m.scope == "some" for at in range(m.start, m.end)}
    named |= {at for at, w in enumerate(line.words) if w.text in CARDINALS or w.text in SIDES}
    found: list[Span] = []
    first = None
    for at in range(len(line.words) + 1):
        text = line.words[at].text if at < len(line.words) else ""
        if at in named or (first is not None and text in {",", "and", "the"}):
            first = at if first is None else first
            continue
        if first is not None:
            end = at
            while end > first and end - 1 not in named:
                end -= 1
            found.append((first, end))
        first = None
    return found


def _names(line: Line, span: Span, count: int) -> list[tuple[Span, tuple[int, ...]]]:
    """Return the barrels named in a clause; bare numbers and sides name them too."""
    mentions = [m for m in line.mentions_in(span) if m.scope == "some" and not _is_not(m, line)]
    found = [((m.start, m.end), m.barrels) for m in mentions]
    held = {at for m in line.mentions_in(span) for at in range(m.start, m.end)}
    figures = [at for at in range(*span) if at not in held and _is_figure(line.words, at)]
    listed_ones = len(figures) > 1 or any(line.words[at].is_number for at in figures)
    for at in range(*span):
        barrel = _placed(line.words[at].text, count) if not _is_right(line.words, at) else 0
        if not barrel and at in figures and (listed_ones or held):
            barrel = CARDINALS[line.words[at].text]
        if at not in held and 0 < barrel <= count:
            found.append(((at, at + 1), (barrel,)))
    return found


def _is_figure(words: Sequence[Word], at: int) -> bool:
    """Tell whether a word is the number of a barrel, and counts none: "two of the three"."""
    before = text_at(words, at - 1)
    counts = text_at(words, at + 1) == "of" or "of" in {before, text_at(words, at - 2)}
    pointed = words[at].text == "one" and before in {
        "the",
        "just",
        "only",
        "that",
        "this",
        "not",
    }  # "just the one"
    pointed = pointed or (words[at].text == "one" and before in COLOUR_WORDS | FLAVOURS | SIDE_WORDS)
    return words[at].text in CARDINALS and not counts and not pointed


def _is_right(words: Sequence[Word], at: int) -> bool:
    """Tell whether "right" is as it should be: "not a single barrel is right"."""
    return words[at].text == "right" and text_at(words, at - 1) in {
        "is",
        "are",
        "not",
        "quite",
        "all",
        "comes",
    }


def _placed(text: str, count: int) -> int:
    if text in LASTS:
        return count
    if text in MIDDLES and count == THREE:
        return 2
    return FIRSTS.get(text, 0)


def _is_not(mention: Mention, line: Line) -> bool:
    """Tell whether a barrel is named only to leave it out; "not just the blue" takes it in."""
    before: Sequence[str] = [word.text for word in line.words[max(mention.start - 3, 0) : mention.start]]
    return is_denied(mention, line.words) and not {"just", "only"} & set(before)
