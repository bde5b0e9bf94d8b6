"""Which barrel is meant: by number, side, flavour or colour; all, both, all but one.

Rule of the file: `mentions` finds the words and says which barrels they name on this machine; it does not
decide what is said about them. Barrels count from the left as one faces the machine.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.hear.barrel_words import (
    BEFORE_SIDE,
    CARDINALS,
    COLOUR_WORDS,
    COLOURS,
    EXCEPT,
    FLAVOURS,
    NUMBERED,
    OF_ALL,
    OPENERS,
    ORDINALS,
    PRONOUNS,
    SIDE_WORDS,
    SIDES,
    TOTAL,
)
from assistant.hear.english import FILLERS, SMALL_WORDS, listed
from assistant.hear.mention import Mention, on_a_dial, past_on_a_dial, text_at
from assistant.hear.neighbours import placed_by_others
from assistant.hear.no_barrel import adds_nothing, is_no_side, of_them
from assistant.hear.numbered import figures_only, numbered
from assistant.hear.others import told_by_the_rest
from assistant.hear.several import several

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from assistant.hear.mention import Scope
    from assistant.hear.words import Word
    from graph.machine import Machine
SUBJECT_OF = listed(
    """
    is was has fine ok good does will keeps keep pours pour tastes looks will can not gives give says say
    reads shows still got gets went goes comes came stopped started wants needs works sounds feels smells
    just only on never
    """
)
BEFORE_BARREL = frozenset(["", "the", "my", "our", "and", "only", "just"])
PIPES = listed("hose pipe tube core cores lead wire cable")
SHOWN = PIPES | listed(
    "message light warning alert alarm lamp text banner dot led triangle button line zone sign"
)
NOT_BARREL = listed(
    "box bag carton syrup light lamp wire cable lead button label colour flavour taste sticker and or"
)
LATELY = 128  # stretches whose mentions are kept
SHORT = 2  # letters of words that are too short to be a part's name


@dataclass(frozen=True, slots=True)
class Barrels:
    """How barrels are called on one machine."""

    count: int
    called: dict[tuple[str, ...], int]  # words of a flavour or colour -> barrel
    looks: frozenset[str]  # colours that stand in no flavour's name
    openers: frozenset[str]  # the words that a mention may begin with
    measured: frozenset[str]  # what there is one of per barrel: "syrup 2" is that of barrel 2
    lately: dict[tuple[Word, ...], tuple[Mention, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )

    @classmethod
    def of(cls, machine: Machine) -> Barrels:
        """Return the names of the barrels of a machine; a name that two share means neither."""
        names: list[tuple[tuple[str, ...], int]] = []
        for barrel, flavour in enumerate(machine.flavours, start=1):
            parts = tuple(flavour.lower().split())
            if not parts:  # nobody has said what this barrel holds
                continue
            singles = [*parts, *_shortened(parts), *_colours(parts)]
            clipped = {(*parts[:-1], short) for short in _shortened(parts[-1:])}
            names.extend((name, barrel) for name in {parts, *clipped, *((single,) for single in singles)})
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
        name = tuple(words)
        if name not in self.lately:  # the stretches of one line are looked at several times
            if len(self.lately) >= LATELY:
                self.lately.clear()
            self.lately[name] = self._mentions(name)
        return self.lately[name]

    def _mentions(self, words: Sequence[Word]) -> tuple[Mention, ...]:
        found: list[Mention] = []
        at = 0
        while at < len(words):
            mention = self._at(words, at) if words[at].text in self.openers else None
            if mention is None:
                at += 1
                continue
            found.append(mention)
            at = mention.end
        found = _without_a_row(found, words, self.count) or figures_only(words, self.count)
        found = told_by_the_rest(words, placed_by_others(found, words, self.count), self.count)
        return tuple(_excepted(tuple(found), words, self.count))

    def strangers(self, words: Sequence[Word]) -> dict[int, str]:
        """Return where flavours are named as barrels that are not here: "the lemon is runny"."""
        known = {at for mention in self.mentions(words) for at in range(mention.start, mention.end)}
        return {
            at: _singular(word.text)
            for at, word in enumerate(words)
            if _singular(word.text) in FLAVOURS and at not in known and _stands_for_barrel(words, at)
        }

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
            if (
                on_a_dial(words, at)
                or past_on_a_dial(words, at)
                or (said[0] in self.looks and not _is_name(words, at))
                or (said[0] in COLOUR_WORDS and text_at(words, at + length) in PIPES)
            ):
                continue
            return Mention(at, at + length, "some", (barrel,))
        return None

    def _several(self, words: Sequence[Word], at: int) -> Mention | None:
        return several(words, at, self.count)

    def _counted(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "second from the left", "first one from the right"."""
        place = ORDINALS.get(words[at].text, 0)
        end = at + 1 + (text_at(words, at + 1) in {"one", "barrel", "tap", "side"})
        if not 0 < place <= self.count or text_at(words, end) not in {"from", "on", "in"}:
            return None
        end += 1 + (text_at(words, end + 1) == "the")
        side = text_at(words, end)
        if side not in {"left", "right"}:
            return None
        return Mention(at, end + 1, "some", (place if side == "left" else self.count + 1 - place,))

    def _numbered(self, words: Sequence[Word], at: int) -> Mention | None:
        return numbered(words, at, self.count, self.measured)

    def _sided(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "left hand one", "the far right", "middle"; "right to left" names all in that order."""
        text = words[at].text
        if [word.text for word in words[at : at + 3]] == ["right", "to", "left"]:
            return Mention(at, at + 3, "some", tuple(range(self.count, 0, -1)))
        barrel = {"left": 1, "right": self.count, "lh": 1, "rh": self.count}.get(text, 0)
        elsewhere = text != "mid" or any(w.text in SIDE_WORDS for i, w in enumerate(words) if i != at)
        elsewhere = elsewhere or len(words) == 1 or text_at(words, at + 1) in SIDES  # "mid 60s" is no barrel
        if text in {"middle", "centre", "mid"} and elsewhere and self.count == 3:  # noqa: PLR2004 - only three have one in the middle
            barrel = 2
        end = at + 1
        while end < len(words) and words[end].text in SIDES:
            end += 1
        before = text_at(words, at - 1)
        if text == "left" and [word.text for word in words[at + 1 : at + 3]] == ["one", "of"]:
            return None  # "somebody left one of them on"
        figure = end < len(words) and words[end].is_number
        figure = figure or (at > 0 and words[at - 1].is_number and (end == len(words) or words[end].is_mark))
        figure = figure or _beside_side(words, at, end) or text_at(words, end) in SIDE_WORDS
        figure = figure or (text_at(words, end) == "not" and text_at(words, end + 1) in SIDE_WORDS)
        named = end > at + 1 or before in BEFORE_SIDE or len(words) == 1 or figure
        begins = at == 0 or words[at - 1].is_mark
        named = named or (begins and (text in {"middle", "centre"} or text_at(words, end) in self.measured))
        if not barrel or not named or _in_a_row(words, at) or is_no_side(words, at, end):
            return None
        return Mention(at, end, "some", (barrel,))

    def _every_one(self, words: Sequence[Word], at: int) -> bool:
        """Tell whether "the whole row", "x 3", "three syrup lows" or "right across" is all there are."""
        if _of_all(words, at):
            return True
        text, following = words[at].text, text_at(words, at + 1)
        ends = at + 2 >= len(words) or words[at + 2].is_mark or words[at + 2].text in {"and", "but"}
        if text == "x":
            return self.count > 1 and CARDINALS.get(following, 0) == self.count and ends
        if text in {"right", "clean", "straight"} and following == "across":
            return ends or text_at(words, at + 2) in {"all", "the"}
        counted = self.count > 1 and text.isalpha() and CARDINALS.get(text, 0) == self.count
        return counted and following in self.measured and text_at(words, at + 2).endswith("s")

    def _total(self, words: Sequence[Word], at: int) -> Mention | None:
        """Return "all of them", "every side", "both", "one of them"."""
        text = words[at].text
        if self._every_one(words, at):
            return Mention(at, _of_all(words, at) or at + 2, "all")
        if adds_nothing(words, at):
            return None
        if text == "both":
            scope: Scope = "both"
            end = of_them(words, at + 1)
        elif text == "all" and text_at(words, at + 1) == "the":
            scope, end = "all", of_them(words, at + 2) if of_them(words, at + 2) > at + 2 else at + 1
        elif text == "whole" and text_at(words, at + 1) in CARDINALS:
            scope, end = "all", at + 2
        elif text in TOTAL and of_them(words, at + 1) > at + 1:
            scope, end = "all", of_them(words, at + 1)
        elif (
            text == "everything"
            or (text in {"all", "each"} and text_at(words, at - 1) != "at")
            or (text == "lot" and text_at(words, at - 1) in {"the", "whole"})
        ):
            scope, end = "all", at + 1
        elif text == "one" and (
            of_them(words, at + 1) > at + 1 or text_at(words, at - 1) in {"just", "only", "that"}
        ):
            scope = "all" if text_at(words, at - 1) == "not" else "one"
            end = of_them(words, at + 1)
        else:
            return None
        return Mention(at, end, scope, ()) if end > at else None


def _stands_for_barrel(words: Sequence[Word], at: int) -> bool:
    """Tell whether a flavour is spoken of as a barrel, and no taste, colour or box: "tastes of lime"."""
    before = "" if at == 0 or words[at - 1].is_mark else words[at - 1].text
    return before in BEFORE_BARREL and text_at(words, at + 1) not in NOT_BARREL


def _in_a_row(words: Sequence[Word], at: int) -> bool:
    """Tell whether a side says in which order things are told: "left to right", "from the left"."""
    text = words[at].text
    following = [word.text for word in words[at + 1 : at + 4] if word.text != "the"]
    before = [word.text for word in words[max(at - 3, 0) : at] if word.text != "the"]
    onwards = text == "left" and following[:2] == ["to", "right"]
    back = text == "right" and before[-2:] in (["left", "to"], ["going", "to"])
    from_there = (
        before[-1:] == ["from"]
        and before[-2:-1] != ["one"]
        and not EXCEPT & set(before)
        and not set(before) & set(ORDINALS)
    )
    return onwards or back or (from_there and (not following or not following[0].isalpha()))


def _without_a_row(found: Sequence[Mention], words: Sequence[Word], count: int) -> list[Mention]:
    """Return the mentions without those that say in which order things are told: "cola to blue"."""
    ends = {
        (one.start, other.start)
        for one, other in pairwise(found)
        if one.barrels == (1,) and other.barrels == (count,) and count > 1
        if [word.text for word in words[one.end : other.start]] in (["to"], ["to", "the"], ["through", "to"])
    }
    row = {at for pair in ends for at in pair}
    return [mention for mention in found if mention.start not in row]


def _beside_side(words: Sequence[Word], at: int, end: int) -> bool:
    """Tell whether another side is joined to one: "left and middle"."""
    before = text_at(words, at - 2) in SIDE_WORDS and text_at(words, at - 1) in {"and", ","}
    return before or (text_at(words, end) in {"and", ","} and text_at(words, end + 1) in SIDE_WORDS)


def _one_a_barrel(machine: Machine) -> frozenset[str]:
    """Return the words for what each barrel has one of: "syrup", "motor", and what people call it."""
    said = {text.lower() for q in machine.quantities if q.barrel for text in q.say if " " not in text}
    whole = {text for q in machine.quantities if not q.barrel for text in q.say}
    titles = {part.title.partition(", ")[0].lower() for part in machine.components if part.id != part.base}
    nouns = {title.split()[-1] for title in titles}
    parts = {word for title in titles for word in title.split()}
    nouns |= {
        way
        for concept, ways in machine.lexicon.items()
        if set(concept.split()) <= parts
        for way in (concept, *ways)
    }
    return frozenset(
        said | {noun for noun in nouns if noun.isalpha() and len(noun) > SHORT and noun not in whole}
    )


def _is_name(words: Sequence[Word], at: int) -> bool:
    """Tell whether a colour is a barrel's name: "the brown", "on brown", all there is; not "it is brown"."""
    if text_at(words, at + 1) in SHOWN:
        return False
    alone = all(word.is_mark or word.text in FILLERS - PRONOUNS for i, word in enumerate(words) if i != at)
    begins = at == 0 or words[at - 1].is_mark or words[at - 1].text == "and"
    listed_so = text_at(words, at + 1) in {":", "="} and text_at(words, at + 2).isdecimal()  # "red: 66"
    subject = begins and (text_at(words, at + 1) in SUBJECT_OF or text_at(words, at + 1).isdecimal())
    subject = subject or (begins and listed_so)
    subject = subject or _joined_to_another(words, at)
    return alone or subject or text_at(words, at - 1) in {"the", "on"} or text_at(words, at + 1) in SIDES


def _joined_to_another(words: Sequence[Word], at: int) -> bool:
    """Tell whether another colour or flavour is joined to one: "red and blue"."""
    names = COLOUR_WORDS | set(COLOURS)
    before = text_at(words, at - 1) == "and" and text_at(words, at - 2) in names
    return before or (text_at(words, at + 1) == "and" and text_at(words, at + 2) in names)


def _singular(text: str) -> str:
    if text.endswith("ies"):
        return text[:-3] + "y"
    return text.removesuffix("s")


def _shortened(parts: tuple[str, ...]) -> list[str]:
    """Return the clipped forms of long flavour names: "razz", "rasp" for raspberry."""
    return [name for part in parts if part == "raspberry" for name in ("razz", "raz", "rasp", "ras")]


def _colours(parts: tuple[str, ...]) -> list[str]:
    own = [part for part in parts if part in COLOUR_WORDS]
    return own or [COLOURS[part] for part in parts if part in COLOURS][:1]


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
                if _told_of(words, following.end):  # "all but the cola, that did not" is about the cola
                    yield replace(following, start=mention.start)
                    continue
                yield replace(mention, scope="some", barrels=rest, end=following.end)
                continue
        yield mention


def _told_of(words: Sequence[Word], at: int) -> bool:
    """Tell whether a clause goes on about what was left out: ", that did not make it"."""
    return text_at(words, at) == "," and text_at(words, at + 1) in {"that", "which", "it"}


def _of_all(words: Sequence[Word], at: int) -> int:
    """Return where "the whole row", said by itself, or the "all" of "all but ..." ends, else 0."""
    text, following = words[at].text, text_at(words, at + 1)
    if text in TOTAL | {"anything", "everywhere", "everyone"} and following in EXCEPT:
        return at + 1
    alone = at + 2 >= len(words) or words[at + 2].is_mark
    return at + 2 if text in {"whole", "full", "entire"} and following in OF_ALL and alone else 0
