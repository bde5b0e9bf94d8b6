"""Which barrel is meant: by number, side, flavour or colour; all, both, all but one.

Rule of the file: `mentions` finds the words and says which barrels they name on this machine; it does not
decide what is said about them. Barrels count from the left as one faces the machine.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from assistant.hear.english import FILLERS, SMALL_WORDS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from assistant.hear.words import Word
    from graph.machine import Machine

Scope = Literal["some", "all", "both", "one"]

# What drinks of a flavour look like, as far as people call them by it.
COLOURS = {
    "cola": "brown",
    "cherry": "red",
    "strawberry": "red",
    "blue": "blue",
    "raspberry": "red",
    "orange": "orange",
    "lemon": "yellow",
    "lime": "green",
    "apple": "green",
    "grape": "purple",
    "blackcurrant": "purple",
    "mango": "orange",
    "watermelon": "pink",
}
COLOUR_WORDS = frozenset(COLOURS.values()) | {"pink", "white", "black"}
FLAVOURS = frozenset(COLOURS) - {"blue"}
ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "1st": 1, "2nd": 2, "3rd": 3, "4th": 4}
CARDINALS = {"one": 1, "two": 2, "three": 3, "four": 4, "1": 1, "2": 2, "3": 3, "4": 4}
NUMBERED = frozenset(
    ["number", "no", "num", "nr", "barrel", "side", "tub", "head", "tap", "#", "bowl", "drum"]
)
SIDES = frozenset(
    ["cylinder", "chamber", "tank", "bank", "nozzle", "spout", "lever", "flavour", "hand", "one", "ones", "side", "barrel", "tub", "head", "tap", "bowl", "handle", "most", "drum"]
)
AFTER = frozenset(["on", "in", "of", "from", "with", "for"])
SEVERAL = tuple(
    (said.split(), which)
    for which, ways in {
        "left": (
            "left two",
            "left hand two",
            "first two",
            "two on the left",
            "two left hand ones",
            "two left ones",
            "two to the left",
        ),
        "right": ("right two", "right hand two", "last two", "two on the right", "two right hand ones", "two right ones"),
        "ends": (
            "outer two",
            "outside two",
            "outside ones",
            "outer ones",
            "two outside ones",
            "two ends",
            "end ones",
            "both ends",
            "two on the ends",
            "two on the end",
            "two at the ends",
            "ones on the ends",
            "ones at the ends",
            "end two",
            "two on the outside",
            "ones on the outside",
        ),
    }.items()
    for said in ways
)
OPENERS = (
    frozenset(said[0] for said, _ in SEVERAL)
    | frozenset(ORDINALS)
    | NUMBERED
    | AFTER
    | {"left", "right", "lh", "rh", "middle", "centre", "all", "both", "everything", "lot", "one"}
    | {"b", "nr", "barrels", "numbers", "sides", "tubs", "taps", "heads", "bowls", "drums"}
    | {"every", "each", "none", "any", "whichever", "either"}
)
TOTAL = frozenset(["all", "every", "each", "none", "any", "whichever", "either"])
NOT_ALL = frozenset(
    [
        "right",
        "day",
        "over",
        "night",
        "i",
        "ok",
        "that",
        "this",
        "we",
        "it",
        "is",
        "there",
        "you",
        "along",
        "time",
    ]
)
PRONOUNS = frozenset(["it", "is", "that", "this", "be"])
ADVERBIAL = frozenset(["is", "out", "gone", "it", "was", "went", "goes", "go", "come", "comes", "got", "gets"])
EXCEPT = frozenset(["bar", "except", "but", "apart", "excluding"])
SHORT = 3
TWO_FIGURES = 2  # "syrup 1 15" is 15 of barrel 1
JOINS = frozenset(["and", "&", ",", "or", "plus", "also", "the", "both", "then"])
LISTS = JOINS | {"just", "only", ".", "one", "along", "it", "is", "ones", "barrel", "barrels", "side", "sides"}
PLURALS = frozenset(["barrels", "numbers", "sides", "tubs", "taps", "heads", "bowls", "drums"])
TUBS = frozenset(["barrel", "side", "tub", "head", "tap", "bowl", "drum"])
SIDE_WORDS = frozenset(["left", "right", "middle", "centre", "lh", "rh"])
OUT_OF = frozenset(["out", "from"])


@dataclass(frozen=True, slots=True)
class Mention:
    """Words that name barrels: words[start:end] mean `barrels`; `scope` tells how."""

    start: int
    end: int
    scope: Scope
    barrels: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Barrels:
    """How barrels are called on one machine."""

    count: int
    called: dict[tuple[str, ...], int]  # words of a flavour or colour -> barrel
    looks: frozenset[str]  # colours that stand in no flavour's name
    openers: frozenset[str]  # the words that a mention may begin with
    measured: frozenset[str]  # what there is one of per barrel: "syrup 2" is that of barrel 2

    @classmethod
    def of(cls, machine: Machine) -> Barrels:
        """Return the names of the barrels of a machine; a name that two share means neither."""
        names: list[tuple[tuple[str, ...], int]] = []
        for barrel, flavour in enumerate(machine.flavours, start=1):
            parts = tuple(flavour.lower().split())
            singles = [*parts, *_shortened(parts), *_colours(parts)]
            names.extend((name, barrel) for name in {parts, *((single,) for single in singles)})
        owners: dict[tuple[str, ...], set[int]] = {}
        for name, barrel in names:
            owners.setdefault(name, set()).add(barrel)
        called = {name: min(found) for name, found in sorted(owners.items()) if len(found) == 1}
        own = {part for flavour in machine.flavours for part in flavour.lower().split()}
        firsts = {name[0] for name in called}
        measured = _one_a_barrel(machine) - firsts - NUMBERED - SIDES
        openers = OPENERS | firsts | {f"{first}s" for first in firsts} | measured
        return cls(machine.barrels, called, COLOUR_WORDS - own, openers, measured)

    def mentions(self, words: Sequence[Word]) -> tuple[Mention, ...]:
        """Return the mentions of barrels in a line, in order, none within another."""
        found: list[Mention] = []
        at = 0
        while at < len(words):
            mention = self._at(words, at) if words[at].text in self.openers else None
            if mention is None:
                at += 1
                continue
            found.append(mention)
            at = mention.end
        found = found or _figures_only(words, self.count)
        return tuple(_excepted(tuple(found), words, self.count))

    def _at(self, words: Sequence[Word], at: int) -> Mention | None:
        for read in (self._named, self._several, self._counted, self._numbered, self._sided, self._total):
            mention = read(words, at)
            if mention is not None:
                return mention
        return None

    def _named(self, words: Sequence[Word], at: int) -> Mention | None:
        for length in (3, 2, 1):
            said = tuple(word.text for word in words[at : at + length])
            barrel = self.called.get(said) or self.called.get(tuple(_singular(text) for text in said))
            if len(said) < length or barrel is None:
                continue
            if said[0] in self.looks and not _is_name(words, at):
                continue
            return Mention(at, at + length, "some", (barrel,))
        return None

    def _several(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "the left two", "two on the right", "the outside ones"."""
        said = [word.text for word in words[at : at + 5]]
        if self.count < 3:  # noqa: PLR2004 - two of two are both
            return None
        for pattern, which in SEVERAL:
            if said[: len(pattern)] == pattern:
                low = {"left": (1, 2), "right": (self.count - 1, self.count), "ends": (1, self.count)}[which]
                return Mention(at, at + len(pattern), "some", low)
        return None

    def _counted(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "second from the left", "first one from the right"."""
        place = ORDINALS.get(words[at].text, 0)
        end = at + 1 + (_text(words, at + 1) in {"one", "barrel", "tap", "side"})
        if not 0 < place <= self.count or _text(words, end) not in {"from", "on", "in"}:
            return None
        end += 1 + (_text(words, end + 1) == "the")
        side = _text(words, end)
        if side not in {"left", "right"}:
            return None
        return Mention(at, end + 1, "some", (place if side == "left" else self.count + 1 - place,))

    def _numbered(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "number two", "barrel 2", "the second one", "on 2"."""
        text, following = words[at].text, _text(words, at + 1)
        if text in PLURALS and (listed := self._listed(words, at)) is not None:
            return listed
        if text in {"no", "nr", "num"} and following == "." and CARDINALS.get(_text(words, at + 2), 0):
            return self._within(Mention(at, at + 3, "some", (CARDINALS[words[at + 2].text],)))
        if text == "b" and at + 1 < len(words) and words[at + 1].start == words[at].end:
            return self._within(Mention(at, at + 2, "some", (CARDINALS.get(following, 0),)))
        barrel = CARDINALS.get(following, 0)
        if text in TUBS and 0 < barrel <= self.count and len(_text(words, at + 2)) == TWO_FIGURES:
            return Mention(at, at + 2, "some", (barrel,))  # "barrel 2 31"
        nobody = text == "no" and following == "one"
        if text in NUMBERED and 0 < barrel <= self.count and not nobody and not _goes_on(words, at + 2):
            return Mention(at, at + 2, "some", (barrel,))
        if (
            text in AFTER
            and following.isdecimal()
            and 0 < barrel <= self.count
            and not _goes_on(words, at + 2)
        ):
            return Mention(at + 1, at + 2, "some", (barrel,))
        if text in self.measured and 0 < barrel <= self.count and not _is_value(words, at + 2):
            return Mention(at + 1, at + 2, "some", (barrel,))
        ordinal = ORDINALS.get(text, 0)
        if 0 < ordinal <= self.count and following in SIDES - {"hand", "most", "one", "ones"}:
            return Mention(at, at + 2, "some", (ordinal,))
        return None

    def _within(self, mention: Mention) -> Mention | None:
        return mention if 0 < mention.barrels[0] <= self.count else None

    def _listed(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "barrels 1 and 3", "sides one, two"."""
        barrels: list[int] = []
        end = at + 1
        while 0 < (barrel := CARDINALS.get(_text(words, end), 0)) <= self.count:
            barrels.append(barrel)
            end += 1
            if not (_text(words, end) in {"and", ","} and _text(words, end + 1) in CARDINALS):
                break
            end += 1
        several = len(barrels) > 1 and barrels == sorted(set(barrels)) and not _goes_on(words, end)
        return Mention(at, end, "some", tuple(barrels)) if several else None

    def _sided(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "left hand one", "the far right", "middle"."""
        text = words[at].text
        barrel = {"left": 1, "right": self.count, "lh": 1, "rh": self.count}.get(text, 0)
        if text in {"middle", "centre"} and self.count == 3:  # noqa: PLR2004 - only three have one in the middle
            barrel = 2
        end = at + 1
        while end < len(words) and words[end].text in SIDES:
            end += 1
        before = _text(words, at - 1)
        figure = end < len(words) and words[end].is_number
        figure = figure or (at > 0 and words[at - 1].is_number and (end == len(words) or words[end].is_mark))
        figure = figure or _beside_side(words, at, end)
        named = end > at + 1 or before in {"the", "far", "on", "my", "just"} or len(words) == 1 or figure
        if not barrel or not named or (text == "right" and _text(words, end) in {"now", "up", "next", "at"}):
            return None
        return Mention(at, end, "some", (barrel,))

    def _total(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "all of them", "every side", "both", "one of them"."""
        text = words[at].text
        if text == "both":
            scope: Scope = "both"
            end = _of_them(words, at + 1)
        elif text == "all" and _text(words, at + 1) in NOT_ALL:
            return None
        elif text == "all" and _text(words, at - 1) in ADVERBIAL and _of_them(words, at + 1) == at + 1:
            return None
        elif text == "all" and _text(words, at + 1) == "the":
            scope, end = "all", _of_them(words, at + 2) if _of_them(words, at + 2) > at + 2 else at + 1
        elif text in TOTAL and _of_them(words, at + 1) > at + 1:
            scope, end = "all", _of_them(words, at + 1)
        elif (
            text == "everything"
            or (text in {"all", "each"} and _text(words, at - 1) != "at")
            or (text == "lot" and _text(words, at - 1) in {"the", "whole"})
        ):
            scope, end = "all", at + 1
        elif text == "one" and (
            _of_them(words, at + 1) > at + 1 or _text(words, at - 1) in {"just", "only", "that"}
        ):
            scope = "all" if _text(words, at - 1) == "not" else "one"
            end = _of_them(words, at + 1)
        else:
            return None
        return Mention(at, end, scope, ()) if end > at else None


def _beside_side(words: Sequence[Word], at: int, end: int) -> bool:
    """Tell whether another side is joined to one: "left and middle"."""
    before = _text(words, at - 2) in SIDE_WORDS and _text(words, at - 1) in {"and", ","}
    return before or (_text(words, end) in {"and", ","} and _text(words, end + 1) in SIDE_WORDS)


def _one_a_barrel(machine: Machine) -> frozenset[str]:
    """Return the words for what each barrel has one of: "syrup", "paddle", "motor"."""
    said = {text.lower() for q in machine.quantities if q.barrel for text in q.say if " " not in text}
    whole = {text for q in machine.quantities if not q.barrel for text in q.say}
    titles = (part.title.partition(", ")[0] for part in machine.components if part.id != part.base)
    nouns = {title.split()[-1].lower() for title in titles}
    return frozenset(said | {noun for noun in nouns if noun.isalpha() and len(noun) > SHORT and noun not in whole})


def _figures_only(words: Sequence[Word], count: int) -> list[Mention]:
    """Return the barrels of a line that is nothing but their numbers, in order: "1 and 3"."""
    told = [(at, word.text) for at, word in enumerate(words) if word.text not in LISTS or word.text in ORDINALS]
    ordinal = all(text in ORDINALS for _, text in told)
    said = [(at, (ORDINALS if ordinal else CARDINALS).get(text, 0)) for at, text in told]
    barrels = [barrel for _, barrel in said]
    if len(barrels) < 2 - ordinal or not barrels or barrels != sorted(set(barrels)) or not 0 < barrels[0] <= barrels[-1] <= count:  # noqa: PLR2004 - one alone is any figure
        return []
    return [Mention(at, at + 1, "some", (barrel,)) for at, barrel in said]


def named(mentions: Sequence[Mention], words: Sequence[Word]) -> tuple[int, ...]:
    """Return the barrels of the first mention and of those joined to it by "and" or a comma.

    Where one thing comes out of another, it is the other: "cherry out of the cola tap" is about the cola.
    """
    group: list[int] = []
    last: Mention | None = None
    for mention in mentions:
        if mention.scope != "some" or is_denied(mention, words):
            continue
        between = [word.text for word in words[last.end : mention.start]] if last else []
        if len(group) > 1 and between == [","]:
            break  # "cola and blue, cherry is fine"
        if last is not None and OUT_OF & set(between[-3:]) and between[-1] == "the":
            group.clear()
        elif last is not None and not all(text in JOINS for text in between):
            break
        group.extend(mention.barrels)
        last = mention
    return tuple(sorted(set(group)))


def is_denied(mention: Mention, words: Sequence[Word]) -> bool:
    """Tell whether barrels are named only to say that it is not those: "not barrel 2"."""
    before = mention.start - 1 - (_text(words, mention.start - 1) == "the")
    return _text(words, before) == "not" and _text(words, before - 1) not in {"do", "does", "did", "have", "can"}


def _is_name(words: Sequence[Word], at: int) -> bool:
    """Tell whether a colour is a barrel's name: "the brown", "on brown", or nothing else; not "it is brown"."""
    alone = all(word.is_mark or word.text in FILLERS - PRONOUNS for i, word in enumerate(words) if i != at)
    return alone or _text(words, at - 1) in {"the", "on"} or _text(words, at + 1) in SIDES


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


def _goes_on(words: Sequence[Word], at: int) -> bool:
    """Tell whether a number goes on here, so that "number one seven" names no barrel."""
    text = _text(words, at)
    return text.isdecimal() or text in {"psi", "bar", "percent", "%", "hundred", "point"}


def _is_value(words: Sequence[Word], at: int) -> bool:
    """Tell whether the figure before this is a measured value: a unit or another figure follows."""
    return (_goes_on(words, at) and len(_text(words, at)) != TWO_FIGURES) or _text(words, at) == "and"


def _singular(text: str) -> str:
    if text.endswith("ies"):
        return text[:-3] + "y"
    return text.removesuffix("s")


def _shortened(parts: tuple[str, ...]) -> list[str]:
    """Return the clipped forms of long flavour names: "razz", "rasp" for raspberry."""
    return [name for part in parts if part == "raspberry" for name in ("razz", "rasp", "ras")]


def _colours(parts: tuple[str, ...]) -> list[str]:
    own = [part for part in parts if part in COLOUR_WORDS]
    return own or [COLOURS[part] for part in parts if part in COLOURS][:1]


def _of_them(words: Sequence[Word], at: int) -> int:
    """Return where "of the three", "three", "sides", "one of them" end that may stand after "all"."""
    end = at
    counted = {"last", "our", "your", "my", "of", "the", "them", "these", "em", "one", "single", "two", "three", "four", "2", "3", "4"}
    counted |= {
        "sides",
        "side",
        "barrels",
        "barrel",
        "heads",
        "head",
        "tubs",
        "taps",
        "tap",
        "flavour",
        "ones",
        "handle",
    }
    counted |= {"handles", "tub", "bowl", "bowls", "flavours"}
    while end < len(words) and words[end].text in counted:
        end += 1
    return end - 1 if end > at and words[end - 1].text in {"the", "of"} else end


def _excepted(found: tuple[Mention, ...], words: Sequence[Word], count: int) -> Iterator[Mention]:
    """Yield the mentions, "all but the cola" made into the others."""
    skip = False
    for index, mention in enumerate(found):
        if skip:
            skip = False
            continue
        following = found[index + 1] if index + 1 < len(found) else None
        if mention.scope == "all" and following is not None and following.scope == "some":
            gap = {word.text for word in words[mention.end : following.start]}
            if gap & EXCEPT and gap <= EXCEPT | SMALL_WORDS:
                rest = tuple(number for number in range(1, count + 1) if number not in following.barrels)
                skip = True
                yield replace(mention, scope="some", barrels=rest, end=following.end)
                continue
        yield mention
