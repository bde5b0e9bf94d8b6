"""How many barrels a machine has: asked, said back, and read off what people say in passing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.wording.pieces import sentence, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell

ASK_BARRELS = "How many barrels has the machine? That is how many drinks it freezes side by side."
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
# One barrel is left out: "it's just the one barrel" tells how many have the trouble.
_WORDS = {word: number for number, word in enumerate(_NUMBERS, start=1) if number > 1}
_WORDS |= {"twin": 2, "double": 2, "triple": 3}


def _any(words: str) -> str:
    """Return a pattern of one of some words; `_` stands for a blank within one."""
    return f"(?:{'|'.join(words.split()).replace('_', ' ')})"


_ANY = rf"(?:{'|'.join(_WORDS)}|[2-8])"
_NUMBER = f"(?P<number>{_ANY})"
_BOWL = _any("barrel bowl drum flavou?r side")
_KIND = rf"{_NUMBER}[ -]?{_BOWL}(?:led|ed|r|er)?"
_MACHINE = _any("machine one unit model type job thing version")
_OWNER = _any("it it'?s that this machine one unit we we'?ve i i'?ve ours")
_OWNED = _any("has have had got only just really actually")
_BEHIND = (
    "and but so in_total in_all altogether not btw by_the_way mate here actually really then sorry i_think"
)
_ENDS = rf"(?=\s*(?:$|[.,;:!)]|{_any(_BEHIND)}\b))"
_TOLD = (
    # "a two barrel", "the 4-barrel machine": of some barrels among several nobody speaks like that.
    rf"\b(?P<barrels>{_any('a an the our my this')} {_KIND}(?: {_MACHINE})?){_ENDS}",
    rf"(?:^|[.,;] ?)(?P<barrels>{_KIND} {_MACHINE}){_ENDS}",
    # "it has two barrels", but not "it's two barrels", which may be those that have the trouble.
    rf"\b(?P<barrels>{_OWNER} (?:{_OWNED} )*(?:has|have|got) (?:{_OWNED} )*{_NUMBER}[ -]?{_BOWL}s?){_ENDS}",
    rf"\b(?P<barrels>(?:we|i)'?ve (?:{_OWNED} )*{_NUMBER}[ -]?{_BOWL}s?){_ENDS}",
)
# Where their number is asked for.
_COUNTED = _any("barrel bowl drum flavou?r side handle nozzle tap spout drink lever")
_IN_REPLY = rf"(?:^|.* )(?P<barrels>{_NUMBER}(?: different)?[ -]?{_COUNTED}s?){_ENDS}"
_OTHERS = (
    "other another next second old older last neighbou?r sister used_to not isn'?t hasn'?t never if like"
)
_OTHER = re.compile(rf"\b{_any(_OTHERS)}\b[^.,;]*$")
_SMALL = (
    _any(
        "oh sorry actually really then btw by_the_way mate here and but so well um erm yeah yes wait i_mean"
    ),
    _any("hang_on in_total in_all altogether just only i_think think about maybe probably he she they says?"),
    _any("er uh hm hmm i_guess i_reckon looks_like i_can_see i_count side_by_side as_far_as_i_know probs"),
    _any("it it'?s the a this that ours them of got has have we there there'?s are is machine barrels?"),
)
_SMALL_WORD = rf"\b(?:{'|'.join(_SMALL)})(?![\w'])"
_FILLER = re.compile(rf"{_SMALL_WORD}|\b(?:no|nope|all)\b")
_EDGES = re.compile(rf"^(?:[\s,.;:-]|{_SMALL_WORD})+|(?:[\s,.;:-]|{_SMALL_WORD})+$")
_NOT = re.compile(rf"^[ ,]*not (?:a |the )?{_ANY}(?:[ -]?{_BOWL}s?)?\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Barrels:
    """A number of barrels that a line says the machine has, in which words; `rest` is what else it says."""

    number: int
    words: str
    rest: str = ""


def barrels_said(text: str, *, asked: bool) -> Barrels | None:
    """Return how many barrels a line says the machine has, None where it says nothing of that.

    In reply to the question a bare number will do ("just the two"). What another machine has, what this
    one has not, and how many barrels have a trouble is no such number.
    """
    said = " ".join(text.replace("\u2019", "'").split())
    line = said.lower()
    if line.endswith("?") or len(line) != len(said):
        return None
    patterns = (*_TOLD, _IN_REPLY) if asked else _TOLD
    told = (found for pattern in patterns for found in re.finditer(pattern, line))
    found = next((each for each in told if not _OTHER.search(line[: each.start("number")])), None)
    if found is not None:
        begin, end = found.span("barrels")
        rest = _rest(f"{_rest(said[:begin])} {_rest(_NOT.sub('', said[end:]))}")
        return Barrels(_number(found["number"]), found["barrels"], rest)
    numbers = set(re.findall(rf"\b{_ANY}\b", line)) if asked else set()
    alone = not _rest(re.sub(rf"\b{_ANY}\b", "", line))
    return Barrels(_number(numbers.pop()), line) if len(numbers) == 1 and alone else None


def _rest(words: str) -> str:
    """Return some words without small ones at their edges; empty where there are no others."""
    return _EDGES.sub("", words) if re.search(r"\w", _FILLER.sub("", words)) else ""


def _number(word: str) -> int:
    return int(word) if word.isdecimal() else _WORDS[word]


def barrels_of(number: int) -> str:
    word = _NUMBERS[number - 1] if 0 < number <= len(_NUMBERS) else str(number)
    return f"{word} barrel{'' if number == 1 else 's'}"


def ask_barrels(number: int) -> str:
    """Return the question how many there are where another number was said than the known one."""
    return f"I have this down as a machine with {barrels_of(number)}. How many has it really?"


def barrels_taken(number: int) -> Tell:
    return tell("taken", f"{sentence(barrels_of(number))}: I go by that. Say so if it is another number.")


def barrels_right(number: int) -> Tell:
    return tell("taken", f"{sentence(barrels_of(number))}: that is what I go by.")


def barrels_assumed(number: int) -> Tell:
    text = f"Then I go by {barrels_of(number)}, which is the usual number; nobody has told me."
    return tell("taken", f'{text} If you see another, say so at any time, for instance "it has two barrels".')


def barrels_kept(number: int) -> Tell:
    return tell("taken", f"Then I leave it at {barrels_of(number)}.")


def machines_known(numbers: Sequence[int], here: int) -> Tell:
    *most, last = (barrels_of(number).rpartition(" ")[0] for number in numbers)
    known = f"{', '.join(most)} or {last}" if most else last
    return tell(
        "taken", f"I know machines with {known} barrels. I go by {barrels_of(here)}; take it with care."
    )
