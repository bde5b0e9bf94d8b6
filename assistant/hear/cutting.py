"""How a line is cut into what it tells: the cutting of its stretches that explains most.

Rule of the file: every run of neighbouring stretches may tell one thing; what a run tells by itself is
`unasked.read`. Two stretches that clearly tell two things are never one run; neighbours that tell the same
are one.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.features import weighty
from assistant.hear.mention import named
from assistant.hear.polarity import NEGATIONS
from assistant.hear.split import SUBJECTS
from assistant.hear.unasked import DEPENDENT, read

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from assistant.hear.joined import Span
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.unasked import Told
    from assistant.hear.words import Word

PIECE = 0.1  # what each further piece must explain more, so that a line is not cut needlessly
ASIDE, ASIDE_CLOSE, ASIDE_SURE = 0.6, 0.5, 0.9  # how clearly a part of a run must say something else
APIECE, APIECE_CLOSE = 0.65, 0.5  # how clearly each of two parts must say something of its own
LITTLE = 0.2  # what a small word counts
LONGEST = 5  # stretches tried together


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
        for run in _as_one(chosen[-1], words, book)
        for part in _with_aside(run, ends[run.span[0]], (words, segments), runs, book)
    )


def _as_one(runs: Sequence[Told], words: Sequence[Word], book: Phrasebook) -> list[Told]:
    """Return runs, neighbours that tell the same of the same barrels as one: "dasher, not turning"."""
    found: list[Told] = []
    for run in runs:
        last = found[-1] if found else None
        same = last is not None and last.denied == run.denied and _family(last, book) == _family(run, book)
        if last is None or not same or _several_subjects(words, (last.span[0], run.span[1]), book):
            found.append(run)
            continue
        clearer = max(last, run, key=lambda part: part.trust)
        found[-1] = replace(clearer, span=(last.span[0], run.span[1]))
    return found


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
        whole = all(_says_enough(words, part.span, book) for part in (one, other))
        clear = (
            whole and min(one.trust, other.trust) >= APIECE and min(one.score, other.score) >= APIECE_CLOSE
        )
        if clear and run.trust < max(one.trust, other.trust):
            return True
    return False


def _says_enough(words: Sequence[Word], span: Span, book: Phrasebook) -> bool:
    """Tell whether a part may stand alone: several telling words, or one told of a barrel or "it"."""
    said = words[span[0] : span[1]]
    of_something = any(word.text in SUBJECTS for word in said) or bool(book.barrels.mentions(said))
    return sum(map(weighty, said)) > (0 if of_something else 1)


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
