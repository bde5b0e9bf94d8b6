"""Whether a line says that a step is done: "yes shut", "bled to zero", "told sam", "no its open".

Rule of the file: a yes lets people work on what may be under pressure or live, so it is taken only where
every word that carries meaning is in the question, or says the same as a word in it. Everything else is
asked again.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.hear import replies
from assistant.hear.english import FILLERS, SMALL_WORDS, listed
from assistant.hear.joined import Joined
from assistant.hear.polarity import NEGATIONS, negated
from assistant.hear.words import stem, words_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from assistant.facts import Kind
    from assistant.hear.words import Word

# Words that say the same of something made safe; a word in the question lets in the others of its group.
SAME = tuple(
    frozenset(stem(word) for word in group.split())
    for group in (
        "shut close closed off isolated",
        "bled bleed vented zero 0 nil nought nothing gone pressure empty drained released down",
        "locked lock tagged padlocked",
        "told tell knows know warned informed aware",
        "dead proved prove tested discharged",
        "unplugged plug out off isolated",
        "off stopped",
        "quiet silent nothing",
        "dry tight",
        "written noted recorded",
        "back refitted fitted",
    )
)
OPPOSITES = {
    frozenset(map(stem, one.split())): frozenset(map(stem, other.split()))
    for one, other in (
        ("shut closed off isolated", "open on live running"),
        ("open on", "shut closed off"),
        ("dry tight", "wet leaking dripping damp bubbling"),
        ("quiet", "noisy hissing alarm"),
        ("dead", "live"),
        ("gone zero 0 bled", "left hissing"),
    )
}
PLACED = listed("on off open out down back know knows told well")  # small words that carry the answer here
NAMES_FOLLOW = frozenset(map(stem, ["told", "tell", "warned", "informed"]))  # "told sam"
DONE = listed("done finished sorted ready complete completed did")
UNSAID = listed(
    "but except nearly almost half partly if unless maybe should think probably hopefully bar apart bit"
)
CANNOT = re.compile(
    r"^(no |sorry |, )*(i |we |you )?(can not|could not|am not able to|unable to|can never)\b"
    r"|\b(will|would|does|did) not (shut|close|open|move|turn|budge|go|come|lock|fit|bleed|let|stay)\b"
    r"|\b(it|valve|lever|tap|door|panel) (is )?(stuck|seized|jammed)\b"
)


def confirmed(question: str, line: str) -> Kind | None:
    """Return yes, no or cannot where a line says that of a step, None where it is to be asked again.

    `question` is the step as it is shown; what asks is its last sentence.
    """
    words = words_of(line)
    joined = Joined.of(words)
    if not words or joined.text.endswith("?"):
        return None
    if CANNOT.search(joined.text):
        return "cannot"
    opening = replies.leading(joined)
    said = words[opening.span[1] :] if opening is not None else words
    parts = _asked_for(question)
    told = _telling(said)
    if opening is not None and not _unsure(said) and all(word.text in DONE for word in told):
        agrees = opening.kind == "yes" or not told  # "no, done" is neither
        return ("yes" if opening.kind == "yes" else "no") if agrees else None
    verdict = None if _unsure(said) else _verdict(parts, said, told)
    if opening is None:
        enough = any if " or " in _last_question(question) else all
        return verdict if verdict != "yes" or enough(_spoken_of(part, told) for part in parts) else None
    return verdict if verdict == opening.kind else None


def _verdict(parts: Sequence[Mapping[str, bool]], said: Sequence[Word], told: Sequence[Word]) -> Kind | None:
    """Return what words say of what is asked, None where they say more, less or nothing."""
    signs = {name: flag for part in parts for name, flag in part.items()}
    asked = frozenset(signs)
    flags = {word.start: flag for word, flag in zip(said, negated(said), strict=True)}
    denied = [flags[word.start] for word in told]
    if not told or all(word.text in DONE for word in told):
        return None  # whether "done" will do is decided where the question is known
    ends = frozenset(
        list(part)[-1] for part in parts
    )  # "opened" is not what "is all that is opened bled" asks
    if any(word.stem in _opposite(ends) - asked for word in told):
        return None if any(denied) else "no"
    same = asked.union(*(group for group in SAME if group & asked), map(stem, DONE))
    strange = [word for word in told if word.stem not in same]
    persons = any(word.stem in NAMES_FOLLOW for word in told)
    if strange and not (persons and len(strange) == 1):
        return None
    wrong = [flag != signs.get(word.stem, False) for word, flag in zip(told, denied, strict=True)]
    if len(parts) > 1 and any(wrong) and not all(wrong):
        return None  # "no detector, the door is open": one of several things, and which is enough is not said
    return "no" if any(wrong) else "yes"


def _spoken_of(part: Mapping[str, bool], told: Sequence[Word]) -> bool:
    """Tell whether words speak of a part of a question: "dead" is half of "locked and proved dead"."""
    same = set(part).union(*(group for group in SAME if group & set(part)))
    return any(word.text in DONE or word.stem in same for word in told)


def _last_question(question: str) -> str:
    """Return what asks: the last sentence that does, all of it where none does."""
    sentences = re.split(r"(?<=[.!?])\s+", question.strip())
    return " ".join([each for each in sentences if each.endswith("?")][-1:] or sentences)


def _asked_for(question: str) -> list[dict[str, bool]]:
    """Return for each part of what asks (of all where nothing asks) its stems, True for what is denied."""
    found = []
    for text in re.split(r",? (?:and|or) ", _last_question(question)):
        words = words_of(text)
        flags = {word.start: flag for word, flag in zip(words, negated(words), strict=True)}
        found.append({w.stem: flags[w.start] for w in _telling(words) if w.text not in NEGATIONS})
    return [part for part in found if part]


def _opposite(asked: frozenset[str]) -> frozenset[str]:
    """Return the words that say the opposite of what is asked for."""
    return frozenset[str]().union(*(other for one, other in OPPOSITES.items() if one & asked))


def _telling(words: Sequence[Word]) -> list[Word]:
    """Return the words that carry meaning, small ones among them that tell where something is."""
    loose = (SMALL_WORDS | FILLERS | {"not", "no", "yes"}) - PLACED - DONE
    return [word for word in words if not word.is_mark and word.text not in loose]


def _unsure(words: Sequence[Word]) -> bool:
    return any(word.text in UNSAID for word in words)
