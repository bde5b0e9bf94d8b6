"""A line as words: each in a normal form, each knowing where it stands in what was typed.

Rule of the file: nothing here knows of machines; it is English spelling only. One typed word may
become several normal ones ("won't" is "will not"); all of them keep the place of the typed word.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from assistant.hear.english import APOSTROPHED, EXPANSIONS, SMALL_WORDS, listed
from assistant.hear.inflections import IRREGULAR, SAME_ENDING

TYPED = re.compile(
    r"(?:co|h|n|o)2o?s?(?![^\W\d_])"  # chemical names keep their figure
    r"|[ap]\.m\.?(?![^\W\d_])"
    r"|\d+(?:st|nd|rd|th)(?![^\W\d_])"
    r"|\d+(?=['\u2019]s\b)['\u2019]s"
    r"|\d+(?:[.,]\d+)?[oO]+(?![^\W\d_]|['\u2019])"  # the letter for a nought: "6o psi"
    r"|\d+(?:[.,]\d+)?"
    r"|[^\W\d_]+(?:['\u2019`\u00b4][^\W\d_]+)*"
    r"|\S",
    re.IGNORECASE,
)
APOSTROPHES = re.compile("[\u2019`\u00b4]")
STRETCHED = re.compile(r"(.)\1{2,}")  # "sooooo"
PADDED = """
i am afraid/i am sorry to say/i should say/i must say/i have to say/to be honest/to be fair/by the way/if you
ask me/at the moment/believe it or not/would you believe/for some reason/for whatever reason/as it were/so to
speak/thank you very much/if you please/i am sorry to bother you/i am ringing about/i am calling about/
straight up/as you look at it/as i look at it/as you face it/as you are facing it/as you look/when you face it
"""
PADDING: dict[str, tuple[tuple[str, ...], ...]] = {}
for _said in (tuple(way.split()) for way in " ".join(PADDED.split()).split("/")):
    PADDING[_said[0]] = (*PADDING.get(_said[0], ()), _said)
ROUGHLY = re.compile(  # "fiftyish"
    r"(ten|eleven|twelve|\w+teen|(twen|thir|for|fif|six|seven|eigh|nine)ty|one|two|three|four|five|six|seven|"
    r"eight|nine|zero)ish"
)
MEASURED = listed(
    "pressure reading readings number volts volt v psi bar kpa percent degrees c f celsius on point"
)
SHOWING = frozenset(
    ["at", "to", "on", "reads", "says", "is", "shows", "showing", "reading", "near", "nearly"]
)
BEFORE_AN = frozenset("aeiouh")
HYPHENS = frozenset("-\u2010\u2011")
GREETINGS = frozenset(["morning", "afternoon", "evening"])
GREETED = frozenset(
    ["good", "hi", "hello", "all", "mate", "love", "there", "team", "guys", "folks", "pal", "hey"]
)
SHORTEST_STEM = 3
LONGEST_NUMBER = 12  # figures; what is longer is no measurement
LONG_ISH = 6  # "brownish", but "dish"


@dataclass(frozen=True, slots=True)
class Word:
    """One normal word; `start` and `end` are where the typed word stands in the line."""

    text: str
    stem: str
    start: int
    end: int
    sure: bool = True  # False where a typing error was mended
    typed: str = ""  # a mended word as it was

    @property
    def is_mark(self) -> bool:
        """Tell whether this is punctuation."""
        return len(self.text) == 1 and not self.text.isalnum()

    @property
    def is_number(self) -> bool:
        """Tell whether this is written in figures."""
        return self.text[:1].isdecimal() and len(self.text) <= LONGEST_NUMBER and self.text[-1:] not in "odht"


def words_of(line: str) -> tuple[Word, ...]:
    """Return the words and marks of a line in order, contractions and shorthand written out."""
    found: list[Word] = []
    for typed in TYPED.finditer(line):
        if typed.group() in HYPHENS and found and _within_word(line, typed.start(), typed.end()):
            found[-1] = replace(found[-1], end=typed.end())  # "left-hand" is two words
            continue
        texts = written_out(typed.group().lower())
        found.extend(Word(text, stem(text), typed.start(), typed.end()) for text in texts)
    found = _rows(found)
    said = {word.text for word in found}
    for rare, read in (("b", _numbered), ("zero", _none_of), ("an", _joining)):
        if rare in said:  # most lines have none of them
            found = [read(found, at) for at in range(len(found))]
    return tuple(found)


def _rows(found: list[Word]) -> list[Word]:
    """Return the words, "l to r" and "r to l" written out."""
    texts = [word.text for word in found]
    for at in range(len(found) - 2):
        ends = {("l", "are"): ("left", "right"), ("are", "l"): ("right", "left")}.get(
            (texts[at], texts[at + 2])
        )
        if ends and texts[at + 1] in {"to", "-"}:
            found[at], found[at + 1], found[at + 2] = (
                replace(word, text=text, stem=stem(text))
                for word, text in zip(found[at : at + 3], (ends[0], "to", ends[1]), strict=True)
            )
    return found


def _joining(words: list[Word], at: int) -> Word:
    """Return a word, "an" before a consonant being a short "and": "cola an cherry"."""
    word, following = words[at], words[at + 1 : at + 2]
    if word.text != "an" or not following or following[0].text[0] in BEFORE_AN:
        return word
    return replace(word, text="and", stem="and")


def _none_of(words: list[Word], at: int) -> Word:
    """Return a word, "zero" before a thing as "no": "zero fizz", but not "zero psi"."""
    word, following = words[at], words[at + 1].text if at + 1 < len(words) else ""
    before = words[at - 1].text if at else ""
    counts = word.text == "zero" and following.isalpha() and following not in MEASURED | SMALL_WORDS
    return replace(word, text="no", stem="no") if counts and before not in SHOWING else word


def _numbered(words: list[Word], at: int) -> Word:
    """Return a word, "b" before a single figure being short for a barrel: "b2"."""
    word, following = words[at], words[at + 1 : at + 2]
    figure = following and following[0].start == word.end and following[0].text in set("1234")
    return replace(word, text="barrel", stem=stem("barrel")) if word.text == "b" and figure else word


def _within_word(line: str, start: int, end: int) -> bool:
    return start > 0 and end < len(line) and line[start - 1].isalpha() and line[end].isalpha()


def ungreeted(words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Return the words with "morning!" or "evening all," at the beginning read as a greeting, no time."""
    at = next((at for at, word in enumerate(words[:3]) if word.text in GREETINGS), -1)
    following = words[at + 1].text if 0 <= at < len(words) - 1 else ""
    if at < 0 or not (following in GREETED or not following.isalnum()) or len(words) == at + 1:
        return words
    if any(word.text not in GREETED for word in words[:at]):
        return words
    return (*words[:at], replace(words[at], text="hello", stem="hello"), *words[at + 1 :])


