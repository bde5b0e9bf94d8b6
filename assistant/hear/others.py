"""Which barrels "the others" or "the rest" are: those not named before, or not asked about."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.hear.mention import Mention

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.words import Word

OTHERS = frozenset(["others", "rest", "other"])
BEFORE = frozenset(["the", "all", "and", "but"])
OF_THEM = frozenset(
    ["two", "three", "2", "3", "ones", "sides", "barrels", "of", "them", "syrups", "flavours"]
)


ALONE = frozenset(
    ["", ",", ".", "so", "not"]
)  # what may follow "the other two" where nothing is told of them
LEADS = frozenset(["", ",", "is", "only", "just", "then", "so"])


def told_by_the_rest(words: Sequence[Word], mentions: Sequence[Mention], count: int) -> list[Mention]:
    """Return the mentions, with "the other two" where a line says which it is not: "..., not the cola"."""
    found = list(mentions)
    but = {barrel for mention in mentions if mention.scope == "some" for barrel in mention.barrels}
    left = tuple(barrel for barrel in range(1, count + 1) if barrel not in but)
    for at, word in enumerate(words):
        if word.text not in OTHERS or not but or not left:
            continue
        end = at + 1
        while end < len(words) and words[end].text in OF_THEM:
            end += 1
        lead = at - 1 - (at > 0 and words[at - 1].text == "the")
        begins = (words[lead].text if lead >= 0 else "") in LEADS
        alone = (words[end].text if end < len(words) else "") in ALONE
        if begins and alone and (word.text != "other" or end > at + 1):
            found = [m for m in found if m.end <= at or m.start >= end]
            found.append(Mention(at, end, "some", left))
    return sorted(found, key=lambda mention: mention.start)


def with_others(
    words: Sequence[Word], mentions: Sequence[Mention], count: int, asked: int | None
) -> tuple[Mention, ...]:
    """Return the mentions in order with one more for each "the others" whose barrels are known."""
    found = list(mentions)
    for at, word in enumerate(words):
        if word.text not in OTHERS or not at:
            continue
        if not (words[at - 1].is_mark or words[at - 1].text in BEFORE):
            continue
        before = {barrel for mention in mentions if mention.end <= at for barrel in mention.barrels}
        but = before or ({asked} if asked else set())
        end = at + 1
        while end < len(words) and words[end].text in OF_THEM:
            end += 1
        left = tuple(barrel for barrel in range(1, count + 1) if barrel not in but)
        if but and left and (word.text != "other" or end > at + 1 or len(left) == 1):
            found = [
                m if m.end <= at - 1 or m.start >= end else replace(m, scope="one", barrels=()) for m in found
            ]
            found.append(Mention(at - 1, end, "some", left))
    return tuple(sorted(found, key=lambda mention: mention.start))
