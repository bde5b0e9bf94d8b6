"""What a line tells without being asked: symptoms, said or denied.

Rule of the file: every run of neighbouring stretches is compared with every symptom; the cutting of the
line that explains most wins. A run is compared as said, and with its negation taken out: if it comes
closer to a symptom that way, that symptom is denied ("not flat, just runny").
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from assistant.hear.english import FILLERS
from assistant.hear.features import MASKS, weighty
from assistant.hear.joined import Joined
from assistant.hear.mention import named
from assistant.hear.polarity import CONTRAST, NEGATIONS, answers, ends
from assistant.hear.table import Meaning, comparable
from assistant.hear.words import words_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from assistant.hear.joined import Span
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.words import Word

LEAD = 0.8  # what being ahead of the next counts beside being close
FEWEST = 0.38  # trust below this, and nothing was understood
CLEARLY, CHATTER = 0.9, 0.7  # a symptom less to be trusted is none where words come so close to chatter
LONE = 0.5  # likewise where one word alone carries the meaning
SPOKEN = 3  # small words that say something together: "it just will not come out"
BRIEF = 3  # words that carry meaning in "the paddle is turning", which denies without a word of denial
LONE_TRUST = 0.6  # or to be trusted so far
NAMED_ONLY = 0.9  # likewise where there is nothing but a barrel's name: "not the cola"
PIECE = 0.15  # what each further piece must explain more, so that a line is not cut needlessly
DENIAL = 0.08  # how much closer the words must come without their negation
IMPLIED = 0.7  # how close a denial must come that no word of denial states, to be taken without asking
DENIED_LONE = 0.65  # likewise where one word alone carries the meaning
DENIED, CONTRADICTED = 0.6, 0.55  # how close a denial must come; one that says the opposite
ASIDE, ASIDE_CLOSE, ASIDE_SURE = 0.7, 0.5, 0.9  # how clearly a part of a run must say something else
APIECE, APIECE_CLOSE, TOGETHER = 0.9, 0.5, 0.0
UNCLEAR = 0.15  # so near to a denial of something else, what is said is asked first: "it isn't frozen"
NEAREST = 3  # symptoms looked at for contradiction
LITTLE = 0.2  # what a small word counts
CONTRARY = -0.35  # words that agree so little with a symptom say the opposite of it
OPPOSITE = 0.3  # what contradiction takes from how close words come
LONGEST = 5  # stretches tried together
FINE = frozenset(
    [
        "fine",
        "ok",
        "good",
        "perfect",
        "great",
        "normal",
        "alright",
        "grand",
        "lovely",
        "spot",
        "sound",
        "brilliant",
        "working",
        "works",
    ]
)
# What people do to try the machine is no trouble by itself: "I open the tap and ...".
OPERATING = re.compile(
    r"^(and |so |if |when |whenever )?((i|we|you|they|he|she) )?(open|pull|press|push|lift|try)\b"
)
# What is said not to be to blame tells nothing: "the compressor isn't the problem", "it isn't the water".
CLEARED = re.compile(
    r"\b(is|are|was) not (the|an?|my|our) (issue|problem|fault|cause|trouble|culprit)\b"
    r"|^(and |but |so |no |, )*(it|that) is not (the|a) \w+( \w+)?( [,.!])*$"
    r"|\bnothing (is |at all )?wrong with (it|this|that|the machine)\b"
)
NOT_ONE = frozenset(["one"])
UNTROUBLED = re.compile(
    r"(nothing|not anything|no (problems?|issues?|trouble|bother|faults?))( at all)?( wrong)? (with|on)\b"
)
NO, WELL = words_of("not fine")
DENIERS = NEGATIONS
DEPENDENT = frozenset(["when", "while", "whenever", "if", "until", "till"])
EARLY = 3  # a denial comes before the third word that carries meaning


@dataclass(frozen=True, slots=True)
class Told:
    """A symptom that a run of words comes closest to, with the next best; `denied` if it is denied."""

    ranked: tuple[tuple[Meaning, float], ...]
    span: Span
    denied: bool = False
    sure: bool = True  # whether it may be taken without asking
    straight: tuple[Meaning, float] | None = None  # what a denial says if it is none

    @property
    def score(self) -> float:
        """How close the best one comes."""
        return self.ranked[0][1]

    @property
    def trust(self) -> float:
        """How much the best one is to be trusted: how close it comes, and how far ahead of the next it is."""
        return self.score + LEAD * (self.score - self.ranked[1][1])


def told(words: Sequence[Word], segments: Sequence[Span], book: Phrasebook) -> tuple[Told, ...]:
    """Return what the line tells, by the cutting that explains most of it.

    A run explains as much as it is to be trusted, times the share of the line's meaning that it holds.
    """
    weights = [_weight(words, span) for span in segments]
    total = sum(weights) or 1.0
    runs: dict[tuple[int, int], Told] = {}
    gains = [0.0]
    chosen: list[tuple[Told, ...]] = [()]
    for end in range(1, len(segments) + 1):
        best, told_here = gains[end - 1], chosen[end - 1]
        for first in range(end - 1, max(0, end - LONGEST) - 1, -1):  # parts before what they make together
            span = (segments[first][0], segments[end - 1][1])
            apart = first < end - 1 and _several_subjects(words, span, book)
            run = None if apart or (first and _depends(words, span)) else read(words, span, book)
            if run is None or (run.denied and not _denies_on(words, segments[first + 1 : end])):
                continue
            alone = [runs[place, place + 1] for place in range(first, end) if (place, place + 1) in runs]
            if run.denied and len({_family(part, book) for part in alone if part.denied}) > 1:
                continue
            gain = (
                gains[first] + run.trust * sum(weights[first:end]) / total - (PIECE if chosen[first] else 0.0)
            )
            if _two_things(run, (first, end), words, runs, book):
                continue
            run = _clearest(
                run, [runs[inner] for inner in ((first, end - 1), (first + 1, end)) if inner in runs]
            )
            runs[first, end] = run
            if gain > best:
                best, told_here = gain, (*chosen[first], run)
        gains.append(best)
        chosen.append(told_here)
    ends = {segments[place][0]: place for place in range(len(segments))}
    return tuple(
        part
        for run in chosen[-1]
        for part in _with_aside(run, ends[run.span[0]], (words, segments), runs, book)
    )


def _two_things(
    run: Told,
    between: tuple[int, int],
    words: Sequence[Word],
    runs: Mapping[tuple[int, int], Told],
    book: Phrasebook,
) -> bool:
    """Tell whether a run falls into two that each clearly tell something else, and tells no more itself."""
    first, end = between
    for place in range(first + 1, end):
        one, other = runs.get((first, place)), runs.get((place, end))
        if one is None or other is None or _family(one, book) == _family(other, book):
            continue
        told = min(sum(map(weighty, words[part.span[0] : part.span[1]])) for part in (one, other))
        clear = (
            told > 1 and min(one.trust, other.trust) >= APIECE and min(one.score, other.score) >= APIECE_CLOSE
        )
        if clear and run.trust < max(one.trust, other.trust) + TOGETHER:
            return True
    return False


def _with_aside(
    run: Told,
    place: int,
    line: tuple[Sequence[Word], Sequence[Span]],
    runs: Mapping[tuple[int, int], Told],
    book: Phrasebook,
) -> tuple[Told, ...]:
    """Return a run, and a stretch of it that by itself clearly says something else.

    Where that names a barrel, and what stands before it tells what the run tells, the run ends there: the
    barrel is none of its own.
    """
    words, segments = line
    first = end = place
    while end < len(segments) and segments[end][1] <= run.span[1]:
        end += 1
    family = _family(run, book)
    others = [
        (at, part)
        for at in range(first, end)
        if (part := runs.get((at, at + 1))) is not None
        and end - first > 1
        and _family(part, book) != family
        and part.trust >= ASIDE
        and part.score >= ASIDE_CLOSE
        and sum(weighty(word) for word in words[part.span[0] : part.span[1]]) > 1
        and words[part.span[0]].text != "then"
    ]
    if not others:
        return (run,)
    at, aside = others[0]
    before = runs.get((first, at))
    of_barrels = book.barrels.mentions(words[aside.span[0] : aside.span[1]])
    same = before is not None and _family(before, book) == family and before.denied == run.denied
    if before is not None and same and of_barrels:
        run = replace(run, span=before.span)
    return (run, replace(aside, sure=aside.sure and aside.trust >= ASIDE_SURE))


def _family(run: Told, book: Phrasebook) -> str:
    base = run.ranked[0][0].check
    return book.siblings.get(base, (base,))[0]


def _weight(words: Sequence[Word], span: Span) -> float:
    return sum(1.0 if weighty(word) else LITTLE for word in words[span[0] : span[1]])


def _clearest(run: Told, inner: Sequence[Told]) -> Told:
    """Return a run, as sure as the part of it that says the same most clearly."""
    for part in inner:
        same = part.ranked[0][0] == run.ranked[0][0] and part.denied == run.denied
        if same and part.trust > run.trust:
            run = replace(run, ranked=part.ranked, sure=part.sure)
    return run


def _several_subjects(words: Sequence[Word], span: Span, book: Phrasebook) -> bool:
    """Tell whether a run speaks of one barrel and then of another."""
    inner = words[span[0] : span[1]]
    mentions = book.barrels.mentions(inner)
    return set(named(mentions, inner)) != {barrel for mention in mentions for barrel in mention.barrels}


def _denies_on(words: Sequence[Word], later: Sequence[Span]) -> bool:
    """Tell whether later stretches of a denial go on denying: "no smoke, no smell", not "..., just dead"."""
    return all(words[first].text in NEGATIONS | {"or", "and"} for first, _ in later)


def _depends(words: Sequence[Word], span: Span) -> bool:
    """Tell whether a run is the tail of what came before it: "when it fills"."""
    following = words[span[0] + 1].text if span[0] + 1 < span[1] else ""
    return words[span[0]].text in DEPENDENT and following != "anything"  # "if anything it is weak"


def read(words: Sequence[Word], span: Span, book: Phrasebook) -> Told | None:
    """Return the symptoms that one run of words comes closest to, None if to none at all."""
    if CLEARED.search(" ".join(word.text for word in words[span[0] : span[1]])):
        return None
    said = _untroubled(comparable(words[span[0] : span[1]], book.barrels))
    carrying = sum(weighty(word) for word in said)
    straight = book.symptoms.scores(said)
    found = Told(_best(straight, said, book), span)
    talk, clear = book.chatter.likeness(said), found.trust >= CLEARLY
    found = _denial(found, said, straight, book)
    if not (clear or found.denied) and talk >= max(CHATTER, found.score):
        return None
    if found.denied:
        return found if clear or talk < max(CHATTER, found.score) else None
    if OPERATING.match(" ".join(word.text for word in said)):
        found = replace(found, sure=False)
    rest = [word for word in said if not word.is_mark and word.text not in MASKS | NEGATIONS | FILLERS]
    named_only = not carrying and len(rest) < len(said) and len(rest) < SPOKEN
    enough = NAMED_ONLY if named_only else LONE if carrying < 2 else 0.0  # noqa: PLR2004 - one word alone
    clear = found.trust >= LONE_TRUST and not named_only
    return found if found.trust >= FEWEST and (found.score >= enough or clear) else None


def _untroubled(said: tuple[Word, ...]) -> tuple[Word, ...]:
    """Return the words, "nothing wrong with the fizz" put as "the fizz fine"."""
    joined = Joined.of(said)
    match = UNTROUBLED.search(joined.text)
    if match is None:
        return said
    first, end = joined.span(match)
    return (*said[:first], *said[end:], WELL)


def _denial(found: Told, said: Sequence[Word], straight: NDArray[np.float64], book: Phrasebook) -> Told:
    """Return what is denied, where the words look more like a denial; else what was found."""
    turned = _turned(said, straight, book)
    if turned is None:
        return found
    other = book.symptoms.scores(turned)
    agreement, carrying = _agreement(said, int(other.argmax()), book), sum(map(weighty, said))
    ahead = found.score + (0.0 if agreement <= CONTRARY else DENIAL)
    enough = DENIED_LONE if carrying <= 1 else CONTRADICTED if agreement <= CONTRARY else DENIED
    plain = any(word.text in DENIERS | FINE for word in said)
    if not plain and carrying > BRIEF:  # without a word of denial it must look more like one than not
        ahead = max(ahead, float(straight.max()))
    if agreement <= 0 and other.max() >= max(ahead, enough):
        sure = plain or bool(other.max() >= IMPLIED)
        return Told(_best(other, turned, book), found.span, denied=True, sure=sure, straight=found.ranked[0])
    return replace(found, sure=bool(other.max() < max(found.score - UNCLEAR, DENIED)))


def _turned(said: Sequence[Word], straight: NDArray[np.float64], book: Phrasebook) -> tuple[Word, ...] | None:
    """Return the words with the opposite meaning: their negation taken out, or "no" put before them.

    The latter where they say "fine", or assert what the symptom that they come closest to denies.
    """
    plain = undenied(said)
    if plain is not None:
        return plain
    if any(word.text in NEGATIONS for word in said):
        return None
    kept = tuple(word for word in said if word.text not in FINE)
    near = np.argsort(-straight, kind="stable")[:NEAREST].tolist()
    contrary = min(_agreement(said, row, book) for row in near) <= CONTRARY
    if len(kept) == len(said) and not contrary:
        return None
    first = next((at for at, word in enumerate(kept) if weighty(word)), 0)
    return (*kept[:first], NO, *kept[first:])


def undenied(said: Sequence[Word]) -> tuple[Word, ...] | None:
    """Return the words without their negation, None if there is none that may deny what follows."""
    return tuple(word for word in said if word.text not in DENIERS) if _denies(said) else None


def _denies(said: Sequence[Word]) -> bool:
    """Tell whether a negation early in the run may deny what follows.

    "Won't stop" denies nothing, nor does a negation in a later clause: "frozen up, can't move the lever".
    """
    before = 0
    for at, word in enumerate(said):
        if word.text in DENIERS and not answers(said, at):
            following = said[at + 1].text if at + 1 < len(said) else ""
            return not ends(said, at + 1) and not (word.text == "not" and following in NOT_ONE)
        before += weighty(word)
        opens = word.is_mark or word.text in CONTRAST or word.text in DEPENDENT or word.text == "and"
        if before >= EARLY or (before and opens):
            return False
    return False


def nearest(words: Sequence[Word], span: Span, book: Phrasebook, contrary: float = OPPOSITE) -> Told:
    """Return the symptoms that words come closest to, however far, as told in a stretch of the line.

    `contrary` is what contradiction takes from how close they come.
    """
    said = comparable(words, book.barrels)
    return Told(_best(book.symptoms.scores(said), said, book, contrary=contrary), span)


def _best(
    scores: NDArray[np.float64],
    said: Sequence[Word],
    book: Phrasebook,
    count: int = 4,
    contrary: float = OPPOSITE,
) -> tuple[tuple[Meaning, float], ...]:
    """Return the symptoms that come closest, best first; of two sisters only the closer one.

    A symptom that the words contradict is further off than they look.
    """
    near = np.argsort(-scores, kind="stable")[: 3 * count]
    held = {
        row: float(scores[row]) + contrary * min(_agreement(said, row, book), 0.0) for row in near.tolist()
    }
    found: dict[str, tuple[Meaning, float]] = {}
    for row in sorted(held, key=lambda row: -held[row]):
        meaning = book.symptoms.meanings[row]
        found.setdefault(book.siblings.get(meaning.check, (meaning.check,))[0], (meaning, held[row]))
    return tuple(found.values())[:count]


def _agreement(said: Sequence[Word], row: int, book: Phrasebook) -> float:
    """Return how far words agree with a symptom; sisters are the same trouble, so with both on average."""
    return book.symptoms.leans.agreement(said, *book.kin[row])