def unpadded(words: tuple[Word, ...]) -> tuple[Word, ...]:
    """Return the words with "I'm afraid", "to be honest" and the like read as "um": they tell nothing."""
    found = list(words)
    for at, word in enumerate(words):
        for padding in PADDING.get(word.text, ()):
            if tuple(each.text for each in words[at : at + len(padding)]) == padding:
                found[at : at + len(padding)] = [
                    replace(each, text="um", stem="um") for each in words[at : at + len(padding)]
                ]
    return tuple(found)


def instead(word: Word, texts: tuple[str, ...]) -> tuple[Word, ...]:
    """Return other words in the place of a mistyped one."""
    typed = word.text if len(texts) == 1 else ""
    return tuple(replace(word, text=text, stem=stem(text), sure=False, typed=typed) for text in texts)


@lru_cache(maxsize=20_000)
def written_out(typed: str) -> tuple[str, ...]:
    """Return a typed word in full: "won't" -> ("will", "not"), "cola's" -> ("cola",)."""
    text = APOSTROPHES.sub("'", typed)
    bare = text.replace("'", "")
    if text in APOSTROPHED or bare in EXPANSIONS:
        return APOSTROPHED.get(text) or EXPANSIONS[bare]
    if not bare:
        return (text,)
    if bare[0].isdecimal() and bare[-1] == "o":
        return (bare.replace("o", "0"),)
    if ROUGHLY.fullmatch(bare):
        return bare.removesuffix("ish"), "ish"
    if text.endswith("'s"):
        bare = text[:-2].replace("'", "")
    return (STRETCHED.sub(r"\1", bare) if bare.isalpha() else bare,)


@lru_cache(maxsize=20_000)
def stem(word: str) -> str:
    """Return what the forms of a word share: "freezing" and "freezes" are both "freez".

    A short rule list rather than a full stemmer: what matters is that the same rule meets phrases
    and lines alike.
    """
    if word in IRREGULAR:
        return IRREGULAR[word]
    if len(word) <= SHORTEST_STEM or not word.isalpha() or word in SAME_ENDING:
        return word
    base = _without_plural(word.removesuffix("ish") if len(word) > LONG_ISH else word)
    for ending in ("ing", "ed", "ly"):
        if base.endswith(ending) and len(base) - len(ending) >= SHORTEST_STEM:
            base = _undoubled(base.removesuffix(ending))
            break
    if base in IRREGULAR:
        return IRREGULAR[base]
    if len(base) > SHORTEST_STEM + 1 and base.endswith(("y", "e")):
        base = _undoubled(base[:-1])
    return base


def _without_plural(word: str) -> str:
    if word.endswith("ies") and len(word) > SHORTEST_STEM + 1:
        return word[:-3] + "y"
    if word.endswith(("sses", "shes", "ches", "xes")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def _undoubled(base: str) -> str:
    doubled = len(base) > SHORTEST_STEM and base[-1] == base[-2]
    return base[:-1] if doubled and base[-1] not in "aeiouls" else base
