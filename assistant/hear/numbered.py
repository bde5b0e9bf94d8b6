"""Barrels by their number: "barrel 2", "no. 3", "B1", "barrels 1 and 3", "the second tub", "syrup 2".

Rule of the file: a figure that may be a measured value names no barrel.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.hear.barrel_words import (
    AFTER,
    CARDINALS,
    COLOUR_WORDS,
    FLAVOURS,
    JOINS,
    LISTS,
    NUMBERED,
    ORDINALS,
    PLURALS,
    SIDES,
    TUBS,
)
from assistant.hear.english import listed
from assistant.hear.mention import Mention, text_at
from assistant.hear.numbers import COUNTED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

SEVERAL = 2
TWO_FIGURES = 2  # "syrup 1 15" is 15 of barrel 1
VERBS = listed(
    """
    is are was were say run has have will wont does do keeps keep pours pour tastes taste went both spits
    spit leaks leak drips drip gives give sprays foams comes come goes looks look sounds stays reads stopped
    froze
    """
)
DENYING = listed("not but neither nor or so")
LITTLE = frozenset(
    ["bit", "little", "jot", "iota", "inch", "time", "more"]
)  # "cannot move the handle one bit"
LONE = SIDES - {"hand", "most", "one", "ones"}


def numbered(words: Sequence[Word], at: int, count: int, measured: frozenset[str]) -> Mention | None:
    """Return the mention by number that begins at a word; `measured` are words for what each barrel has."""
    for read in (_listed, _marked, _tabled, _shown, _plain, _subject):
        mention = read(words, at)
        if mention is not None:
            return mention if max(mention.barrels) <= count else None
    barrel = CARDINALS.get(text_at(words, at + 1), 0)
    so_called = text_at(words, at + 1) == "one" and text_at(words, at - 1) in {"the", "that", "this"}
    tells = text_at(words, at + 2) in {"never", "does", "did", "has", "still", "just", "only"}
    so_called = so_called or (text_at(words, at + 1) == "one" and not at and tells)  # "syrup one never moved"
    so_called = so_called or (words[at].text == "side" and text_at(words, at - 1) in {"low", "high"})
    if words[at].text in measured and 0 < barrel <= count and not so_called and not _is_value(words, at + 2):
        return Mention(at + 1, at + 2, "some", (barrel,))
    return None


def _tabled(words: Sequence[Word], at: int) -> Mention | None:
    """Return what numbers a barrel in a list of values: "first one 58, second 57", "no 1 62"."""
    end = _row(words, at)
    places = [place for place in range(len(words)) if _row(words, place)] if end else []
    if len(places) < SEVERAL:
        return None
    barrels = [_place(words, place) for place in places]
    in_order = barrels == sorted(set(barrels))
    return Mention(at, end, "some", (_place(words, at),)) if in_order else None


def _place(words: Sequence[Word], at: int) -> int:
    """Return the barrel that a word says, also behind "no", 0 if it says none."""
    text = text_at(words, at + (words[at].text in {"no", "nr", "num", "#"}))
    cardinal = 0 if text.isdecimal() and words[at].text == text else CARDINALS.get(text, 0)
    return ORDINALS.get(text, 0) or cardinal


def _row(words: Sequence[Word], at: int) -> int:
    """Return where the number of a barrel ends that a value of two figures follows, 0 if none does."""
    if not _place(words, at) or (at and words[at - 1].text in {"no", "nr", "num", "#", "barrel", *ORDINALS}):
        return 0
    end = at + 1 + (words[at].text in {"no", "nr", "num", "#"})
    end += text_at(words, end) in {"one", "barrel", "syrup"}
    value = end + (text_at(words, end) in {"is", "at", "=", ":", "reads", "says"})
    return end if text_at(words, value).isdecimal() and len(text_at(words, value)) == TWO_FIGURES else 0


def _shown(words: Sequence[Word], at: int) -> Mention | None:
    """Return the figure that a message ends in: "FILL TIMEOUT 3", "syrup low 1 syrup low 2"."""
    barrel = CARDINALS.get(text_at(words, at + 1), 0)
    subject = text_at(words, at - 1)
    row = _counted_up(words, at + 1)
    if subject == "syrup" and row > at + SEVERAL:
        return Mention(at + 1, row, "some", tuple(range(1, (row - at) // 2 + 1)))
    named = words[at].text == "timeout" or (
        words[at].text in {"out", "low", "empty", "fault", "fail", "failed"}
        and subject in {"time", "timed", "syrup", "sold", "fill", "barrel"}
    )
    following = text_at(words, at + SEVERAL)
    ends = at + SEVERAL == len(words) or following in {",", ".", "and", "&", subject}
    return Mention(at + 1, at + SEVERAL, "some", (barrel,)) if named and barrel and ends else None


def _counted_up(words: Sequence[Word], at: int) -> int:
    """Return where a row of figures ends that counts from one: "1-2-3", "1/2/3"; `at` if there is none."""
    end, barrel = at, 1
    while CARDINALS.get(text_at(words, end), 0) == barrel:
        if text_at(words, end + 1) not in {"-", "/"}:
            return end + 1
        end, barrel = end + 2, barrel + 1
    return at


def _listed(words: Sequence[Word], at: int) -> Mention | None:
    """Return "barrels 1 and 3", "sides one, two"."""
    if words[at].text not in PLURALS:
        return None
    barrels: list[int] = []
    end = at + 1
    while barrel := CARDINALS.get(text_at(words, end), 0):
        barrels.append(barrel)
        end += 1
        if not (text_at(words, end) in {"and", ","} and text_at(words, end + 1) in CARDINALS):
            break
        end += 1
    several = len(barrels) == len(set(barrels)) > 1 and not _goes_on(words, end)
    return Mention(at, end, "some", tuple(sorted(barrels))) if several else None


def _marked(words: Sequence[Word], at: int) -> Mention | None:
    """Return "no. 2"."""
    text, following = words[at].text, text_at(words, at + 1)
    later = CARDINALS.get(text_at(words, at + 2), 0)
    if text in {"no", "nr", "num"} and following == "." and later:
        return Mention(at, at + 3, "some", (later,))
    return None


def _subject(words: Sequence[Word], at: int) -> Mention | None:
    """Return the figures that a clause begins with: "2 and 3 are flat", "3 is flat", "3's carbonation"."""
    barrel = CARDINALS.get(words[at].text, 0)
    before = text_at(words, at - 1)
    named = before in COLOUR_WORDS | FLAVOURS | SIDES | set(ORDINALS)  # "the red one's 19", "the good one's"
    owner = {"and", "but", "syrup", *TUBS}
    named = named or (words[at].text == "one" and before.isalpha() and before not in owner)
    if barrel and not named and _owns(words[at]) and at + 1 < len(words) and words[at + 1].is_number:
        return Mention(at, at + 1, "some", (barrel,))  # "syrup two's 63"
    if at and not words[at - 1].is_mark and words[at - 1].text not in {"and", "but"}:
        return None
    barrels: list[int] = []
    end = at
    while text_at(words, end).isdecimal() and (barrel := CARDINALS.get(text_at(words, end), 0)):
        barrels.append(barrel)
        owns = _owns(words[end])
        end += 1
        if not (text_at(words, end) in {"and", ",", "&"} and text_at(words, end + 1) in CARDINALS):
            break
        end += 1
    if not barrels or not (owns or text_at(words, end) in VERBS):
        return None
    return Mention(at, end, "some", tuple(sorted(set(barrels))))


def _owns(word: Word) -> bool:
    """Tell whether a word was typed with an "'s" that is left out: "3's"."""
    return word.end - word.start > len(word.text)


def _plain(words: Sequence[Word], at: int) -> Mention | None:
    """Return "number two", "barrel 2", "on 2", "the second tub"."""
    text, following = words[at].text, text_at(words, at + 1)
    barrel, ordinal = CARDINALS.get(following, 0), ORDINALS.get(text, 0)
    if ordinal and following == "one" and text_at(words, at + 2) in {"along", "in", "across", "over"}:
        return Mention(at, at + 3, "some", (ordinal,))
    if ordinal and following in LONE:
        return Mention(at, at + 2, "some", (ordinal,))
    if not barrel:
        return None
    value = text_at(words, at + 2)  # "barrel 2 31"
    value_follows = text in {*TUBS, "number"} and value.isdecimal() and len(value) <= TWO_FIGURES
    nobody = text == "no" and not following.isdecimal()  # "no one", "no two cups"
    if (
        text in NUMBERED
        and not nobody
        and value not in LITTLE
        and (value_follows or not _goes_on(words, at + 2))
    ):
        return Mention(at, at + 2, "some", (barrel,))
    counts = _goes_on(words, at + 2) or COUNTED.fullmatch(text_at(words, at + 2))  # "in 2 days"
    share = text == "of" and (text_at(words, at - 1) in CARDINALS or text_at(words, at - 1) == "out")
    figure = text in AFTER and following.isdecimal() and not counts and not share
    other = CARDINALS.get(text_at(words, at + 3), 0) if text_at(words, at + 2) in {"and", "&"} else 0
    last = at + 4 == len(words) or (other and words[at + 4].is_mark)  # "on 2 and 3"
    if figure and last and text_at(words, at + 3).isdecimal() and other > barrel:
        return Mention(at + 1, at + 4, "some", (barrel, other))
    return Mention(at + 1, at + 2, "some", (barrel,)) if figure else None


def figures_only(words: Sequence[Word], count: int) -> list[Mention]:
    """Return the barrels of a line that is nothing but their numbers: "1 and 3", "1 & 2 but not 3"."""
    ordinals = {**ORDINALS, "last": count}
    ordinal = any(word.text in ordinals for word in words)
    called = ordinals if ordinal else CARDINALS
    told = [
        (at, word.text)
        for at, word in enumerate(words)
        if word.text not in LISTS | DENYING
        or word.text in ordinals
        or (word.text == "one" and not ordinal and (not at or words[at - 1].text in JOINS | DENYING))
    ]
    barrels = [called.get(text, 0) for _, text in told]
    denies = any(word.text in DENYING for word in words)
    enough = len(barrels) >= (3 if denies else 1 if ordinal else TWO_FIGURES)  # one alone is any figure
    in_order = denies or barrels == sorted(barrels)
    if not enough or not in_order or len(set(barrels)) < len(barrels):
        return []
    if not 0 < min(barrels) <= max(barrels) <= count:
        return []
    return [Mention(at, at + 1, "some", (barrel,)) for (at, _), barrel in zip(told, barrels, strict=True)]


def _goes_on(words: Sequence[Word], at: int) -> bool:
    """Tell whether a number goes on here, so that "number one seven" names no barrel."""
    text = text_at(words, at)
    return text.isdecimal() or text in {"psi", "bar", "percent", "%", "hundred", "point"}


def _is_value(words: Sequence[Word], at: int) -> bool:
    """Tell whether the figure before this is a value or a count: a unit, another figure or "cups" follows."""
    if COUNTED.fullmatch(text_at(words, at)):
        return True
    figure = text_at(words, at)
    alone = figure.isdecimal() and not _goes_on(words, at + 1)  # "syrup 3 9"
    return (_goes_on(words, at) and len(figure) != TWO_FIGURES and not alone) or figure == "and"
