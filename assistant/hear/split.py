"""Cut a line into stretches that may each say one thing.

Rule of the file: cutting too often does no harm, since neighbouring stretches are also tried together;
cutting too rarely hides a fact. So a cut stands at every mark and before every word that joins or
contrasts.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.hear.english import FILLERS, SMALL_WORDS, listed
from assistant.hear.polarity import NEGATIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.joined import Span
    from assistant.hear.words import Word

CUT_AFTER = frozenset(".,;!?:-\u2013\u2014()/\n")
CUT_BEFORE = listed(
    """
    and but plus also because since after though although while now then when just only or there yet except
    ever started think if whenever until till
    """
)
PRAISE = frozenset(["fine", "ok", "good", "perfect", "normal", "right", "great"])
SUBJECTS = frozenset(["it", "they", "that", "this", "its"])
AUXILIARIES = listed(
    """
    is are was were be am do does did have has had can could will would should must might may why or and but
    definitely really still just probably
    """
)
BE = frozenset(["is", "are", "was", "were", "am", "be"])
EMPTY = FILLERS | {"i", "think", "reckon", "we", "my", "of", "as", "at", "on", "to", "too", "me"}


def segments(words: Sequence[Word], whole: Sequence[Span] = ()) -> tuple[Span, ...]:
    """Return the stretches of a line in order; together they are all its words.

    `whole` are stretches, such as numbers and "cola and cherry", that are never cut.
    """
    kept = {at for first, end in whole for at in range(first + 1, end)}
    cuts = [0]
    for at in range(1, len(words)):
        after_mark = words[at - 1].text in CUT_AFTER and words[at].text not in CUT_AFTER
        anew = words[at - 1].text in PRAISE and words[at].text in SUBJECTS
        anew = anew or _instead(words, cuts[-1], at)
        opens = (words[at].text in CUT_BEFORE and not _only_so(words, at)) or _opens(words, at)
        denied = words[at].text == "or" and any(w.text in NEGATIONS for w in words[cuts[-1] : at])
        if at not in kept and not denied and (after_mark or anew or opens):
            cuts.append(at)
    cuts.append(len(words))
    return _without_empty(words, [(first, end) for first, end in pairwise(cuts) if end > first])


def _only_so(words: Sequence[Word], at: int) -> bool:
    """Tell whether "just" or "only" stands within a clause: "all three are just thin"."""
    return words[at].text in {"just", "only"} and words[at - 1].text in BE


def _opens(words: Sequence[Word], at: int) -> bool:
    """Tell whether "so" begins a clause, "no" a further denial, or "not" a contrast, here."""
    if words[at].text == "so":
        return at + 1 < len(words) and words[at + 1].text in SUBJECTS | {"i", "we", "the", "now"}
    if words[at].text == "no":
        return words[at - 1].text not in SMALL_WORDS and words[at - 1].text not in CUT_BEFORE
    return words[at].text == "not" and words[at - 1].text not in AUXILIARIES


def _instead(words: Sequence[Word], first: int, at: int) -> bool:
    """Tell whether what is the case begins here, after what is not: "not slush it's soup"."""
    following = words[at + 1].text if at + 1 < len(words) else ""
    denied = any(word.text in NEGATIONS for word in words[first : at - 1])
    begins = words[at].text in SUBJECTS and following in {"is", "are", "was"}
    return denied and begins and words[at - 1].text not in AUXILIARIES | {"if", "that", "as", "think"}


def _without_empty(words: Sequence[Word], spans: list[Span]) -> tuple[Span, ...]:
    """Return the stretches, those that say nothing by themselves joined to the next one."""
    found: list[Span] = []
    begin: int | None = None
    for first, end in spans:
        start = first if begin is None else begin
        if all(word.is_mark or word.text in EMPTY for word in words[first:end]):
            begin = start
            continue
        found.append((start, end))
        begin = None
    if begin is not None:
        last = found.pop() if found else (begin, begin)
        found.append((min(last[0], begin), spans[-1][1]))
    return tuple(found)
